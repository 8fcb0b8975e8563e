#include "air/moist_air.h"
#include "imperial.h"
#include "table.h"

namespace ductwright::reference {
namespace {

using air::density;
using air::enthalpy;
using air::humidityRatio;
using quantity::celsius;
using quantity::fahrenheit;
using quantity::pascals;

// PsychroLib 1.1.1 from npm; psychrometrics/make_table.mjs makes the tables again.
TEST(MoistAir, agreesWithAnIndependentLibraryInSi) {
  for (const auto& row : rowsOf("psychrometrics/moist_air_si.csv", 7)) {
    const auto t = celsius(row[0]);
    const auto p = pascals(row[2]);
    expectWithin(air::saturationPressure(t).si(), row[3], 1e-8);
    expectWithin(humidityRatio(t, row[1], p), row[4], 1e-8);
    expectWithin(density({p, row[4]}, t).si(), row[5], 1e-8);
    EXPECT_NEAR(enthalpy(t, row[4]), row[6], 0.001);
    EXPECT_NEAR(air::relativeHumidity(t, row[4], p), row[1], 1e-7);
  }
}

// The same library with its I-P formulae, whose constants are rounded apart from the SI ones.
TEST(MoistAir, agreesWithAnIndependentLibraryInImperialUnits) {
  for (const auto& row : rowsOf("psychrometrics/moist_air_ip.csv", 7)) {
    const auto t = fahrenheit(row[0]);
    const auto p = pascals(row[2] * kPsi);
    expectWithin(humidityRatio(t, row[1], p), row[3], 3e-4);
    expectWithin(density({p, row[3]}, t).si() / kPoundPerCubicFoot, row[4], 1e-4);
    // Enthalpy counts from 0 °F there and from 0 °C here: the difference to another state has no origin.
    const double above = (enthalpy(t, row[3]) - enthalpy(fahrenheit(0), 0)) / kBtuPerPound;
    expectWithin(above, row[5], 2e-3);
  }
}

// Worked values in the tests of PsychroLib (github.com/psychrometrics/psychrolib, commit 3066345), there
// with a relative tolerance of 0.0003.
TEST(MoistAir, followsPublishedWorkedValues) {
  const air::SiteAir site{pascals(95461), 0.02};
  const auto t = celsius(30);
  expectWithin((1 + 0.02) / density(site, t).si(), 0.940855, 3e-4);
  expectWithin(density(site, t).si(), 1.084120, 3e-4);
  expectWithin(enthalpy(t, 0.02), 81316, 3e-4);
  const air::SiteAir imperial{pascals(14.175 * kPsi), 0.02};
  expectWithin(density(imperial, fahrenheit(86)).si() / kPoundPerCubicFoot, 0.0692908, 3e-4);
}

}  // namespace
}  // namespace ductwright::reference
