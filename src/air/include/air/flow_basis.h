#pragma once

#include "quantity/quantity.h"

namespace ductwright::air {

// The air for which a standard flow is stated, and at which instruments assume to be read.
inline constexpr quantity::Density kStandardDensity = quantity::Density::fromSi(1.204);

// The flow of standard air with the same mass.
constexpr quantity::Airflow toStandard(quantity::Airflow actual, quantity::Density rho) {
  return actual * (rho / kStandardDensity);
}

// The flow at density `rho` with the same mass as a flow of standard air.
constexpr quantity::Airflow toActual(quantity::Airflow standard, quantity::Density rho) {
  return standard * (kStandardDensity / rho);
}

}  // namespace ductwright::air
