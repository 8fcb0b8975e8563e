#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "evidence_fixture.h"
#include "plot/unit_figures.h"

namespace ductwright::plot {
namespace {

using fleet::code;
using fleet::Procedure;
using fleet::ReadingQuantity;
using fleet::RiseStep;
using quantity::fahrenheit;
using quantity::fahrenheitDegrees;
using verdict::CheckKind;

struct RiseFigure : testing::Test, EvidenceFixture {
  RiseFigure() { record.unit.heat = fleet::HeatKind::hotWater; }
  // 28 Δ°F where 30 Δ°F were expected, U = 3 Δ°F.
  void rise(RiseStep step = RiseStep::heatForced) {
    m_key = read(Procedure::dischargeRise, code(step), ReadingQuantity::dischargeAirTemperature, fahrenheit(83).si());
    auto& made = check(CheckKind::rise, code(step), Outcome::pass);
    made.measured = fahrenheitDegrees(-2).si();
    made.expected = fahrenheitDegrees(30).si();
    made.u = fahrenheitDegrees(1.5).si();
  }
  void limit() {
    read(Procedure::dischargeRise, code(RiseStep::heatOn), ReadingQuantity::enteringAirTemperature, fahrenheit(55).si());
    read(Procedure::dischargeRise, code(RiseStep::heatOn), ReadingQuantity::dischargeAirTemperature, fahrenheit(80).si());
    auto& made = check(CheckKind::limit, code(RiseStep::heatOn), Outcome::pass);
    made.measured = fahrenheit(80).si();
    made.high = fahrenheit(90).si();
    made.u = fahrenheitDegrees(0.5).si();
  }
  Figure figure(quantity::System system = quantity::System::ip) {
    return riseFigure({record, verdict, criteria, system});
  }
  fleet::FactKey m_key;
};

TEST_F(RiseFigure, PlacesTheMeasuredRiseOverTheExpectedOne) {
  rise();
  const Figure shown = figure();
  ASSERT_EQ(shown.points.size(), 1U);
  EXPECT_NEAR(shown.points[0].at.x, 30, 1e-9);
  EXPECT_NEAR(shown.points[0].at.y, 28, 1e-9);
  EXPECT_NEAR(shown.points[0].halfY, 3, 1e-9);
  EXPECT_EQ(shown.points[0].source.reading, m_key);
}

TEST_F(RiseFigure, ShowsKelvinsInAnSiProject) {
  rise();
  EXPECT_NEAR(figure(quantity::System::si).points.at(0).at.x, 30 / 1.8, 1e-9);
  EXPECT_EQ(figure(quantity::System::si).x.title, "expected rise, K");
}

TEST_F(RiseFigure, ParityRunsFromCornerToCorner) {
  rise();
  const Figure shown = figure();
  ASSERT_FALSE(shown.lines.empty());
  EXPECT_EQ(shown.lines[0].rule, Rule::parity);
  EXPECT_DOUBLE_EQ(shown.lines[0].from.x, shown.lines[0].from.y);
  EXPECT_DOUBLE_EQ(shown.lines[0].to.x, shown.lines[0].to.y);
}

TEST_F(RiseFigure, ToleranceIsAShareOfTheExpectedRiseAndAtLeastTheFloor) {
  rise();
  const Figure shown = figure();
  const Band& band = shown.bands.at(0);
  EXPECT_NEAR(band.outline[0].x - band.outline[0].y, 2, 1e-9);                        // ±2 Δ°F at the low end
  EXPECT_NEAR(band.outline[1].x, 2 / 0.15, 1e-9);                                     // where 15 % takes over
  EXPECT_NEAR(band.outline[3].y / band.outline[3].x, 1.15, 1e-9);
}

TEST_F(RiseFigure, LimitIsDrawnAsTheRiseThatReachesIt) {
  rise();
  limit();
  const Figure shown = figure();
  ASSERT_EQ(shown.lines.size(), 2U);
  EXPECT_EQ(shown.lines[1].rule, Rule::limit);
  EXPECT_NEAR(shown.lines[1].from.y, 35, 1e-9);
  EXPECT_EQ(shown.lines[1].label, "limit 90.0 °F");
}

TEST_F(RiseFigure, WithoutTheEnteringTemperatureTheLimitIsTold) {
  auto& made = check(CheckKind::limit, code(RiseStep::heatOn), Outcome::fail);
  made.measured = fahrenheit(98).si();
  made.high = fahrenheit(90).si();
  const Figure shown = figure();
  EXPECT_EQ(shown.lines.size(), 1U);
  EXPECT_EQ(shown.remark, "discharge 98.0 °F, limit 90.0 °F");
}

TEST_F(RiseFigure, ColdWhenOffStandsAtNoExpectedRise) {
  check(CheckKind::coldWhenOff, code(RiseStep::heatOff), Outcome::fail).measured = fahrenheitDegrees(6).si();
  const Figure shown = figure();
  ASSERT_EQ(shown.points.size(), 1U);
  EXPECT_EQ(shown.points[0].at.x, 0);
  EXPECT_NEAR(shown.points[0].at.y, 6, 1e-9);
}

}  // namespace
}  // namespace ductwright::plot
