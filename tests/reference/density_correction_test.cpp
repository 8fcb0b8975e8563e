#include <array>

#include "air/flow_element.h"
#include "air/moist_air.h"
#include "imperial.h"
#include "table.h"

namespace ductwright::reference {
namespace {

using quantity::fahrenheit;
using quantity::feet;

// "Air temperature and altitude corrections for ventilation systems", mikeaurelius.wordpress.com, 2009, a
// public copy of a handbook table: lb/ft³ of dry air, elevations 0 to 10 000 ft by thousands.
constexpr std::array kTemperatures{0.0, 50.0, 70.0, 100.0};
constexpr std::array<std::array<double, 11>, 4> kDensities{{
    {.086, .083, .080, .077, .075, .072, .069, .067, .064, .062, .059},
    {.078, .075, .073, .070, .067, .065, .062, .060, .058, .056, .054},
    {.075, .072, .070, .067, .065, .062, .060, .058, .056, .054, .052},
    {.071, .068, .066, .064, .061, .059, .057, .055, .053, .051, .049},
}};

TEST(DensityCorrection, followsAPublishedTableOfElevationAndTemperature) {
  for (std::size_t row = 0; row < kTemperatures.size(); ++row) {
    for (std::size_t i = 0; i < kDensities[row].size(); ++i) {
      const auto site = air::siteAir(feet(1000.0 * static_cast<double>(i)), 0);
      const double rho = air::density(site, fahrenheit(kTemperatures[row])).si() / kPoundPerCubicFoot;
      // The table is rounded to three decimals, and here and there the last one is off by one.
      EXPECT_NEAR(rho, kDensities[row][i], 0.0011) << kTemperatures[row] << " °F, " << i << " thousand ft";
    }
  }
}

// Computed: 5000 ft, 70 °F, dry: 0.06231 lb/ft³ and √(0.075 / ρ) = 1.0971.
TEST(DensityCorrection, isTheRootOfTheDensityRatio) {
  const auto site = air::siteAir(feet(5000), 0);
  const auto rho = air::density(site, fahrenheit(70));
  expectWithin(rho.si() / kPoundPerCubicFoot, 0.06231, 2e-4);
  // 0.075 lb/ft³ is 1.2014 kg/m³, the standard here 1.204.
  expectWithin(air::densityCorrection(rho), 1.0971 * std::sqrt(1.204 / (0.075 * kPoundPerCubicFoot)), 2e-4);
}

// Spellman, "Mathematics and Statistics for the Environment" (CRC), example 15.5: 90 °F and 27.50 inHg give
// .96 × .92 = .88, unrounded .8857, of the density at 70 °F and 29.92 inHg.
TEST(DensityCorrection, followsATextbookExample) {
  constexpr double inHg = 3386.389;
  const auto warm = air::density({quantity::pascals(27.50 * inHg), 0}, fahrenheit(90));
  const auto standard = air::density({quantity::pascals(29.92 * inHg), 0}, fahrenheit(70));
  EXPECT_NEAR(warm / standard, 0.8857, 2e-4);
}

}  // namespace
}  // namespace ductwright::reference
