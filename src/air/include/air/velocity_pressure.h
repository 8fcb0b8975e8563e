#pragma once

#include <algorithm>
#include <cmath>

#include "quantity/quantity.h"

namespace ductwright::air {

// Velocity from a velocity pressure: √(2 Δp / ρ); a negative pressure counts as none.
inline quantity::Velocity velocity(quantity::Pressure p, quantity::Density rho) {
  return quantity::Velocity::fromSi(std::sqrt(2 * std::max(0.0, p.si()) / rho.si()));
}

// Velocity pressure of a velocity: ρ v² / 2.
constexpr quantity::Pressure velocityPressure(quantity::Velocity v, quantity::Density rho) {
  return quantity::Pressure::fromSi(rho.si() * v.si() * v.si() / 2);
}

}  // namespace ductwright::air
