#pragma once

#include <algorithm>
#include <cmath>
#include <optional>

#include "air/flow_basis.h"
#include "quantity/quantity.h"

// An inlet flow element, Q = K √Δp with K for standard air, and the correction of its coefficient.
namespace ductwright::air {

using quantity::Airflow;
using quantity::Density;
using quantity::FlowCoefficient;
using quantity::Pressure;

// Actual flow for a reading taken as if the air were standard: × √(ρ_std / ρ).
inline double densityCorrection(Density rho) {
  return std::sqrt(kStandardDensity / rho);
}

// The flow as the element's controller works it out, for standard air; a negative pressure is no flow.
inline Airflow elementFlow(FlowCoefficient k, Pressure p) {
  return Airflow::fromSi(k.si() * std::sqrt(std::max(0.0, p.si())));
}

// The actual flow in air of density `rho`.
inline Airflow elementFlow(FlowCoefficient k, Pressure p, Density rho) {
  return elementFlow(k, p) * densityCorrection(rho);
}

// The pressure at which the element's controller works out this flow: (Q / K)².
constexpr Pressure elementPressure(FlowCoefficient k, Airflow q) {
  const double root = q.si() / k.si();
  return Pressure::fromSi(root * root);
}

// What the controller shows and what was measured, in the same air and on the same basis.
struct FlowPoint {
  Airflow reported;
  Airflow measured;
};

// A corrected element. `zero` is added to each pressure read before its root is taken.
struct Correction {
  FlowCoefficient coefficient;
  Pressure zero;
};

// One point: K′ = K · Q_meas / Q_reported. Nothing where no flow was reported or measured.
std::optional<Correction> onePoint(FlowCoefficient k, const FlowPoint& at);

// Two points: K² = (Q₁² − Q₂²) / (Δp₁ − Δp₂), zero Q₁² / K² − Δp₁. Nothing where the two points do not
// differ, or where the flow falls as the pressure grows.
std::optional<Correction> twoPoint(FlowCoefficient k, const FlowPoint& high, const FlowPoint& low);

// The flow that the corrected controller will show where it shows `reported` with `k` today.
Airflow correctedFlow(const Correction& correction, FlowCoefficient k, Airflow reported);

// The error predicted at another step after the correction, as a share of the measured flow.
double errorLeft(const Correction& correction, FlowCoefficient k, const FlowPoint& at);

// How much larger or smaller the coefficient becomes, as a share: 0.2 is 20 %.
constexpr double change(const Correction& correction, FlowCoefficient k) {
  return correction.coefficient / k - 1;
}

// Relative standard uncertainty of a corrected coefficient, from the standard uncertainties of the measured
// flows (what the controller shows is taken as it is). One point: u / Q. Two points with independent errors:
// √((Q₁ u₁)² + (Q₂ u₂)²) / (Q₁² − Q₂²).
double onePointUncertainty(const FlowPoint& at, Airflow u);
double twoPointUncertainty(const FlowPoint& high, Airflow uHigh, const FlowPoint& low, Airflow uLow);

// Why a correction should not be trusted.
struct CorrectionDoubt {
  bool large = false;              // larger than the criteria allow
  bool lostInUncertainty = false;  // smaller than its own expanded uncertainty, 2 u
  bool damperMoved = false;        // made while the damper moved

  [[nodiscard]] constexpr bool any() const { return large || lostInUncertainty || damperMoved; }
};

// `change` and `u` are shares of the coefficient, `largest` the greatest change that is not doubted.
constexpr CorrectionDoubt doubtOf(double change, double u, double largest, bool damperMoved) {
  const double size = change < 0 ? -change : change;
  return {size > largest, size < 2 * u, damperMoved};
}

}  // namespace ductwright::air
