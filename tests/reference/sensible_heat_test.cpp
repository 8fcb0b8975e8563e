#include <array>

#include "air/flow_basis.h"
#include "air/heat.h"
#include "imperial.h"
#include "table.h"

namespace ductwright::reference {
namespace {

using quantity::cfm;
using quantity::fahrenheit;
using quantity::fahrenheitDegrees;
using quantity::feet;
using quantity::inFahrenheit;
using quantity::inFahrenheitDegrees;
using quantity::kilowatts;
using quantity::pascals;

// Dry air of 0.075 lb/ft³, the air of the factor 1.08 Btu/h for a cfm and a °F.
const air::SiteAir kTradeAir{
    pascals(0.075 * kPoundPerCubicFoot * air::kDryAirGasConstant * fahrenheit(70).si()), 0};

double factor(const air::SiteAir& site, quantity::Temperature t) {
  return air::airCapacity(site, t, quantity::Airflow::fromSi(1)).si() / kSensibleHeatFactor;
}

// PsychroLib 1.1.1 from npm: 60 × dry-air density × (0.240 + 0.444 W); the SI specific heats here, 1006 and
// 1860 J/(kg·K), are 0.12 % above and 0.06 % above those of the I-P formula.
TEST(SensibleHeat, agreesWithAnIndependentLibraryAtEveryElevation) {
  for (const auto& row : rowsOf("psychrometrics/moist_air_ip.csv", 7))
    expectWithin(factor({pascals(row[2] * kPsi), row[3]}, fahrenheit(row[0])), row[6], 1.5e-3);
}

// Trade factors, from memory: 1.08 for dry standard air, 1.10 with about 0.01 of moisture.
TEST(SensibleHeat, givesTheTradesFactors) {
  EXPECT_NEAR(factor(kTradeAir, fahrenheit(70)), 1.080, 0.002);
  const air::SiteAir moist{kTradeAir.pressure, 0.01};
  EXPECT_NEAR(factor(moist, fahrenheit(60)), 1.10, 0.01);
}

// Computed: at 5280 ft the pressure, and with it the factor, is 0.823 of that at sea level: 0.889 for 1.08.
TEST(SensibleHeat, fallsWithElevation) {
  const air::SiteAir high{air::standardAtmosphere(feet(5280)), 0};
  const air::SiteAir low{air::standardAtmosphere(feet(0)), 0};
  const double ratio = factor(high, fahrenheit(70)) / factor(low, fahrenheit(70));
  EXPECT_NEAR(ratio, 0.823, 5e-4);
  EXPECT_NEAR(1.08 * ratio, 0.889, 5e-4);
}

// Btu/h = 500 gpm °F at 60 °F (60 × 8.337 = 500.2) and about 491 at 180 °F (computed); one constant serves
// here, near heating water.
TEST(SensibleHeat, countsWaterNearHeatingTemperature) {
  const double perGpm = air::waterCapacity(quantity::gallonsPerMinute(1)).si() * quantity::kFahrenheitDegree /
                        quantity::kBtuPerHour;
  expectWithin(perGpm, 491, 4e-3);
  expectWithin(perGpm, 500, 2e-2);
}

// Computed with the trade's factors: 2 gpm that cool 20 °F give 20 000 Btu/h, in 400 cfm a rise of 46.30 °F.
TEST(SensibleHeat, warmsAirFromTheWaterSide) {
  const auto given = air::heat(air::waterCapacity(quantity::gallonsPerMinute(2)), fahrenheitDegrees(20));
  expectWithin(given.si() / quantity::kBtuPerHour, 20000, 2e-2);
  const auto rise = air::rise(quantity::Power::fromSi(20000 * quantity::kBtuPerHour),
                              air::airCapacity(kTradeAir, fahrenheit(70), cfm(400)));
  EXPECT_NEAR(inFahrenheitDegrees(rise), 46.30, 0.1);
}

// kW = cfm °F / 3160, as public heater sizing sheets have it; 1 kW at 100 cfm: 31.6 °F (computed).
TEST(SensibleHeat, warmsAirElectrically) {
  const auto rise = air::rise(kilowatts(1), air::airCapacity(kTradeAir, fahrenheit(70), cfm(100)));
  EXPECT_NEAR(inFahrenheitDegrees(rise), 31.6, 0.06);
  // cfm for a kW and a rise in °F, computed.
  const std::array<std::array<double, 2>, 7> rows{
      {{20, 158}, {30, 105}, {35, 90}, {40, 79}, {50, 63}, {60, 53}, {65, 49}}};
  for (const auto [degrees, flow] : rows)
    EXPECT_NEAR(quantity::inCfm(
                    air::impliedFlow(kTradeAir, fahrenheit(70), kilowatts(1), fahrenheitDegrees(degrees))),
                flow, 0.6);
}

// Computed from masses: flows of standard air, 200 at 55 °F with 400 at 78 °F: 70.33; 300 at 55 with 700 at
// 76: 69.70.
TEST(SensibleHeat, mixesByMass) {
  const air::SiteAir site = air::siteAir(feet(1000), 0.008);
  const auto stream = [&](double standardCfm, double degrees) {
    const auto t = fahrenheit(degrees);
    return air::Stream{air::toActual(cfm(standardCfm), air::density(site, t)), t};
  };
  EXPECT_NEAR(inFahrenheit(air::mixed(site, stream(200, 55), stream(400, 78))), 70.33, 0.005);
  EXPECT_NEAR(inFahrenheit(air::mixed(site, stream(300, 55), stream(700, 76))), 69.70, 0.005);
}

// Computed: a fan of 0.2 kW warms 1000 cfm by 0.63 °F.
TEST(SensibleHeat, countsTheFansHeat) {
  const auto rise = air::rise(kilowatts(0.2), air::airCapacity(kTradeAir, fahrenheit(70), cfm(1000)));
  EXPECT_NEAR(inFahrenheitDegrees(rise), 0.63, 0.005);
}

}  // namespace
}  // namespace ductwright::reference
