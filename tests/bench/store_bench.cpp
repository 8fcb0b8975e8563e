// The project file against SQLite alone, with 10,000 units and 400,000 readings: opening and loading against a plain
// SELECT of the same rows, writing readings against a plain INSERT of them.
#include <benchmark/benchmark.h>
#include <sqlite3.h>
#include <sys/resource.h>

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include "store/project_file.h"

namespace {

using namespace ductwright;
namespace fs = std::filesystem;

constexpr int kUnits = 10'000, kReadings = 40;

store::Environment environment() {
  auto out = store::Environment::ofSystem("bench");
  out.now = [t = std::int64_t{1'790'000'000'000}]() mutable { return fleet::Timestamp{t += 1, 0}; };
  return out;
}

fleet::Unit unit(const store::Environment& environment, int i) {
  fleet::Unit u;
  u.id = environment.newId<fleet::Unit>();
  u.tag = std::to_string(i / 100) + "-" + std::to_string(i % 100);
  u.floor = std::to_string(i / 100);
  u.airHandler = "AHU-1";
  u.kind = fleet::UnitKind::reheat;
  u.heat = fleet::HeatKind::hotWater;
  u.inletDiameter = quantity::inches(8);
  u.coolingMax = quantity::cfm(450);
  u.coolingMin = quantity::cfm(120);
  u.reheat = quantity::cfm(200);
  u.designDischarge = quantity::fahrenheit(90);
  return u;
}

fleet::Reading reading(int i) {
  fleet::Reading r;
  r.procedure = static_cast<fleet::Procedure>(i % kReadings * 3 / kReadings);
  r.step = i % 9;
  r.quantity = static_cast<fleet::ReadingQuantity>(i % 25);
  r.value = 0.2 + i * 1e-6;
  r.takenAt = fleet::Timestamp{1'790'000'000'000 + i * 1000LL, -300};
  r.waited = 300.0F;
  r.typed = fleet::Word(std::to_string(100 + i % 900) + " cfm");
  r.instrument = fleet::Word("INV-001");
  r.takenBy = fleet::Word("A. Invented");
  return r;
}

double timed(const std::function<void()>& work) {
  const auto from = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - from).count();
}

void require(bool what) {
  if (!what) std::abort();
}

// A folder with the project, gone at the end.
class Place {
 public:
  Place() : m_folder(fs::temp_directory_path() / "ductwright_store_bench") {
    fs::remove_all(m_folder);
    fs::create_directories(m_folder);
    project = std::move(*store::ProjectFile::create(file(), environment(), {"Invented", quantity::System::ip, {}},
                                                    {"New", "A. Invented"}));
    const auto done = project->commit({"Schedule", "A. Invented"}, [&](store::Writer& w) -> Result<void> {
      for (int i = 0; i < kUnits; ++i) {
        units.push_back(unit(project->environment(), i));
        w.put(units.back());
      }
      return {};
    });
    require(done.has_value());
  }
  ~Place() { fs::remove_all(m_folder); }
  Place(const Place&) = delete;
  Place& operator=(const Place&) = delete;
  [[nodiscard]] fs::path file() const { return m_folder / "bench.ductwright"; }
  [[nodiscard]] fs::path other() const { return m_folder / "plain.sqlite"; }

  Result<store::Committed> import(const std::vector<fleet::Reading>& readings) {
    return project->commit({"Readings", "A. Invented"}, [&](store::Writer& w) -> Result<void> {
      const auto batch = w.newBatch("readings.csv");
      for (std::size_t i = 0; i < readings.size(); ++i) w.addReading(batch, units[i / kReadings].id, readings[i]);
      return {};
    });
  }

  std::unique_ptr<store::ProjectFile> project;
  std::vector<fleet::Unit> units;

 private:
  fs::path m_folder;
};

std::vector<fleet::Reading> readings() {
  std::vector<fleet::Reading> out;
  for (int i = 0; i < kUnits * kReadings; ++i) out.push_back(reading(i));
  return out;
}

// Steps through every reading of the project and takes every column.
double plainSelect(const fs::path& path) {
  sqlite3* db = nullptr;
  require(sqlite3_open_v2(path.c_str(), &db, SQLITE_OPEN_READONLY, nullptr) == SQLITE_OK);
  sqlite3_stmt* s = nullptr;
  require(sqlite3_prepare_v2(db, "SELECT * FROM reading", -1, &s, nullptr) == SQLITE_OK);
  double sum = 0;
  while (sqlite3_step(s) == SQLITE_ROW)
    for (int c = 0; c < sqlite3_column_count(s); ++c) switch (sqlite3_column_type(s, c)) {
        case SQLITE_INTEGER:
          sum += static_cast<double>(sqlite3_column_int64(s, c));
          break;
        case SQLITE_FLOAT:
          sum += sqlite3_column_double(s, c);
          break;
        case SQLITE_NULL:
          break;
        default:
          sum += sqlite3_column_text(s, c) != nullptr ? sqlite3_column_bytes(s, c) : 0;
      }
  sqlite3_finalize(s);
  sqlite3_close(db);
  return sum;
}

