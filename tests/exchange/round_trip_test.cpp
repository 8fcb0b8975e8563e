#include <gmock/gmock.h>

#include <filesystem>
#include <random>

#include "exchange/changes.h"
#include "exchange/export.h"
#include "reading_files.h"

namespace ductwright::exchange::testing {
namespace {

using ::testing::IsEmpty;

// Invented projects with every field filled or left out at random, also with awkward text and values of either system.
class Inventor {
 public:
  explicit Inventor(unsigned seed) : m_random(seed) {}

  fleet::Snapshot project() {
    fleet::Snapshot out;
    out.system = chance() ? quantity::System::ip : quantity::System::si;
    for (int i = 0; i < 6; ++i) out.airHandlers.push_back(airHandler(i));
    for (int i = 0; i < 6; ++i) out.profiles.push_back(profile(i));
    for (int i = 0; i < 6; ++i) out.roomSensors.push_back(roomSensor(i));
    for (int i = 0; i < 6; ++i) out.segments.push_back(segment(i));
    for (int i = 0; i < 6; ++i) out.instruments.push_back(instrument(i));
    for (std::uint8_t i = 1; i <= 20; ++i) {
      auto record = std::make_shared<fleet::UnitRecord>();
      record->unit = unit(i);
      for (int k = 0; k < 12; ++k) record->readings.push_back(reading());
      out.units.push_back(std::move(record));
    }
    return out;
  }

 private:
  bool chance() { return m_random() % 2 == 0; }
  double between(double low, double high) { return std::uniform_real_distribution<double>(low, high)(m_random); }
  template <class T, std::size_t n>
  T any(const T (&list)[n]) {
    return list[m_random() % n];
  }
  std::string text() {
    const char* list[] = {"", "East", "=1+1", "-", "+5", "@x", "'=x", "a,b", "a;b", "say \"no\"", "two\nlines", "Büro 2²", "007", "1/2", "''", "°F"};
    return any(list);
  }
  std::string name(const char* prefix, int i) { return std::string(prefix) + std::to_string(i) + text(); }

  // A value as a person would have typed it in either system, or one that no short number gives.
  double si(quantity::Dimension dimension, double low, double high) {
    const double value = between(low, high);
    if (m_random() % 4 == 0) return value;
    const quantity::Unit& typed = quantity::unitFor(dimension, chance() ? quantity::System::ip : quantity::System::si);
    return quantity::toSi(std::round(quantity::fromSi(value, typed) * 10) / 10, typed);
  }
  template <class Q>
  std::optional<Q> maybe(quantity::Dimension dimension, double low, double high) {
    return chance() ? std::optional(Q::fromSi(si(dimension, low, high))) : std::nullopt;
  }
  auto flow() { return maybe<quantity::Airflow>(quantity::Dimension::airflow, 0, 1); }
  auto temperature() { return maybe<quantity::Temperature>(quantity::Dimension::temperature, 280, 350); }
  std::optional<bool> maybe() { return chance() ? std::optional(chance()) : std::nullopt; }
  std::optional<int> whole(int most) { return chance() ? std::optional(static_cast<int>(m_random() % static_cast<unsigned>(most))) : std::nullopt; }
  template <class E>
  E word() {
    const auto all = fleet::valuesOf<E>();
    return all[m_random() % all.size()];
  }

