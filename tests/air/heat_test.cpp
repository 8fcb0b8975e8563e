#include "air/heat.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "air/coil.h"

namespace ductwright::air {
namespace {

using quantity::cfm;
using quantity::fahrenheit;
using quantity::fahrenheitDegrees;
using quantity::feet;
using quantity::inFahrenheit;
using quantity::kilowatts;

const SiteAir kSite = siteAir(feet(1600), 0.008);

TEST(Heat, isUndoneByItsInverses) {
  const auto entering = fahrenheit(55);
  const auto stream = airCapacity(kSite, entering, cfm(450));
  const auto power = heat(stream, fahrenheitDegrees(30));
  EXPECT_NEAR(rise(power, stream) / fahrenheitDegrees(30), 1, 1e-12);
  EXPECT_NEAR(impliedFlow(kSite, entering, power, fahrenheitDegrees(30)) / cfm(450), 1, 1e-12);
}

TEST(Mixing, staysBetweenItsStreamsAndNearerTheHeavier) {
  const Stream cold{cfm(300), fahrenheit(55)};
  const Stream warm{cfm(300), fahrenheit(75)};
  const double t = inFahrenheit(mixed(kSite, cold, warm));
  EXPECT_GT(t, 64.5);
  EXPECT_LT(t, 65.0);  // the cold 300 cfm weigh more
  EXPECT_NEAR(inFahrenheit(mixed(kSite, warm, cold)), t, 1e-9);
  EXPECT_NEAR(inFahrenheit(mixed(kSite, cold, {cfm(0), fahrenheit(75)})), 55, 1e-9);
}

CoilPoint scheduled() {
  return {.air = airCapacity(kSite, fahrenheit(55), cfm(300)),
          .water = waterCapacity(quantity::gallonsPerMinute(1.2)),
          .enteringAir = fahrenheit(55),
          .dischargeAir = fahrenheit(90),
          .enteringWater = fahrenheit(140)};
}

TEST(Coil, meetsTheScheduledPointItWasFittedTo) {
  const CoilPoint point = scheduled();
  const auto ua = fittedConductance(point);
  ASSERT_TRUE(ua);
  const auto discharge = coilDischarge(*ua, {point.air, point.water, point.enteringAir, point.enteringWater});
  EXPECT_NEAR(inFahrenheit(discharge), 90, 1e-9);
}

TEST(Coil, warmsLessWithMoreAirCoolerWaterOrLessWater) {
  const CoilPoint point = scheduled();
  const auto ua = fittedConductance(point).value();
  const auto with = [&](CapacityRate air, CapacityRate water, Temperature enteringWater) {
    return inFahrenheit(coilDischarge(ua, {air, water, point.enteringAir, enteringWater}));
  };
  EXPECT_LT(with(point.air * 1.5, point.water, point.enteringWater), 90);
  EXPECT_GT(with(point.air * 0.6, point.water, point.enteringWater), 90);
  EXPECT_LT(with(point.air, point.water, fahrenheit(120)), 90);
  EXPECT_LT(with(point.air, point.water * 0.5, point.enteringWater), 90);
  EXPECT_NEAR(with(point.air, CapacityRate(), point.enteringWater), 55, 1e-9);
}

TEST(Coil, neverWarmsAirAboveItsWater) {
  const CoilPoint point = scheduled();
  for (const double share : {0.01, 0.1, 1.0, 10.0}) {
    const auto t = coilDischarge(fittedConductance(point).value() * 100,
                                 {point.air * share, point.water, point.enteringAir, point.enteringWater});
    EXPECT_LE(t, point.enteringWater);
    EXPECT_GE(t, point.enteringAir);
  }
}

TEST(Coil, givesNoMoreHeatThanItsWaterCarries) {
  const CoilPoint point = scheduled();
  for (const double share : {0.05, 0.2, 1.0, 5.0}) {
    const auto water = point.water * share;
    const auto t = coilDischarge(fittedConductance(point).value() * 20,
                                 {point.air, water, point.enteringAir, point.enteringWater});
    const double carried = heat(water, point.enteringWater - point.enteringAir).si();
    EXPECT_LT(heat(point.air, t - point.enteringAir).si(), carried);
    // So large a coil takes nearly all that the lesser stream can carry.
    EXPECT_GT(heat(point.air, t - point.enteringAir) /
                  heat(std::min(point.air, water), point.enteringWater - point.enteringAir),
              0.8);
  }
}

TEST(Coil, isNothingWhereNoCoilCouldMeetTheSchedule) {
  CoilPoint hotterThanWater = scheduled();
  hotterThanWater.dischargeAir = fahrenheit(141);
  EXPECT_FALSE(fittedConductance(hotterThanWater));
  CoilPoint coldWater = scheduled();
  coldWater.enteringWater = fahrenheit(50);
  EXPECT_FALSE(fittedConductance(coldWater));
  CoilPoint noAir = scheduled();
  noAir.air = CapacityRate();
  EXPECT_FALSE(fittedConductance(noAir));
  CoilPoint noRise = scheduled();
  noRise.dischargeAir = noRise.enteringAir;
  EXPECT_FALSE(fittedConductance(noRise));
}

TEST(Coil, findsTheTransferUnitsOfAnEffectiveness) {
  for (const double ratio : {0.0, 0.2, 0.7, 1.0})
    for (const double ntu : {0.05, 0.5, 2.0, 6.0}) {
      const auto found = crossFlowNtu(crossFlowEffectiveness(ntu, ratio), ratio);
      ASSERT_TRUE(found);
      EXPECT_NEAR(*found / ntu, 1, 1e-9);
    }
  EXPECT_FALSE(crossFlowNtu(0, 0.5));
  EXPECT_FALSE(crossFlowNtu(1, 0.5));
}

}  // namespace
}  // namespace ductwright::air
