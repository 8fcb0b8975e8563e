#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "evidence_fixture.h"
#include "plot/unit_figures.h"

namespace ductwright::plot {
namespace {

using fleet::AirflowStep;
using fleet::code;
using fleet::Procedure;
using fleet::ReadingQuantity;
using quantity::cfm;
using verdict::CheckKind;

struct AirflowFigure : testing::Test, EvidenceFixture {
  // 500 cfm by design, ±10 %; 470 cfm measured with U = 20 cfm.
  void coolingMax(Outcome outcome = Outcome::pass) {
    m_key = read(Procedure::airflow, code(AirflowStep::coolingMax), ReadingQuantity::measuredFlow, cfm(470).si());
    auto& made = check(CheckKind::measuredAgainstDesign, code(AirflowStep::coolingMax), outcome);
    made.expected = cfm(500).si();
    made.low = cfm(450).si();
    made.high = cfm(550).si();
    made.measured = cfm(470).si();
    made.u = cfm(10).si();
  }
  Figure figure(quantity::System system = quantity::System::ip) {
    return airflowFigure({record, verdict, criteria, system});
  }
  fleet::FactKey m_key;
};

TEST_F(AirflowFigure, ShowsTheMeasuredFlowAsAShareOfDesignWithItsExpandedUncertainty) {
  coolingMax();
  const Figure shown = figure();
  ASSERT_EQ(shown.points.size(), 1U);
  EXPECT_NEAR(shown.points[0].at.y, 94, 1e-9);
  EXPECT_NEAR(shown.points[0].halfY, 4, 1e-9);
  EXPECT_EQ(shown.points[0].outcome, Outcome::pass);
}

TEST_F(AirflowFigure, BandIsTheCheckedInterval) {
  coolingMax();
  const Figure shown = figure();
  ASSERT_EQ(shown.bands.size(), 1U);
  EXPECT_NEAR(shown.bands[0].outline[0].y, 90, 1e-9);
  EXPECT_NEAR(shown.bands[0].outline[2].y, 110, 1e-9);
}

TEST_F(AirflowFigure, NamesStepAndDesignUnderTheColumnInTheProjectsUnits) {
  coolingMax();
  EXPECT_EQ(figure().x.ticks.at(0).label, "cooling\nmax\n500");
  EXPECT_EQ(figure().x.title, "step, design flow in cfm");
  EXPECT_EQ(figure(quantity::System::si).x.ticks.at(0).label, "cooling\nmax\n236.0");
  EXPECT_EQ(figure(quantity::System::si).x.title, "step, design flow in L/s");
}

TEST_F(AirflowFigure, APointLeadsToItsReadingAndItsCheck) {
  coolingMax();
  const Figure shown = figure();
  EXPECT_EQ(shown.points.at(0).source.reading, m_key);
  EXPECT_EQ(shown.points.at(0).source.check, 0U);
  EXPECT_EQ(shown.points.at(0).words, "cooling max: measured 470 cfm ± 20 cfm, pass");
}

TEST_F(AirflowFigure, ReportedFlowStandsBesideTheMeasuredOneWithItsOwnState) {
  coolingMax();
  read(Procedure::airflow, code(AirflowStep::coolingMax), ReadingQuantity::reportedFlow, cfm(600).si());
  auto& made = check(CheckKind::reportedAgainstMeasured, code(AirflowStep::coolingMax), Outcome::fail);
  made.expected = cfm(470).si();
  made.measured = cfm(130).si();
  const Figure shown = figure();
  ASSERT_EQ(shown.points.size(), 2U);
  EXPECT_EQ(shown.points[1].series, Series::reported);
  EXPECT_EQ(shown.points[1].outcome, Outcome::fail);
  EXPECT_NEAR(shown.points[1].at.y, 120, 1e-9);
  EXPECT_GT(shown.points[1].at.x, shown.points[0].at.x);
}

TEST_F(AirflowFigure, InletFlowReportedWithTheFanOnIsNotComparedWithTheFansDesign) {
  read(Procedure::airflow, code(AirflowStep::fan), ReadingQuantity::reportedFlow, cfm(200).si());
  check(CheckKind::measuredAgainstDesign, code(AirflowStep::fan), Outcome::untested).expected = cfm(600).si();
  EXPECT_TRUE(figure().points.empty());
}

TEST_F(AirflowFigure, AnUntestedStepKeepsItsColumnAndItsBand) {
  auto& made = check(CheckKind::measuredAgainstDesign, code(AirflowStep::coolingMin), Outcome::untested);
  made.expected = cfm(60).si();
  const Figure shown = figure();
  ASSERT_EQ(shown.bands.size(), 1U);
  EXPECT_NEAR(shown.bands[0].outline[0].y, 100 * 50.0 / 60, 1e-9);  // ±10 cfm is wider than ±10 %
  EXPECT_TRUE(shown.points.empty());
  EXPECT_EQ(shown.remark, "No flow was measured");
}

TEST_F(AirflowFigure, StepsOfEqualFlowShareOneReading) {
  coolingMax();
  auto made = verdict.checks[0];
  made.step = code(AirflowStep::heatingMax);
  verdict.checks.push_back(made);
  const Figure shown = figure();
  ASSERT_EQ(shown.points.size(), 2U);
  EXPECT_EQ(shown.points[1].source.reading, m_key);
}

TEST_F(AirflowFigure, ASupersededRunIsNotShown) {
  read(Procedure::airflow, code(AirflowStep::coolingMax), ReadingQuantity::reportedFlow, cfm(600).si(), 1);
  read(Procedure::airflow, code(AirflowStep::coolingMax), ReadingQuantity::reportedFlow, cfm(490).si(), 2);
  check(CheckKind::measuredAgainstDesign, code(AirflowStep::coolingMax), Outcome::untested).expected = cfm(500).si();
  const Figure shown = figure();
  ASSERT_EQ(shown.points.size(), 1U);
  EXPECT_NEAR(shown.points[0].at.y, 98, 1e-9);
}

TEST_F(AirflowFigure, EveryPointLiesInsideTheAxes) {
  coolingMax(Outcome::fail);
  verdict.checks[0].measured = cfm(150).si();
  const Figure shown = figure();
  EXPECT_LT(shown.y.low, 30 - 4);
  EXPECT_GT(shown.y.high, 110);
}

TEST_F(AirflowFigure, SaysSoWhereTheScheduleGivesNothingToTest) {
  const Figure shown = figure();
  EXPECT_FALSE(shown.stands);
  EXPECT_EQ(shown.remark, "The schedule gives no flow to test");
}

}  // namespace
}  // namespace ductwright::plot