// The rows of the project's readings, one prepared INSERT, one transaction, in a file of their own.
void plainInsert(const fs::path& from, const fs::path& to) {
  fs::remove(to);
  sqlite3* db = nullptr;
  require(sqlite3_open(to.c_str(), &db) == SQLITE_OK);
  const std::string attach = "ATTACH '" + from.string() + "' AS project";
  require(sqlite3_exec(db, attach.c_str(), nullptr, nullptr, nullptr) == SQLITE_OK);
  const char* const copy =
      "CREATE TABLE reading (number INTEGER NOT NULL PRIMARY KEY, unit BLOB, procedure INTEGER, run INTEGER, "
      "step INTEGER, quantity INTEGER, value REAL, taken_at INTEGER, taken_offset INTEGER, waited REAL, outlet TEXT, "
      "typed TEXT, instrument TEXT, taken_by TEXT, note TEXT, hash BLOB)";
  require(sqlite3_exec(db, copy, nullptr, nullptr, nullptr) == SQLITE_OK);
  sqlite3_stmt *rows = nullptr, *insert = nullptr;
  require(sqlite3_prepare_v2(db, "SELECT * FROM project.reading", -1, &rows, nullptr) == SQLITE_OK);
  require(sqlite3_prepare_v2(db, "INSERT INTO reading VALUES (?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?)", -1, &insert, nullptr) ==
          SQLITE_OK);
  require(sqlite3_exec(db, "BEGIN", nullptr, nullptr, nullptr) == SQLITE_OK);
  while (sqlite3_step(rows) == SQLITE_ROW) {
    for (int c = 0; c < 16; ++c) sqlite3_bind_value(insert, c + 1, sqlite3_column_value(rows, c));
    require(sqlite3_step(insert) == SQLITE_DONE);
    sqlite3_reset(insert);
  }
  require(sqlite3_exec(db, "COMMIT", nullptr, nullptr, nullptr) == SQLITE_OK);
  sqlite3_finalize(rows);
  sqlite3_finalize(insert);
  sqlite3_close(db);
}

void importAgainstPlainInsert(benchmark::State& state) {
  Place place;
  const auto rows = readings();
  double ours = 0, floor = 0;
  for (auto _ : state) {
    ours += timed([&] { require(place.import(rows).has_value()); });
    floor += timed([&] { plainInsert(place.file(), place.other()); });
    require(place.project->undo("A. Invented", fleet::Role::agent).has_value());
  }
  state.counters["readings_per_s"] = static_cast<double>(rows.size()) * static_cast<double>(state.iterations()) / ours;
  state.counters["times_the_insert"] = ours / floor;
}
BENCHMARK(importAgainstPlainInsert)->Iterations(1)->Repetitions(3)->ReportAggregatesOnly()->Unit(benchmark::kMillisecond);

void openAndLoadAgainstPlainSelect(benchmark::State& state) {
  Place place;
  require(place.import(readings()).has_value());
  place.project.reset();
  double open = 0, load = 0, floor = 0;
  for (auto _ : state) {
    store::Opening opening;
    open += timed([&] { opening = store::ProjectFile::open(place.file(), environment()); });
    fleet::Snapshot snapshot;
    load += timed([&] { snapshot = *opening.project->load(); });
    require(snapshot.units.size() == kUnits);
    opening.project.reset();
    floor += timed([&] { benchmark::DoNotOptimize(plainSelect(place.file())); });
  }
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  state.counters["open_times_the_select"] = open / floor;
  state.counters["load_times_the_select"] = load / floor;
  state.counters["both_times_the_select"] = (open + load) / floor;
  state.counters["peak_MB"] = static_cast<double>(usage.ru_maxrss) / 1024;
}
BENCHMARK(openAndLoadAgainstPlainSelect)->Iterations(5)->Unit(benchmark::kMillisecond);

// A typed reading: stored, and the snapshot with it.
void oneReading(benchmark::State& state) {
  Place place;
  require(place.import(readings()).has_value());
  fleet::Snapshot snapshot = *place.project->load();
  double commit = 0, refresh = 0;
  for (auto _ : state) {
    Result<store::Committed> done;
    commit += timed([&] {
      done = place.project->commit({"Reading", "A. Invented"}, [&](store::Writer& w) -> Result<void> {
        w.addReading(w.newBatch("typed"), place.units[77].id, reading(5));
        return {};
      });
    });
    require(done.has_value());
    refresh += timed([&] { snapshot = *place.project->refreshed(snapshot, done->changed); });
  }
  state.counters["commit_ms"] = commit * 1000 / static_cast<double>(state.iterations());
  state.counters["refresh_ms"] = refresh * 1000 / static_cast<double>(state.iterations());
}
BENCHMARK(oneReading)->Iterations(100)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
