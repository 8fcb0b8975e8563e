#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "plot/fleet_figures.h"

namespace ductwright::plot {
namespace {

struct FleetFigures : testing::Test {
  void add(const std::string& floor, Outcome outcome, std::optional<double> score) {
    auto record = std::make_shared<fleet::UnitRecord>();
    record->unit.floor = floor;
    project.units.push_back(record);
    auto judged = std::make_shared<verdict::UnitVerdict>();
    judged->outcome = outcome;
    judged->score = score;
    verdicts.units.push_back(judged);
  }
  fleet::Snapshot project;
  verdict::FleetVerdict verdicts;
};

TEST_F(FleetFigures, StacksTheResultsOfAFloorInOneBar) {
  add("Level 1", Outcome::pass, 99);
  add("Level 2", Outcome::fail, 0);
  add("Level 1", Outcome::fail, 3);
  add("Level 1", Outcome::pass, 97);
  const Figure shown = resultFigure(project, verdicts, GroupBy::floor);
  ASSERT_EQ(shown.y.ticks.size(), 2U);
  EXPECT_EQ(shown.y.ticks[0].label, "Level 1");
  ASSERT_EQ(shown.bars.size(), 3U);
  EXPECT_EQ(shown.bars[0].length, 2);
  EXPECT_EQ(shown.bars[1].base.x, 2);
  EXPECT_EQ(shown.bars[1].label, "1");
}

TEST_F(FleetFigures, CountsUnitsInWholeNumbers) {
  for (int i = 0; i < 23; ++i) add("1", Outcome::pass, 99);
  const Figure shown = scoreFigure(verdicts);
  ASSERT_EQ(shown.y.ticks.size(), 5U);
  EXPECT_EQ(shown.y.ticks[1].label, "5");
}

TEST_F(FleetFigures, CountsScoresByTensAndAFullScoreInTheLast) {
  add("1", Outcome::pass, 100);
  add("1", Outcome::pass, 90);
  add("1", Outcome::fail, 4);
  add("1", Outcome::untested, std::nullopt);
  const Figure shown = scoreFigure(verdicts);
  ASSERT_EQ(shown.bars.size(), 2U);
  EXPECT_EQ(shown.bars[0].base.x, 0);
  EXPECT_EQ(shown.bars[1].base.x, 9);
  EXPECT_EQ(shown.bars[1].length, 2);
  EXPECT_EQ(shown.remark, "1 unit has no score");
}

}  // namespace
}  // namespace ductwright::plot
