#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "evidence_fixture.h"
#include "plot/unit_figures.h"

namespace ductwright::plot {
namespace {

using fleet::Procedure;
using fleet::ReadingQuantity;
using quantity::cfm;
using verdict::CheckKind;

struct LockoutFigure : testing::Test, EvidenceFixture {
  LockoutFigure() {
    record.unit.heat = fleet::HeatKind::electricStaged;
    record.unit.reheat = cfm(400);
  }
  void seen(int step, double share, bool called, bool on) {
    read(Procedure::reheatLockout, step, ReadingQuantity::measuredFlow, cfm(400 * share).si());
    read(Procedure::reheatLockout, step, ReadingQuantity::heatCall, called ? 1 : 0);
    m_key = read(Procedure::reheatLockout, step, ReadingQuantity::heatOn, on ? 1 : 0);
  }
  void judged(int step, double share, CheckKind kind, Outcome outcome) {
    auto& made = check(kind, step, outcome);
    made.measured = share;
    made.u = 0.02;
  }
  Figure figure() { return lockoutFigure({record, verdict, criteria, quantity::System::ip}); }
  fleet::FactKey m_key;
};

TEST_F(LockoutFigure, PlacesAPointByItsShareOfTheReferenceFlowAndByCallAndHeat) {
  seen(1, 0.95, true, true);
  judged(1, 0.95, CheckKind::onWhenAllowed, Outcome::pass);
  const Figure shown = figure();
  ASSERT_EQ(shown.points.size(), 1U);
  EXPECT_NEAR(shown.points[0].at.x, 95, 1e-9);
  EXPECT_NEAR(shown.points[0].halfX, 4, 1e-9);
  EXPECT_EQ(shown.y.ticks.at(0).label, "heat on,\ncalled");
  EXPECT_DOUBLE_EQ(shown.points[0].at.y, shown.y.ticks.at(0).at);
  EXPECT_EQ(shown.points[0].source.reading, m_key);
  EXPECT_EQ(shown.points[0].source.check, 0U);
}

TEST_F(LockoutFigure, ThresholdIsTheUnitsOwnElseTheCriterias) {
  EXPECT_NEAR(figure().lines.at(0).from.x, 75, 1e-9);
  record.unit.heatEnableRatio = 0.6;
  EXPECT_NEAR(figure().lines.at(0).from.x, 60, 1e-9);
}

TEST_F(LockoutFigure, BracketRunsFromTheGreatestFlowSeenOffToTheLeastSeenOn) {
  seen(1, 0.95, true, true);
  seen(2, 0.78, true, true);
  seen(3, 0.70, true, false);
  seen(4, 0.50, true, false);
  judged(1, 0.95, CheckKind::onWhenAllowed, Outcome::pass);
  judged(2, 0.78, CheckKind::onWhenAllowed, Outcome::pass);
  judged(3, 0.70, CheckKind::heatsWhenItShould, Outcome::pass);
  judged(4, 0.50, CheckKind::heatsWhenItShould, Outcome::pass);
  const Figure shown = figure();
  const auto bracket = std::find_if(shown.bands.begin(), shown.bands.end(),
                                    [](const Band& band) { return band.shade == Shade::bracket; });
  ASSERT_NE(bracket, shown.bands.end());
  EXPECT_NEAR(bracket->outline[0].x, 70, 1e-9);
  EXPECT_NEAR(bracket->outline[1].x, 78, 1e-9);
  EXPECT_EQ(shown.remark, "switches between 70 % and 78 %");
}

TEST_F(LockoutFigure, HeatWithoutACallGetsARowOfItsOwn) {
  EXPECT_EQ(figure().y.ticks.size(), 2U);
  seen(1, 0.3, false, true);
  judged(1, verdict::kNone, CheckKind::onWithoutCall, Outcome::fail);
  const Figure shown = figure();
  EXPECT_EQ(shown.y.ticks.size(), 4U);
  ASSERT_EQ(shown.points.size(), 1U);
  EXPECT_NEAR(shown.points[0].at.x, 30, 1e-9);
  EXPECT_EQ(shown.points[0].outcome, Outcome::fail);
}

TEST_F(LockoutFigure, APointThatWasNotJudgedIsShownAsUntested) {
  seen(1, 0.95, true, true);
  EXPECT_EQ(figure().points.at(0).outcome, Outcome::untested);
  EXPECT_FALSE(figure().points.at(0).source.check);
}

TEST_F(LockoutFigure, HeatOffWithoutACallIsNothingToJudge) {
  seen(1, 0.95, false, false);
  EXPECT_EQ(figure().points.at(0).outcome, Outcome::notApplicable);
}

TEST_F(LockoutFigure, WithoutHeatThereIsNothingToShow) {
  record.unit.heat = fleet::HeatKind::none;
  verdict.criteria[1].outcome = Outcome::notApplicable;
  EXPECT_FALSE(figure().stands);
}

}  // namespace
}  // namespace ductwright::plot
