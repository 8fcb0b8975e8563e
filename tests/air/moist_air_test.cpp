#include "air/moist_air.h"

#include <gtest/gtest.h>

namespace ductwright::air {
namespace {

using quantity::celsius;
using quantity::feet;
using quantity::metres;
using quantity::pascals;

TEST(MoistAir, growsThinnerWithElevationWarmthAndMoisture) {
  const auto t = celsius(13);
  EXPECT_GT(density(siteAir(feet(0), 0.008), t), density(siteAir(feet(5280), 0.008), t));
  EXPECT_GT(density(siteAir(feet(0), 0.008), t), density(siteAir(feet(0), 0.008), celsius(35)));
  EXPECT_GT(density(siteAir(feet(0), 0.004), t), density(siteAir(feet(0), 0.012), t));
}

TEST(MoistAir, hasNoPressureWhereTheAtmosphereEnds) {
  EXPECT_EQ(standardAtmosphere(metres(60000)), pascals(0));
  EXPECT_GT(standardAtmosphere(metres(-400)), pascals(101325));
}

TEST(MoistAir, givesTheRelativeHumidityBack) {
  for (const double t : {-5.0, 0.0, 13.0, 40.0})
    for (const double rh : {0.0, 0.2, 0.95, 1.0})
      EXPECT_NEAR(relativeHumidity(celsius(t), humidityRatio(celsius(t), rh, pascals(90000)), pascals(90000)),
                  rh, 1e-12);
}

TEST(MoistAir, hasOneSaturationPressureAtTheFreezingPoint) {
  const double over = saturationPressure(celsius(0.011)).si();
  const double below = saturationPressure(celsius(0.009)).si();
  EXPECT_NEAR(over, below, 0.2);
  EXPECT_NEAR(over, 611.7, 0.1);
}

}  // namespace
}  // namespace ductwright::air
