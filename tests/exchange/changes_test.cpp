#include "exchange/changes.h"

#include <gmock/gmock.h>

#include "reading_files.h"

namespace ductwright::exchange::testing {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

// A project made of an imported schedule.
fleet::Snapshot projectOf(const Import<fleet::Unit>& import) {
  fleet::Snapshot out;
  std::uint8_t n = 0;
  for (const auto& [row, unit] : import.records) {
    auto record = std::make_shared<fleet::UnitRecord>();
    record->unit = unit;
    record->unit.id = unitId(++n);
    out.units.push_back(std::move(record));
  }
  return out;
}

constexpr auto* kFirst =
    "unit,floor,kind,cooling max flow,cooling min flow,heat,reheat flow\n1-01,1,reheat,450,120,hot water,200\n1-02,1,reheat,500,150,none,\n1-03,1,reheat,600,150,none,\n";

TEST(Changes, TheSameScheduleAgainChangesNothing) {
  const auto project = projectOf(scheduleFrom(kFirst));
  const auto changes = compare(scheduleFrom(kFirst), project);
  EXPECT_TRUE(changes.nothing());
  EXPECT_EQ(changes.unchanged, 3U);
  EXPECT_EQ(changes.text(), "0 added, 0 changed, 3 unchanged");
}

TEST(Changes, AreToldFieldByFieldAndUnitsNotInTheFileAreKept) {
  const auto project = projectOf(scheduleFrom(kFirst));
  const auto changes = compare(scheduleFrom("unit,floor,kind,cooling max flow,cooling min flow,reheat flow\n"
                                            "1-01,1,Reheat,480,120,\n1-02,1,reheat,500,150,\n1-04,1,reheat,300,90,\n"),
                               project);
  ASSERT_EQ(changes.changed.size(), 1U);
  EXPECT_EQ(changes.changed[0].row, 2U);
  EXPECT_EQ(changes.changed[0].record.id, unitId(1));
  EXPECT_EQ(changes.changed[0].record.coolingMax, quantity::cfm(480));
  EXPECT_EQ(changes.changed[0].record.reheat, std::nullopt) << "an empty cell of a given column clears it";
  EXPECT_EQ(changes.changed[0].record.heat, fleet::HeatKind::hotWater) << "a column that is not given stays";
  ASSERT_EQ(changes.added.size(), 1U);
  EXPECT_EQ(changes.added[0].record.tag, "1-04");
  EXPECT_TRUE(changes.added[0].record.id.isNull());
  EXPECT_THAT(changes.dropped, ElementsAre("1-03"));
  EXPECT_EQ(changes.text(),
            "1 added, 1 changed (1-01: cooling max flow 450 cfm → 480 cfm, reheat flow 200 cfm → (empty)), 1 unchanged, 1 not in the file (kept): 1-03");
}

TEST(Changes, ShowMoreDigitsWhereTheUsualOnesHideThem) {
  const auto project = projectOf(scheduleFrom(kFirst));
  const auto changes = compare(scheduleFrom("unit,floor,kind,cooling max flow,cooling min flow\n1-01,1,reheat,450.2,120\n"), project);
  ASSERT_EQ(changes.changed.size(), 1U);
  EXPECT_EQ(changes.changed[0].fields[0].before, "450 cfm");
  EXPECT_EQ(changes.changed[0].fields[0].after, "450.2 cfm");
}

TEST(Changes, OfInstrumentsKeepWhatTheFileDoesNotName) {
  const auto instruments = [](std::string text) {
    const Table table = tableFrom("serial,description,quantity,percent of reading,calibration due\n" + text);
    return readInstruments(table, layoutFrom(TableKind::instruments, table));
  };
  fleet::Snapshot project;
  const auto before = instruments("A,Hood,flow,3,2026-06-01\nA,Hood,pressure,1,\nB,Gauge,pressure,1,\n");
  for (const auto& placed : before.records) project.instruments.push_back(placed.record);
  project.instruments[0].accuracies[0].plus = 0.001;
  const auto changes = compare(instruments("A,Hood,flow,2,2027-06-01\n"), project);
  ASSERT_EQ(changes.changed.size(), 1U);
  const fleet::Instrument& hood = changes.changed[0].record;
  EXPECT_EQ(hood.accuracies.size(), 2U);
  EXPECT_DOUBLE_EQ(hood.accuracies[0].share, 0.02);
  EXPECT_EQ(hood.accuracies[0].plus, 0.001);
  EXPECT_EQ(hood.calibrationDue, fleet::Day::fromText("2027-06-01"));
  EXPECT_THAT(changes.dropped, ElementsAre("B"));
}

TEST(Changes, OfOtherTables) {
  const Table table = tableFrom("air handler,design flow\nAH-1,24000\nAH-2,9000\n");
  const auto import = readAirHandlers(table, layoutFrom(TableKind::airHandlers, table));
  fleet::Snapshot project;
  fleet::AirHandler one;
  one.name = "AH-1";
  one.designFlow = quantity::cfm(20000);
  one.suppliesWarmAir = true;
  project.airHandlers.push_back(one);
  const auto changes = compare(import, project);
  EXPECT_EQ(changes.text(), "1 added, 1 changed (AH-1: design flow 20000 cfm → 24000 cfm), 0 unchanged");
  EXPECT_EQ(changes.changed[0].record.suppliesWarmAir, true);
}

fleet::FoundSetting found(std::string setting, std::string typed, std::optional<double> value, const char* at = nullptr) {
  fleet::FoundSetting out;
  out.unit = unitId(1);
  out.setting = std::move(setting);
  out.typed = std::move(typed);
  out.value = value;
  if (at != nullptr) out.readAt = fleet::Timestamp::fromText(at);
  return out;
}

bool isSame(const fleet::Snapshot& project, fleet::FoundSetting setting) {
  const auto compared = compareSettings({std::move(setting)}, project);
  EXPECT_EQ(compared.size(), 1U);
  return !compared.empty() && compared[0].same;
}

TEST(SettingsAsFound, AreEqualToTheLastDigitThatWasRead) {
  const auto project = projectOf(scheduleFrom(kFirst));  // 450 cfm is 212.38 L/s
  using quantity::cfm, quantity::litresPerSecond;
  EXPECT_TRUE(isSame(project, found("cooling max flow", "450 cfm", cfm(450).si())));
  EXPECT_TRUE(isSame(project, found("cooling max flow", "212 L/s", litresPerSecond(212).si())));
  EXPECT_FALSE(isSame(project, found("cooling max flow", "212.0 L/s", litresPerSecond(212).si())));
  EXPECT_FALSE(isSame(project, found("cooling max flow", "448 cfm", cfm(448).si())));
  EXPECT_TRUE(isSame(project, found("heat", "Hot-Water", std::nullopt)));
  auto half = projectOf(scheduleFrom("unit,floor,kind,cooling max flow,cooling min flow,heat enable ratio\n1,1,reheat,2,1,0.754\n"));
  EXPECT_TRUE(isSame(half, found("heat enable ratio", "75 %", 0.75)));
  EXPECT_TRUE(isSame(half, found("heat enable ratio", "0.75", 0.75)));
  EXPECT_FALSE(isSame(half, found("heat enable ratio", "0.750", 0.75)));
  EXPECT_FALSE(isSame(project, found("heat", "none", std::nullopt)));
  EXPECT_FALSE(isSame(project, found("heating max flow", "300 cfm", cfm(300).si()))) << "the schedule gives none";
}

TEST(SettingsAsFound, TheNewestCounts) {
  const auto project = projectOf(scheduleFrom(kFirst));
  const auto compared = compareSettings({found("cooling max flow", "400 cfm", quantity::cfm(400).si(), "2026-03-04T10:00Z"),
                                         found("cooling max flow", "450 cfm", quantity::cfm(450).si(), "2026-03-05T10:00Z"),
                                         found("cooling max flow", "300 cfm", quantity::cfm(300).si())},
                                        project);
  ASSERT_EQ(compared.size(), 1U);
  EXPECT_EQ(compared[0].found, "450 cfm");
  EXPECT_EQ(compared[0].scheduled, "450 cfm");
  EXPECT_EQ(compared[0].tag, "1-01");
  EXPECT_TRUE(compared[0].same);
}

}  // namespace
}  // namespace ductwright::exchange::testing
