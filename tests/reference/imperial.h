#pragma once

#include "quantity/quantity.h"

// Imperial units in which sources print what the program never shows.
namespace ductwright::reference {

inline constexpr double kPound = 0.45359237;                                            // kg
inline constexpr double kPsi = kPound * 9.80665 / (quantity::kInch * quantity::kInch);  // Pa
inline constexpr double kPoundPerCubicFoot = kPound / (quantity::kFoot * quantity::kFoot * quantity::kFoot);
inline constexpr double kBtuPerPound = 2326;  // J/kg
// Btu/h for a flow of 1 cfm and a rise of 1 °F, in W/K for 1 m³/s.
inline constexpr double kSensibleHeatFactor =
    quantity::kBtuPerHour / quantity::kFahrenheitDegree / quantity::kCfm;

constexpr quantity::Density poundsPerCubicFoot(double v) {
  return quantity::Density::fromSi(v * kPoundPerCubicFoot);
}

}  // namespace ductwright::reference