  fleet::Unit unit(std::uint8_t i) {
    using D = quantity::Dimension;
    fleet::Unit u;
    u.id = unitId(i);
    u.tag = name("2-", i);
    u.building = text();
    u.floor = "1" + text();
    u.zone = text();
    u.airHandler = text();
    u.kind = word<fleet::UnitKind>();
    u.inletDiameter = maybe<quantity::Length>(D::length, 0.1, 0.5);
    u.coolingMax = quantity::Airflow::fromSi(si(D::airflow, 0, 1));
    u.coolingMin = quantity::Airflow::fromSi(si(D::airflow, 0, 1));
    for (auto* each : {&u.heatingMax, &u.heatingMin, &u.reheat, &u.unoccupied, &u.standby, &u.fan, &u.hotMax, &u.hotMin, &u.ventilationMin}) *each = flow();
    u.flowBasis = word<fleet::FlowBasis>();
    u.heat = word<fleet::HeatKind>();
    u.heaterPosition = word<fleet::HeaterPosition>();
    u.heaterPower = maybe<quantity::Power>(D::power, 0, 9000);
    u.heaterStages = whole(4);
    u.heatEnableRatio = chance() ? std::optional(between(0, 1)) : std::nullopt;
    u.coilWaterFlow = maybe<quantity::WaterFlow>(D::waterFlow, 0, 0.001);
    for (auto* each : {&u.coilEnteringWater, &u.designEnteringAir, &u.designDischarge, &u.dischargeLimit, &u.zoneHeatingSetpoint, &u.zoneCoolingSetpoint})
      *each = temperature();
    u.flowCoefficient = maybe<quantity::FlowCoefficient>(D::flowCoefficient, 0.001, 0.1);
    u.strokeTime = maybe<quantity::Duration>(D::duration, 10, 200);
    u.profile = text();
    u.roomSensor = text();
    u.segment = text();
    u.macAddress = whole(128);
    u.deviceInstance = chance() ? std::optional<std::int64_t>(m_random() % 4'194'303) : std::nullopt;
    return u;
  }
  fleet::AirHandler airHandler(int i) {
    fleet::AirHandler a;
    a.name = name("AH-", i);
    a.designFlow = flow();
    a.suppliesWarmAir = maybe();
    a.supplyAirTemperature = temperature();
    a.ductStaticPressure = maybe<quantity::Pressure>(quantity::Dimension::pressure, 0, 500);
    return a;
  }
  fleet::ControllerProfile profile(int i) {
    fleet::ControllerProfile p;
    p.name = name("P", i);
    for (const auto kind : fleet::valuesOf<fleet::UnitKind>())
      if (chance()) p.kindsServed.push_back(kind);
    if (p.kindsServed.empty()) p.kindsServed.push_back(fleet::UnitKind::exhaust);
    for (const auto heat : fleet::valuesOf<fleet::HeatKind>())
      if (heat != fleet::HeatKind::none && chance()) p.heatServed.push_back(heat);
    p.inlets = whole(3);
    for (auto* each : {&p.fan, &p.exhaust, &p.damperFeedback, &p.dischargeSensor}) *each = maybe();
    for (auto* each : {&p.schedules, &p.trends, &p.alarms}) *each = word<fleet::Custody>();
    p.protocol = text();
    p.leastControllablePressure = maybe<quantity::Pressure>(quantity::Dimension::pressure, 0, 10);
    p.strokeTime = maybe<quantity::Duration>(quantity::Dimension::duration, 10, 200);
    p.unitLoad = chance() ? std::optional(between(0, 1)) : std::nullopt;
    p.document = text();
    return p;
  }
  fleet::RoomSensor roomSensor(int i) {
    fleet::RoomSensor s;
    s.name = name("S", i);
    for (auto* each : {&s.display, &s.adjustment, &s.override_, &s.motion, &s.canSetUpController}) *each = maybe();
    return s;
  }
  fleet::NetworkSegment segment(int i) {
    fleet::NetworkSegment s;
    s.name = name("N", i);
    s.speed = chance() ? std::optional(between(9600, 115200)) : std::nullopt;
    s.highestAddress = whole(128);
    s.loadLimit = chance() ? std::optional(between(1, 32)) : std::nullopt;
    return s;
  }
  fleet::Instrument instrument(int i) {
    fleet::Instrument out;
    out.serial = name("INV-", i);
    out.description = text();
    for (const char* quantity : {"flow", "temperature", "inlet pressure difference", "heater power"}) {
      if (!out.accuracies.empty() && chance()) continue;
      const fleet::FlowBasis basis = word<fleet::FlowBasis>();
      out.accuracies.push_back({.quantity = quantity,
                                .share = chance() ? 0.0 : quantity::toSi(std::round(between(0, 50)) / 10, quantity::unitFor(quantity::Dimension::ratio, quantity::System::ip)),
                                .plus = chance() ? 0.0 : between(0, 1),
                                .resolution = chance() ? 0.0 : between(0, 0.1),
                                .expanded = {},
                                .coverage = {},
                                .flowBasis = chance() ? std::optional(basis) : std::nullopt});
    }
    if (chance()) out.calibratedOn = fleet::Day::fromText("2026-01-31");
    if (chance()) out.calibrationDue = fleet::Day::fromText("2027-01-31");
    return out;
  }
  fleet::Reading reading() {
    fleet::Reading r;
    r.procedure = word<fleet::Procedure>();
    r.step = static_cast<int>(m_random() % 3);
    r.run = 1 + static_cast<int>(m_random() % 3);
    r.quantity = word<ReadingQuantity>();
    const auto dimension = fleet::dimensionOf(r.quantity);
    switch (dimension) {
      case quantity::Dimension::flag: r.value = chance() ? 1 : 0; break;
      case quantity::Dimension::count:
      case quantity::Dimension::number: r.value = static_cast<double>(m_random() % 5); break;
      case quantity::Dimension::temperature: r.value = si(dimension, 280, 350); break;
      case quantity::Dimension::ratio: r.value = quantity::toSi(std::round(between(0, 1000)) / 10, quantity::unitFor(dimension, quantity::System::ip)); break;
      default: r.value = si(dimension, 0, 1); break;
    }
    if (chance()) r.takenAt = fleet::Timestamp{1'772'600'000'000 + static_cast<std::int64_t>(m_random() % 100'000'000), static_cast<std::int16_t>(chance() ? 60 : -300)};
    if (chance()) r.waited = static_cast<float>(between(0, 1000));
    const std::string outlet = "o" + text();
    r.outlet = fleet::Word(outlet);
    r.instrument = fleet::Word(chance() ? "" : "INV");
    r.takenBy = fleet::Word(text());
    r.note = fleet::Word(text());
    return r;
  }
  using ReadingQuantity = fleet::ReadingQuantity;
  std::mt19937 m_random;
};

class RoundTrip : public ::testing::TestWithParam<const char*> {
 protected:
  // The table written as CSV or XLSX and opened again.
  static Table again(TableKind kind, const fleet::Snapshot& project) {
    const auto file = std::filesystem::temp_directory_path() / ("round_trip_" + std::to_string(::getpid()) + GetParam());
    const auto written = exportTable(kind, project, file);
    EXPECT_TRUE(written) << (written ? "" : written.error().sentence);
    auto table = readTable(file);
    std::filesystem::remove(file);
    EXPECT_TRUE(table) << (table ? "" : table.error().sentence);
    return table ? *table : readPasted("");
  }
  static Layout layout(TableKind kind, const Table& table, const fleet::Snapshot& project) { return layoutFrom(kind, table, project.system); }
};

template <class Record>
void expectNoChange(const Import<Record>& import, std::size_t records, const fleet::Snapshot& project) {
  EXPECT_EQ(import.problems.errors(), 0U) << ::testing::PrintToString(linesOf(import.problems));
  EXPECT_EQ(import.records.size(), records);
  const auto changes = compare(import, project);
  EXPECT_EQ(changes.unchanged, records) << changes.text();
}

TEST_P(RoundTrip, ExportThenImportIsIdentity) {
  for (unsigned seed = 1; seed <= 10; ++seed) {
    SCOPED_TRACE(seed);
    const fleet::Snapshot p = Inventor(seed).project();
    Table table = again(TableKind::schedule, p);
    expectNoChange(readSchedule(table, layout(TableKind::schedule, table, p)), p.units.size(), p);
    table = again(TableKind::airHandlers, p);
    expectNoChange(readAirHandlers(table, layout(TableKind::airHandlers, table, p)), p.airHandlers.size(), p);
    table = again(TableKind::profiles, p);
    expectNoChange(readProfiles(table, layout(TableKind::profiles, table, p)), p.profiles.size(), p);
    table = again(TableKind::roomSensors, p);
    expectNoChange(readRoomSensors(table, layout(TableKind::roomSensors, table, p)), p.roomSensors.size(), p);
    table = again(TableKind::segments, p);
    expectNoChange(readSegments(table, layout(TableKind::segments, table, p)), p.segments.size(), p);
    table = again(TableKind::instruments, p);
    expectNoChange(readInstruments(table, layout(TableKind::instruments, table, p)), p.instruments.size(), p);
  }
}

TEST_P(RoundTrip, ReadingsComeBackExactly) {
  for (unsigned seed = 1; seed <= 10; ++seed) {
    SCOPED_TRACE(seed);
    const fleet::Snapshot p = Inventor(seed).project();
    const Table table = again(TableKind::readings, p);
    auto import = readReadings(table, layout(TableKind::readings, table, p), ReadingContext::of(p));
    ASSERT_TRUE(import);
    EXPECT_EQ(import->problems.errors(), 0U) << ::testing::PrintToString(linesOf(import->problems));
    EXPECT_EQ(import->readings.size(), 20U * 12U);
    EXPECT_EQ(leaveOutKnown(*import, p), 20U * 12U);
  }
}

INSTANTIATE_TEST_SUITE_P(Formats, RoundTrip, ::testing::Values(".csv", ".xlsx"), [](const auto& each) { return std::string(each.param + 1); });

TEST(Export, WritesWhatWasTypedWhereItCanBeReadAnywhere) {
  auto project = projectWith({"1-01"});
  auto record = std::make_shared<fleet::UnitRecord>(*project.units[0]);
  const auto add = [&](double value, const char* typed) {
    fleet::Reading r;
    r.value = value;
    r.typed = fleet::Word(typed);
    record->readings.push_back(r);
  };
  add(0.212, "212 L/s");
  add(0.212, "0,212 m³/s");
  add(quantity::cfm(1250).si(), "1,250 cfm");
  add(quantity::cfm(450).si(), "");
  record->readings.push_back(record->readings[0]);
  record->readings.back().withdrawn = true;
  project.units[0] = record;
  const Sheet sheet = sheetOf(TableKind::readings, project);
  ASSERT_EQ(sheet.rows.size(), 4U) << "a withdrawn reading is left out";
  const auto value = [&](std::size_t row) { return std::get<std::string>(sheet.rows[row][6]); };
  EXPECT_EQ(value(0), "212 L/s");
  EXPECT_EQ(value(1), "0.212 m³/s");
  EXPECT_EQ(value(2), "1250 cfm");
  EXPECT_EQ(value(3), "450 cfm");
}

TEST(Export, KnowsOnlyTwoEndings) {
  const auto wrong = exportTable(TableKind::schedule, {}, "schedule.ods");
  ASSERT_FALSE(wrong);
  EXPECT_EQ(wrong.error().sentence, "“schedule.ods” ends neither in .csv nor in .xlsx: choose one of the two.");
}

TEST(Export, SettingsAsFoundComeBack) {
  auto project = projectWith({"1-01"});
  auto record = std::make_shared<fleet::UnitRecord>(*project.units[0]);
  record->settings.push_back({unitId(1), "cooling max flow", "212 L/s", 0.212, fleet::Timestamp::fromText("2026-03-04T10:15Z")});
  record->settings.push_back({unitId(1), "heat", "hot water", {}, {}});
  project.units[0] = record;
  const Table table = tableFrom(toCsv(sheetOf(TableKind::settings, project)));
  const auto import = readSettings(table, layoutFrom(TableKind::settings, table), project);
  ASSERT_EQ(import.records.size(), 2U);
  EXPECT_EQ(import.records[0].record, record->settings[0]);
  EXPECT_EQ(import.records[1].record, record->settings[1]);
}

}  // namespace
}  // namespace ductwright::exchange::testing
