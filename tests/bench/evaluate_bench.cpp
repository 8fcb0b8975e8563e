// Judging 10,000 units with 40 readings each, against a plain SELECT of the same rows out of SQLite.
#include <benchmark/benchmark.h>
#include <sqlite3.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <random>
#include <string>

#include "verdict/judge.h"

namespace {

using namespace ductwright;
using fleet::AirflowStep;
using fleet::HeatKind;
using fleet::Procedure;
using fleet::Reading;
using fleet::ReadingQuantity;
using fleet::RiseStep;
using fleet::UnitKind;
using fleet::Word;
using quantity::cfm;
using quantity::fahrenheit;
using enum ReadingQuantity;

constexpr int kUnits = 10'000, kReadings = 40;

// A building of reheat and fan-powered units, proven with named instruments; deterministic.
class Building {
 public:
  Building() {
    for (const char* serial : {"H-1", "H-2", "T-1", "T-2", "P-1"}) m_project.instruments.push_back(instrument(serial));
    for (int i = 0; i < kUnits; ++i) m_project.units.push_back(unit(i));
  }
  [[nodiscard]] const fleet::Snapshot& project() const { return m_project; }

 private:
  static fleet::Instrument instrument(const char* serial) {
    fleet::Instrument out;
    out.serial = serial;
    for (const char* quantity : {"flow", "temperature", "power"}) {
      fleet::Accuracy a;
      a.quantity = quantity;
      (std::string_view(quantity) == "temperature" ? a.plus : a.share) = 0.03;
      out.accuracies.push_back(a);
    }
    return out;
  }

  double about(double value) { return value * std::normal_distribution<double>(1, 0.02)(m_random); }

  void read(fleet::UnitRecord& record, Procedure procedure, int step, ReadingQuantity q, double value, const char* serial) {
    Reading r;
    r.key.ordinal = m_ordinal++;
    r.procedure = procedure;
    r.step = step;
    r.quantity = q;
    r.value = value;
    r.typed = Word("412 cfm");
    r.takenBy = Word("A. Agent");
    r.instrument = Word(serial);
    r.waited = 1000.0F;
    r.takenAt = fleet::Timestamp{1'772'611'200'000 + m_ordinal * 1000LL, 0};
    record.readings.push_back(r);
  }

  void airflow(fleet::UnitRecord& record, AirflowStep step, double flow) {
    read(record, Procedure::airflow, code(step), measuredFlow, about(flow), "H-1");
    read(record, Procedure::airflow, code(step), reportedFlow, about(flow), "");
    read(record, Procedure::airflow, code(step), damperPosition, 0.6, "");
  }

  void lockout(fleet::UnitRecord& record, int number, double flow, bool on) {
    read(record, Procedure::reheatLockout, number, measuredFlow, about(flow), "H-2");
    read(record, Procedure::reheatLockout, number, flowSetpoint, flow, "");
    read(record, Procedure::reheatLockout, number, heatCall, 1, "");
    read(record, Procedure::reheatLockout, number, heatOn, on ? 1 : 0, "");
  }

  void rise(fleet::UnitRecord& record, RiseStep step, double discharge) {
    const bool water = record.unit.heat == HeatKind::hotWater;
    read(record, Procedure::dischargeRise, code(step), measuredFlow, about(cfm(400).si()), "H-1");
    read(record, Procedure::dischargeRise, code(step), enteringAirTemperature, fahrenheit(55).si(), "T-1");
    read(record, Procedure::dischargeRise, code(step), dischargeAirTemperature, fahrenheit(discharge).si(), "T-2");
    read(record, Procedure::dischargeRise, code(step), water ? valvePosition : stagesOn, water ? 1 : 2, "");
    read(record, Procedure::dischargeRise, code(step), water ? enteringWaterTemperature : heaterPower,
         water ? fahrenheit(160).si() : about(4000), water ? "T-1" : "P-1");
  }

