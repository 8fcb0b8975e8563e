#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "air/flow_basis.h"
#include "air/flow_element.h"
#include "air/moist_air.h"
#include "air/traverse.h"
#include "air/velocity_pressure.h"

namespace ductwright::air {
namespace {

using quantity::cfm;
using quantity::Density;
using quantity::inches;
using quantity::inchesOfWater;
using quantity::pascals;

const FlowCoefficient kEight = FlowCoefficient::fromSi(0.03);

TEST(FlowBasis, keepsTheMassAndComesBack) {
  const Density thin = Density::fromSi(1.0);
  EXPECT_NEAR(toStandard(cfm(1204), thin) / cfm(1000), 1, 1e-12);
  EXPECT_NEAR(toActual(toStandard(cfm(450), thin), thin) / cfm(450), 1, 1e-12);
  EXPECT_EQ(toStandard(cfm(450), kStandardDensity), cfm(450));
}

TEST(VelocityPressure, isUndoneByItsInverse) {
  const Density rho = Density::fromSi(1.1);
  for (const double v : {0.0, 0.5, 7.5, 20.0})
    EXPECT_NEAR(velocity(velocityPressure(quantity::Velocity::fromSi(v), rho), rho).si(), v, 1e-12);
}

TEST(VelocityPressure, isNoVelocityWhereNegative) {
  EXPECT_EQ(velocity(pascals(-3), kStandardDensity).si(), 0);
}

TEST(FlowElement, readsThePressureOfItsFlow) {
  for (const double q : {0.0, 75.0, 450.0, 1800.0})
    EXPECT_NEAR(elementFlow(kEight, elementPressure(kEight, cfm(q))).si(), cfm(q).si(), 1e-12);
  EXPECT_EQ(elementFlow(kEight, pascals(-1)).si(), 0);
}

TEST(FlowElement, movesMoreThinAirThanItShows) {
  const auto p = inchesOfWater(0.1);
  EXPECT_EQ(elementFlow(kEight, p, kStandardDensity), elementFlow(kEight, p));
  EXPECT_NEAR(elementFlow(kEight, p, Density::fromSi(1.204 / 1.21)) / elementFlow(kEight, p), 1.1, 1e-12);
}

TEST(Correction, byOnePointRemovesACoefficientsError) {
  // The controller shows a fifth too much everywhere.
  const auto correction = onePoint(kEight, {cfm(480), cfm(400)});
  ASSERT_TRUE(correction);
  EXPECT_NEAR(change(*correction, kEight), -1.0 / 6, 1e-12);
  EXPECT_NEAR(errorLeft(*correction, kEight, {cfm(480), cfm(400)}), 0, 1e-12);
  EXPECT_NEAR(errorLeft(*correction, kEight, {cfm(120), cfm(100)}), 0, 1e-12);
}

TEST(Correction, byOnePointLeavesAZerosErrorAtLowFlow) {
  // The transducer reads 2 Pa too much; at 400 cfm that is hidden, at 80 cfm it is not.
  const auto shown = [](Airflow q) { return elementFlow(kEight, elementPressure(kEight, q) + pascals(2)); };
  const FlowPoint high{shown(cfm(400)), cfm(400)};
  const FlowPoint low{shown(cfm(80)), cfm(80)};
  const auto one = onePoint(kEight, high);
  const auto two = twoPoint(kEight, high, low);
  ASSERT_TRUE(one && two);
  EXPECT_GT(errorLeft(*one, kEight, low), 0.4);
  EXPECT_NEAR(errorLeft(*two, kEight, low), 0, 1e-9);
  EXPECT_NEAR(errorLeft(*two, kEight, high), 0, 1e-9);
  EXPECT_NEAR(two->zero.si(), -2, 1e-9);
  EXPECT_NEAR(two->coefficient / kEight, 1, 1e-9);
}

TEST(Correction, isNothingWhereThePointsCannotGiveOne) {
  EXPECT_FALSE(onePoint(kEight, {cfm(0), cfm(400)}));
  EXPECT_FALSE(onePoint(kEight, {cfm(400), cfm(0)}));
  EXPECT_FALSE(twoPoint(kEight, {cfm(400), cfm(380)}, {cfm(400), cfm(380)}));
  EXPECT_FALSE(twoPoint(kEight, {cfm(400), cfm(380)}, {cfm(400), cfm(300)}));
  EXPECT_FALSE(twoPoint(kEight, {cfm(400), cfm(100)}, {cfm(100), cfm(400)}));
}

// By moving each measured flow by its uncertainty and looking at the coefficient that comes out.
TEST(Correction, hasTheUncertaintyThatItsFlowsGiveIt) {
  const FlowPoint high{cfm(800), cfm(760)};
  const FlowPoint low{cfm(200), cfm(230)};
  const auto k = twoPoint(kEight, high, low)->coefficient;
  const auto moved = [&](double atHigh, double atLow) {
    return twoPoint(kEight, {high.reported, high.measured + cfm(atHigh)},
                    {low.reported, low.measured + cfm(atLow)})
                   ->coefficient /
               k -
           1;
  };
  EXPECT_NEAR(twoPointUncertainty(high, cfm(1), low, cfm(2)), std::hypot(moved(1, 0), moved(0, 2)), 1e-5);
  EXPECT_DOUBLE_EQ(onePointUncertainty(high, cfm(38)), 0.05);
}

TEST(Correction, isDoubtedWhereItIsLargeOrLostOrMadeInMotion) {
  EXPECT_FALSE(doubtOf(-0.15, 0.03, 0.20, false).any());
  EXPECT_TRUE(doubtOf(-0.21, 0.03, 0.20, false).large);
  EXPECT_FALSE(doubtOf(0.20, 0.03, 0.20, false).large);
  EXPECT_TRUE(doubtOf(0.05, 0.03, 0.20, false).lostInUncertainty);
  EXPECT_FALSE(doubtOf(0.07, 0.03, 0.20, false).lostInUncertainty);
  EXPECT_TRUE(doubtOf(0.15, 0.03, 0.20, true).damperMoved);
}

TEST(Traverse, choosesMoreLinesForLongerSides) {
  EXPECT_EQ(tchebycheffLines(inches(29.9)), 5);
  EXPECT_EQ(tchebycheffLines(inches(30)), 6);
  EXPECT_EQ(tchebycheffLines(inches(36)), 6);
  EXPECT_EQ(tchebycheffLines(inches(36.1)), 7);
  EXPECT_EQ(logLinearPoints(inches(10)), 6);
  EXPECT_EQ(logLinearPoints(inches(12)), 10);
}

TEST(Traverse, hasNoPositionsForOtherNumbers) {
  EXPECT_TRUE(tchebycheffPositions(4).empty());
  EXPECT_TRUE(tchebycheffPositions(8).empty());
  EXPECT_TRUE(logLinearPositions(7).empty());
}

TEST(Traverse, isExactInAnEvenProfile) {
  const std::array even{quantity::feetPerMinute(900), quantity::feetPerMinute(900),
                        quantity::feetPerMinute(900)};
  EXPECT_NEAR(inCfm(traverseFlow(even, quantity::Area::fromSi(2 * quantity::kFoot * quantity::kFoot))), 1800,
              1e-9);
}

}  // namespace
}  // namespace ductwright::air
