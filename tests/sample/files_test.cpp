#include <gmock/gmock.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <memory>

#include "exchange/import.h"
#include "exchange/readings.h"
#include "sample/sample_files.h"
#include "verdict/judge.h"

// The files of the kept sample: as the generator writes them, and as the importers read them.
namespace ductwright::sample {
namespace {

using namespace exchange;
namespace fs = std::filesystem;

const fs::path kKept = fs::path(DUCTWRIGHT_SOURCE_DIR) / "sample-projects/fernhollow";

std::string bytesOf(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

class NewFiles : public testing::Test {
 protected:
  NewFiles() {
    fs::remove_all(folder);
    fs::create_directories(folder);
  }
  ~NewFiles() override { fs::remove_all(folder); }
  const fs::path folder =
      fs::temp_directory_path() /
      ("ductwright-sample-" + std::string(testing::UnitTest::GetInstance()->current_test_info()->name()));
};

Layout layoutFor(TableKind kind, const Table& table) {
  return layoutOf(suggestMapping(kind, table), table, quantity::System::ip);
}

// Reads one kept file with `read`, which must find nothing to complain about.
template <class Read>
auto imported(TableKind kind, const char* file, Read read) {
  const auto table = readTable(kKept / file);
  EXPECT_TRUE(table.has_value()) << file;
  auto out = read(table.value(), layoutFor(kind, table.value()));
  for (const Problem& problem : out.problems.list()) ADD_FAILURE() << problem.line(file);
  return out;
}

template <class Record>
std::vector<Record> records(const Import<Record>& import) {
  std::vector<Record> out;
  for (const auto& placed : import.records) out.push_back(placed.record);
  return out;
}

std::vector<fleet::Unit> scheduleIn(const char* file) {
  return records(imported(TableKind::schedule, file, readSchedule));
}

fleet::UnitId numbered(std::size_t number) {
  fleet::UnitId id;
  for (std::size_t i = 0; i < 8; ++i)
    id.uuid.bytes[15 - i] = static_cast<std::uint8_t>((number + 1) >> (8 * i));
  return id;
}

// The project as it stands in the files alone.
fleet::Snapshot projectFromFiles() {
  fleet::Snapshot project;
  project.elevation = quantity::feet(5150);
  project.airHandlers = records(imported(TableKind::airHandlers, "air-handlers.csv", readAirHandlers));
  project.profiles = records(imported(TableKind::profiles, "profiles.csv", readProfiles));
  project.roomSensors = records(imported(TableKind::roomSensors, "sensors.csv", readRoomSensors));
  project.segments = records(imported(TableKind::segments, "segments.csv", readSegments));
  project.instruments = records(imported(TableKind::instruments, "instruments.csv", readInstruments));
  std::vector<std::shared_ptr<fleet::UnitRecord>> units;
  for (fleet::Unit& unit : scheduleIn("schedule.xlsx")) {
    unit.id = numbered(units.size());
    units.push_back(std::make_shared<fleet::UnitRecord>());
    units.back()->unit = std::move(unit);
    project.units.push_back(units.back());
  }
  const auto readings =
      imported(TableKind::readings, "readings.csv", [&](const Table& table, const Layout& layout) {
        return *readReadings(table, layout, ReadingContext::of(project));
      });
  for (const PlacedReading& placed : readings.readings)
    for (const auto& record : units)
      if (record->unit.id == placed.unit) record->readings.push_back(placed.reading);
  return project;
}

TEST_F(NewFiles, AreTheKeptOnesToTheByte) {
  ASSERT_TRUE(writeFiles(makeBuilding(1), folder).has_value());
  std::size_t files = 0;
  for (const auto& entry : fs::directory_iterator(folder)) {
    const fs::path name = entry.path().filename();
    ASSERT_TRUE(fs::exists(kKept / name)) << name;
    ++files;
    if (name.extension() == ".xlsx") continue;
    EXPECT_TRUE(bytesOf(entry.path()) == bytesOf(kKept / name)) << name;
  }
  EXPECT_EQ(files, 13U);
}

// A workbook carries the time of its making, so its cells are compared.
TEST_F(NewFiles, HoldTheKeptWorkbooksCells) {
  ASSERT_TRUE(writeFiles(makeBuilding(1), folder).has_value());
  const auto fresh = readTable(folder / "schedule.xlsx");
  const auto kept = readTable(kKept / "schedule.xlsx");
  ASSERT_TRUE(fresh && kept);
  ASSERT_EQ(fresh->rows(), kept->rows());
  ASSERT_EQ(fresh->columns(), kept->columns());
  for (std::size_t row = 0; row < fresh->rows(); ++row)
    for (std::size_t column = 0; column < fresh->columns(); ++column)
      EXPECT_EQ(fresh->text(row, column), kept->text(row, column)) << row << ',' << column;
}

TEST(KeptFiles, WorkbookAndCsvGiveTheSameSchedule) {
  const auto units = scheduleIn("schedule.csv");
  EXPECT_EQ(units, scheduleIn("schedule.xlsx"));
  const SampleBuilding building = makeBuilding(1);
  ASSERT_EQ(units.size(), building.project.units.size());
  for (std::size_t i = 0; i < units.size(); ++i) {
    fleet::Unit expected = building.project.units[i]->unit;
    expected.id = {};
    EXPECT_EQ(units[i], expected) << expected.tag;
  }
}

TEST(KeptFiles, SettingsCanBeImported) {
  const fleet::Snapshot project = projectFromFiles();
  const auto settings = imported(
      TableKind::settings, "settings.csv",
      [&](const Table& table, const Layout& layout) { return readSettings(table, layout, project); });
  EXPECT_GE(settings.records.size(), 3 * project.units.size());
}

TEST(KeptFiles, GiveTheVerdictsOfTheBuildingInMemory) {
  const fleet::Snapshot project = projectFromFiles();
  const SampleBuilding building = makeBuilding(1);
  const auto fromFiles = verdict::judgeFleet(project);
  const auto inMemory = verdict::judgeFleet(building.project);
  ASSERT_EQ(fromFiles.units.size(), inMemory.units.size());
  EXPECT_GT(inMemory.counts.pass, 30U);
  for (std::size_t i = 0; i < inMemory.units.size(); ++i) {
    const verdict::UnitVerdict& a = *fromFiles.units[i];
    const verdict::UnitVerdict& b = *inMemory.units[i];
    const std::string& tag = building.project.units[i]->unit.tag;
    EXPECT_EQ(a.outcome, b.outcome) << tag;
    EXPECT_EQ(a.score, b.score) << tag;
    ASSERT_EQ(a.checks.size(), b.checks.size()) << tag;
    for (std::size_t c = 0; c < a.checks.size(); ++c) {
      EXPECT_EQ(a.checks[c].outcome, b.checks[c].outcome) << tag;
      if (std::isnan(b.checks[c].measured)) continue;
      EXPECT_EQ(a.checks[c].measured, b.checks[c].measured) << tag;
    }
  }
}

}  // namespace
}  // namespace ductwright::sample