  std::shared_ptr<const fleet::UnitRecord> unit(int i) {
    auto record = std::make_shared<fleet::UnitRecord>();
    fleet::Unit& u = record->unit;
    u.tag = std::to_string(i);
    u.kind = UnitKind::reheat;
    u.heat = i % 2 == 0 ? HeatKind::electricStaged : HeatKind::hotWater;
    u.inletDiameter = quantity::inches(8);
    u.coolingMax = cfm(1000);
    u.coolingMin = cfm(200);
    u.heatingMax = cfm(400);
    u.reheat = cfm(400);
    u.heaterPower = quantity::kilowatts(4);
    u.heaterStages = 2;
    u.zoneHeatingSetpoint = fahrenheit(70);
    u.designEnteringAir = fahrenheit(55);
    u.designDischarge = fahrenheit(85);
    u.coilEnteringWater = fahrenheit(160);
    u.coilWaterFlow = quantity::gallonsPerMinute(1.5);
    airflow(*record, AirflowStep::coolingMax, cfm(1000).si());
    airflow(*record, AirflowStep::coolingMin, cfm(200).si());
    airflow(*record, AirflowStep::heatingMax, cfm(400).si());
    airflow(*record, AirflowStep::reheat, cfm(400).si());
    lockout(*record, 1, cfm(200).si(), false);
    lockout(*record, 2, cfm(400).si(), true);
    lockout(*record, 3, cfm(200).si(), false);
    rise(*record, RiseStep::heatOn, 85);
    rise(*record, RiseStep::heatForced, 85);
    rise(*record, RiseStep::heatOff, 55.5);
    read(*record, Procedure::dischargeRise, code(RiseStep::heatOn), zoneTemperature, fahrenheit(70).si(), "T-1");
    if (record->readings.size() != kReadings) std::abort();
    return record;
  }

  fleet::Snapshot m_project;
  std::mt19937 m_random{1};
  std::uint32_t m_ordinal = 0;
};

// The same rows in a file, as readings are kept: one row a reading, texts as texts.
class File {
 public:
  explicit File(const fleet::Snapshot& project)
      : m_path((std::filesystem::temp_directory_path() / ("ductwright_evaluate_bench." + std::to_string(getpid()) + ".sqlite")).string()) {
    std::filesystem::remove(m_path);
    sqlite3_open(m_path.c_str(), &m_db);
    run("CREATE TABLE reading(batch BLOB, ordinal INTEGER, unit BLOB, procedure INTEGER, run INTEGER, step INTEGER,"
        " quantity INTEGER, value REAL, typed TEXT, outlet TEXT, instrument TEXT, taken_by TEXT, note TEXT,"
        " taken_at INTEGER, taken_offset INTEGER, waited REAL, PRIMARY KEY(batch, ordinal)) STRICT, WITHOUT ROWID");
    run("BEGIN");
    sqlite3_stmt* insert = prepare("INSERT INTO reading VALUES(x'00112233445566778899aabbccddeeff',?,"
                                   "x'00112233445566778899aabbccddeeff',?,?,?,?,?,?,?,?,?,?,?,?,?)");
    for (const auto& record : project.units)
      for (const Reading& r : record->readings) add(insert, r);
    sqlite3_finalize(insert);
    run("COMMIT");
  }
  ~File() {
    sqlite3_close(m_db);
    std::filesystem::remove(m_path);
  }
  File(const File&) = delete;
  File& operator=(const File&) = delete;

  // Steps through every row and takes every column.
  [[nodiscard]] double readAll() const {
    sqlite3_stmt* select = prepare("SELECT * FROM reading");
    const int columns = sqlite3_column_count(select);
    double sum = 0;
    while (sqlite3_step(select) == SQLITE_ROW)
      for (int c = 0; c < columns; ++c) sum += take(select, c);
    sqlite3_finalize(select);
    return sum;
  }

