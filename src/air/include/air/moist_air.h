#pragma once

#include <algorithm>
#include <cmath>

#include "quantity/quantity.h"

// Moist air by the ASHRAE Handbook of Fundamentals (2017), chapter 1, SI.
namespace ductwright::air {

using quantity::Density;
using quantity::Length;
using quantity::Pressure;
using quantity::Temperature;

inline constexpr double kDryAirGasConstant = 287.042;  // J/(kg·K)
inline constexpr double kWaterToAirMass = 0.621945;    // ratio of the molar masses
inline constexpr double kAirToWaterMass = 1.607858;    // its inverse, as the handbook rounds it

// The pressure of the standard atmosphere at an elevation above sea level (equation 3).
inline Pressure standardAtmosphere(Length elevation) {
  const double base = std::max(0.0, 1 - 2.25577e-5 * elevation.si());
  return Pressure::fromSi(101325.0 * std::pow(base, 5.2559));
}

// The air of a site: its barometric pressure and its humidity ratio, kg of water a kg of dry air.
struct SiteAir {
  Pressure pressure = Pressure::fromSi(101325.0);
  double humidityRatio = 0;
};

inline SiteAir siteAir(Length elevation, double humidityRatio) {
  return {standardAtmosphere(elevation), humidityRatio};
}

// Mass of moist air in a volume: p (1 + W) / (R T (1 + 1.607858 W)).
constexpr Density density(const SiteAir& air, Temperature t) {
  const double w = air.humidityRatio;
  return Density::fromSi(air.pressure.si() * (1 + w) /
                         (kDryAirGasConstant * t.si() * (1 + kAirToWaterMass * w)));
}

// J a kg of dry air, 0 at 0 °C and dry (equation 30).
constexpr double enthalpy(Temperature t, double humidityRatio) {
  return 1006.0 * t.celsius() + humidityRatio * (2501000.0 + 1860.0 * t.celsius());
}

// Saturation pressure of water vapour over ice below 0.01 °C, over water above (equations 5 and 6,
// -100 to 200 °C).
Pressure saturationPressure(Temperature t);

// kg a kg of dry air, from a relative humidity of 0 to 1 (equations 20 and 22).
double humidityRatio(Temperature t, double relativeHumidity, Pressure p);

// The inverse of humidityRatio.
double relativeHumidity(Temperature t, double humidityRatio, Pressure p);

}  // namespace ductwright::air
