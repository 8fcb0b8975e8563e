#include <gtest/gtest.h>

#include "site.h"

// A whole fleet: counts, and what a change judges again.
namespace ductwright::verdict::testing {
namespace {

using enum fleet::AirflowStep;
using quantity::cfm;

Snapshot fleetOf(std::initializer_list<double> measured) {
  Snapshot project;
  int number = 0;
  for (const double flow : measured) {
    Site site;
    site.unit().tag = std::to_string(++number);
    site.unit().coolingMax = cfm(1000);
    if (flow > 0) site.measured(coolingMax, flow);
    project.units.push_back(std::make_shared<fleet::UnitRecord>(site.record));
  }
  return project;
}

TEST(Fleet, isCountedByResultAndScore) {
  const auto fleet = judgeFleet(fleetOf({1000, 500, 0, 900}));
  EXPECT_EQ(fleet.counts.units, 4U);
  EXPECT_EQ(fleet.counts.pass, 2U);
  EXPECT_EQ(fleet.counts.fail, 1U);
  EXPECT_EQ(fleet.counts.untested, 1U);
  // 900 stands on the limit: its conformity is ½ less what lies above 1100. ±5 %: u = 25.98 cfm, negligible.
  EXPECT_NEAR(*fleet.units[3]->score, 50, 1e-6);
  const double sure = *fleet.units[0]->score;
  EXPECT_NEAR(fleet.counts.expectedNonConforming, (1 - sure / 100) + 0.5, 1e-6) << "of the passed only";
  EXPECT_EQ(fleet.counts.scores[9], 1U);
  EXPECT_EQ(fleet.counts.scores[0], 1U);
  EXPECT_EQ(fleet.counts.scores[4] + fleet.counts.scores[5], 1U);
}

TEST(Fleet, keepsTheSnapshotsOrder) {
  const Snapshot project = fleetOf({1000, 500, 0, 900});
  const auto fleet = judgeFleet(project, 4);
  for (std::size_t i = 0; i < 4; ++i) EXPECT_EQ(fleet.units[i]->outcome, judge(*project.units[i], project).outcome);
}

TEST(Fleet, withoutUnitsIsEmpty) {
  EXPECT_TRUE(judgeFleet(Snapshot{}).units.empty());
}

TEST(Fleet, aChangedReadingJudgesItsUnitAlone) {
  const Snapshot before = fleetOf({1000, 1000, 1000});
  const auto verdicts = judgeFleet(before);
  Snapshot after = before;
  auto changed = std::make_shared<fleet::UnitRecord>(*after.units[1]);
  changed->readings[0].value = cfm(500).si();
  after.units[1] = changed;
  const auto again = judgeAgain(after, before, verdicts);
  EXPECT_EQ(again.units[0], verdicts.units[0]);
  EXPECT_EQ(again.units[2], verdicts.units[2]);
  EXPECT_EQ(again.units[1]->outcome, Outcome::fail);
  EXPECT_EQ(again.counts.fail, 1U);
}

}  // namespace
}  // namespace ductwright::verdict::testing
