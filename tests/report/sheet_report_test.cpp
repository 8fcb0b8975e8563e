#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "exchange/table.h"
#include "invented_fleet.h"
#include "report/report.h"
#include "report/sheets.h"
#include "scratch_folder.h"

namespace ductwright::report {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;

struct SheetReport : testing::Test {
  exchange::Table read(const std::string& path, const std::string& sheet = {}) {
    exchange::TableChoice choice;
    choice.sheet = sheet;
    auto table = exchange::readTable(std::filesystem::path(path), choice);
    EXPECT_TRUE(table) << table.error().sentence;
    return *table;
  }
  std::string write(ReportKind kind, Format format, const std::string& name) {
    const std::string path = folder.file(name);
    const auto done = writeReport(kind, format, project, verdicts, options, path);
    EXPECT_TRUE(done) << done.error().sentence;
    return path;
  }
  static std::size_t column(const exchange::Table& table, std::string_view header) {
    for (std::size_t i = 0; i < table.columns(); ++i) {
      if (table.text(0, i).substr(0, header.size()) == header) return i;
    }
    ADD_FAILURE() << "no column " << header;
    return 0;
  }

  ScratchFolder folder;
  fleet::Snapshot project = inventedFleet(24);
  verdict::FleetVerdict verdicts = verdict::judgeFleet(project, 1);
  ReportOptions options{.title = "", .at = *fleet::Timestamp::fromText("2026-05-04T16:30:00Z"), .unit = "T-1-4", .digest = "", .preparedBy = ""};
};

TEST_F(SheetReport, WorkbookHasASheetForEachTable) {
  const auto table = read(write(ReportKind::commissioning, Format::xlsx, "r.xlsx"));
  EXPECT_THAT(table.sheets(), ElementsAre("Results", "Checks", "Deficiencies", "As left", "Instruments", "Signatures", "Desk review"));
}

TEST_F(SheetReport, ResultsReadBackAsTheEngineGaveThem) {
  for (const auto& [format, name] : {std::pair{Format::xlsx, "r.xlsx"}, {Format::csv, "r.csv"}}) {
    const auto table = read(write(ReportKind::commissioning, format, name));
    ASSERT_EQ(table.rows(), project.units.size() + 1) << name;
    const std::size_t result = column(table, "result"), score = column(table, "score");
    for (std::size_t i = 0; i < project.units.size(); ++i) {
      EXPECT_EQ(table.text(i + 1, 0), project.units[i]->unit.tag);
      EXPECT_EQ(table.text(i + 1, result), verdict::name(verdicts.units[i]->outcome));
      const auto& engine = verdicts.units[i]->score;
      const auto written = quantity::readNumber(table.text(i + 1, score));
      ASSERT_EQ(written.has_value(), engine.has_value()) << name;
      if (engine) {
        EXPECT_NEAR(*written, *engine, 1e-9 * (1 + *engine)) << name;
      }
    }
  }
}

TEST_F(SheetReport, ChecksAreInTheProjectsUnits) {
  const exchange::Sheet sheet = checkSheet(project, verdicts);
  const verdict::Check& check = verdicts.units[0]->checks[0];
  ASSERT_EQ(check.dimension, quantity::Dimension::airflow);
  EXPECT_NEAR(std::get<double>(sheet.rows[0][6]), check.measured / quantity::kCfm, 1e-6);
  EXPECT_EQ(std::get<std::string>(sheet.rows[0][11]), "cfm");
}

TEST_F(SheetReport, OneUnitsReportHoldsNoOther) {
  const auto table = read(write(ReportKind::unit, Format::csv, "u.csv"));
  ASSERT_EQ(table.rows(), verdicts.units[3]->checks.size() + 1);
  for (std::size_t row = 1; row < table.rows(); ++row) EXPECT_EQ(table.text(row, 0), "T-1-4");
}

TEST_F(SheetReport, DeficienciesNameUnitStateAndWhatClosesThem) {
  const auto table = read(write(ReportKind::deficiencies, Format::xlsx, "d.xlsx"));
  ASSERT_EQ(table.rows(), project.deficiencies.size() + 1);
  EXPECT_EQ(table.text(1, column(table, "unit")), "T-1-4");
  EXPECT_EQ(table.text(1, column(table, "state")), "raised");
  EXPECT_EQ(table.text(2, column(table, "severity")), "safety");
}

TEST_F(SheetReport, AsLeftTakesWhatWasReadBeforeWhatWasScheduled) {
  auto record = std::make_shared<fleet::UnitRecord>(*project.units[0]);
  record->settings.push_back({record->unit.id, "Cooling Max Flow", "999", quantity::cfm(999).si(), fleet::Timestamp::fromText("2026-05-01T10:00:00Z")});
  record->settings.push_back({record->unit.id, "cooling max flow", "777", quantity::cfm(777).si(), fleet::Timestamp::fromText("2026-05-02T10:00:00Z")});
  project.units[0] = record;
  const exchange::Sheet sheet = turnoverSheet(project, verdicts);
  const auto at = std::find_if(sheet.columns.begin(), sheet.columns.end(), [](const auto& c) { return c.header == "cooling max flow"; });
  ASSERT_NE(at, sheet.columns.end());
  const auto index = static_cast<std::size_t>(at - sheet.columns.begin());
  EXPECT_NEAR(std::get<double>(sheet.rows[0][index]), 777, 1e-6);
  EXPECT_NEAR(std::get<double>(sheet.rows[1][index]), project.units[1]->unit.coolingMax->si() / quantity::kCfm, 1e-6);
  EXPECT_EQ(std::get<std::string>(sheet.rows[0].back()), "cooling max flow");
}

TEST_F(SheetReport, NothingInACellStartsAFormula) {
  project.deficiencies[0].title = "=1+1";
  write(ReportKind::deficiencies, Format::csv, "d.csv");
  const std::string csv = exchange::toCsv(deficiencySheet(project));
  EXPECT_THAT(csv, HasSubstr("'=1+1"));
}

}  // namespace
}  // namespace ductwright::report