 private:
  void run(const char* sql) const {
    if (sqlite3_exec(m_db, sql, nullptr, nullptr, nullptr) != SQLITE_OK) std::abort();
  }
  [[nodiscard]] sqlite3_stmt* prepare(const char* sql) const {
    sqlite3_stmt* statement = nullptr;
    if (sqlite3_prepare_v2(m_db, sql, -1, &statement, nullptr) != SQLITE_OK) std::abort();
    return statement;
  }
  static void add(sqlite3_stmt* insert, const Reading& r) {
    int at = 1;
    const auto number = [&](std::int64_t v) { sqlite3_bind_int64(insert, at++, v); };
    const auto text = [&](Word w) { sqlite3_bind_text(insert, at++, w.text().c_str(), -1, SQLITE_STATIC); };
    number(r.key.ordinal);
    number(static_cast<int>(r.procedure));
    number(r.run);
    number(r.step);
    number(static_cast<int>(r.quantity));
    sqlite3_bind_double(insert, at++, r.value);
    for (const Word w : {r.typed, r.outlet, r.instrument, r.takenBy, r.note}) text(w);
    number(r.takenAt->utcMillis);
    number(r.takenAt->offsetMinutes);
    sqlite3_bind_double(insert, at++, static_cast<double>(*r.waited));
    if (sqlite3_step(insert) != SQLITE_DONE) std::abort();
    sqlite3_reset(insert);
  }
  static double take(sqlite3_stmt* select, int c) {
    switch (sqlite3_column_type(select, c)) {
      case SQLITE_INTEGER: return static_cast<double>(sqlite3_column_int64(select, c));
      case SQLITE_FLOAT: return sqlite3_column_double(select, c);
      case SQLITE_TEXT: return sqlite3_column_text(select, c)[0];
      case SQLITE_BLOB: return *static_cast<const unsigned char*>(sqlite3_column_blob(select, c));
      default: return 0;
    }
  }

  std::string m_path;
  sqlite3* m_db = nullptr;
};

double seconds(std::chrono::steady_clock::duration d) { return std::chrono::duration<double>(d).count(); }

template <class Work>
double timed(Work work) {
  const auto from = std::chrono::steady_clock::now();
  work();
  return seconds(std::chrono::steady_clock::now() - from);
}

const Building& building() {
  static const Building b;
  return b;
}

// `ratio`: how many times faster judging is than the plain SELECT, each at its best in this run.
void evaluateAgainstSelect(benchmark::State& state) {
  const File file(building().project());
  double select = 1e9, judge = 1e9;
  for (auto unused : state) {
    (void)unused;
    select = std::min(select, timed([&] { benchmark::DoNotOptimize(file.readAll()); }));
    const double now = timed([&] { benchmark::DoNotOptimize(verdict::judgeFleet(building().project())); });
    judge = std::min(judge, now);
    state.SetIterationTime(now);
  }
  state.counters["select_ms"] = 1e3 * select;
  state.counters["judge_ms"] = 1e3 * judge;
  state.counters["ratio"] = select / judge;
}
BENCHMARK(evaluateAgainstSelect)->UseManualTime()->Unit(benchmark::kMillisecond)->Iterations(15);

void judgeOnOneCore(benchmark::State& state) {
  for (auto unused : state) {
    (void)unused;
    benchmark::DoNotOptimize(verdict::judgeFleet(building().project(), 1));
  }
  state.counters["us_a_unit"] =
      benchmark::Counter(static_cast<double>(state.iterations()) * kUnits / 1e6,
                         benchmark::Counter::kIsRate | benchmark::Counter::kInvert);
}
BENCHMARK(judgeOnOneCore)->Unit(benchmark::kMillisecond);

// One reading changed: its unit alone is judged again.
void judgeAgainAfterOneReading(benchmark::State& state) {
  const fleet::Snapshot& before = building().project();
  const verdict::FleetVerdict verdicts = verdict::judgeFleet(before);
  fleet::Snapshot after = before;
  auto changed = std::make_shared<fleet::UnitRecord>(*after.units[77]);
  changed->readings.front().value *= 1.01;
  after.units[77] = changed;
  for (auto unused : state) {
    (void)unused;
    benchmark::DoNotOptimize(verdict::judgeAgain(after, before, verdicts));
  }
}
BENCHMARK(judgeAgainAfterOneReading)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
