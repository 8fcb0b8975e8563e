#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "invented_fleet.h"
#include "report/score.h"
#include "report/sheets.h"

namespace ductwright::report {
namespace {

using nlohmann::json;
using testing::UnorderedElementsAre;

struct ScoreJson : testing::Test {
  fleet::Snapshot project = inventedFleet(24);
  verdict::FleetVerdict verdicts = verdict::judgeFleet(project, 1);
  json made = json::parse(scoreJson(project, verdicts));

  static std::vector<std::string> keys(const json& object) {
    std::vector<std::string> out;
    for (const auto& [key, value] : object.items()) out.push_back(key);
    return out;
  }
};

TEST_F(ScoreJson, HasTheMembersOfItsSchema) {
  EXPECT_EQ(made.at("schema"), 1);
  EXPECT_EQ(made.at("project"), project.projectName);
  EXPECT_EQ(made.at("criteria").at("rule"), "simple");
  EXPECT_THAT(keys(made), UnorderedElementsAre("schema", "project", "criteria", "fleet", "units"));
  EXPECT_THAT(keys(made.at("fleet")), UnorderedElementsAre("units", "pass", "fail", "cannot_tell", "untested"));
  const json& unit = made.at("units").at(0);
  EXPECT_THAT(keys(unit), UnorderedElementsAre("unit", "result", "score", "criteria", "checks"));
  EXPECT_THAT(keys(unit.at("criteria")), UnorderedElementsAre("airflow", "reheat_lockout", "discharge_rise"));
  EXPECT_THAT(keys(unit.at("checks").at(0)),
              UnorderedElementsAre("criterion", "check", "step", "result", "measured", "expected", "low", "high",
                                   "si_unit", "u", "conformity", "close", "because"));
}

TEST_F(ScoreJson, CountsAgreeWithTheUnits) {
  std::map<std::string, std::size_t> counts;
  for (const json& unit : made.at("units")) ++counts[unit.at("result")];
  EXPECT_EQ(made.at("fleet").at("units"), project.units.size());
  EXPECT_EQ(made.at("fleet").at("pass"), counts["pass"]);
  EXPECT_EQ(made.at("fleet").at("fail"), counts["fail"]);
  EXPECT_EQ(made.at("fleet").at("cannot_tell"), counts["cannot tell"]);
  EXPECT_EQ(made.at("fleet").at("untested"), counts["untested"]);
  EXPECT_GT(counts["fail"], 0U);
  EXPECT_GT(counts["untested"], 0U);
}

// Every number reads back to the engine's own, to the last bit; what the engine has not is null.
TEST_F(ScoreJson, NumbersAreTheEnginesOwn) {
  const auto same = [](const json& value, double engine) {
    return std::isfinite(engine) ? value.is_number() && value.get<double>() == engine : value.is_null();
  };
  for (std::size_t i = 0; i < verdicts.units.size(); ++i) {
    const verdict::UnitVerdict& judged = *verdicts.units[i];
    const json& unit = made.at("units").at(i);
    ASSERT_EQ(unit.at("checks").size(), judged.checks.size());
    EXPECT_TRUE(same(unit.at("score"), judged.score.value_or(verdict::kNone)));
    for (std::size_t k = 0; k < judged.checks.size(); ++k) {
      const verdict::Check& check = judged.checks[k];
      const json& written = unit.at("checks").at(k);
      EXPECT_TRUE(same(written.at("measured"), check.measured));
      EXPECT_TRUE(same(written.at("low"), check.low));
      EXPECT_TRUE(same(written.at("high"), check.high));
      EXPECT_TRUE(same(written.at("u"), check.u));
      EXPECT_TRUE(same(written.at("conformity"), check.conformity));
    }
  }
}

TEST_F(ScoreJson, OneUnitAloneKeepsTheFleetsCounts) {
  const json one = json::parse(scoreJson(project, verdicts, "T-1-4"));
  ASSERT_EQ(one.at("units").size(), 1U);
  EXPECT_EQ(one.at("units").at(0).at("unit"), "T-1-4");
  EXPECT_EQ(one.at("fleet"), made.at("fleet"));
}

TEST_F(ScoreJson, QuotesWhateverANameHolds) {
  project.projectName = "A \"quoted\"\\ name\n\x01 with µ";
  EXPECT_EQ(json::parse(scoreJson(project, verdicts)).at("project"), project.projectName);
}

TEST_F(ScoreJson, IsTheSameInAnSiProject) {
  fleet::Snapshot si = project;
  si.system = quantity::System::si;
  EXPECT_EQ(scoreJson(si, verdict::judgeFleet(si, 1)), scoreJson(project, verdicts));
}

TEST_F(ScoreJson, TextNamesEveryUnitWithItsResult) {
  const std::string text = scoreText(project, verdicts);
  EXPECT_THAT(text, testing::HasSubstr("24 units: "));
  for (const auto& record : project.units) EXPECT_THAT(text, testing::HasSubstr(record->unit.tag));
}

TEST_F(ScoreJson, TextOfOneUnitHasARowForEachCheck) {
  const std::string text = scoreText(project, verdicts, "T-1-1");
  EXPECT_THAT(text, testing::StartsWith("T-1-1: "));
  EXPECT_GE(static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n')), verdicts.units[0]->checks.size() + 3);
  EXPECT_EQ(scoreText(project, verdicts, "no such unit"), "");
}

TEST_F(ScoreJson, CsvHasOneRowAUnit) {
  const std::string csv = scoreCsv(project, verdicts);
  EXPECT_EQ(static_cast<std::size_t>(std::count(csv.begin(), csv.end(), '\n')), project.units.size() + 1);
  EXPECT_EQ(std::count(csv.begin(), csv.end(), '\n') > 2, true);
  const std::string one = scoreCsv(project, verdicts, "T-1-1");
  EXPECT_EQ(std::count(one.begin(), one.end(), '\n'), 2);
}

}  // namespace
}  // namespace ductwright::report
