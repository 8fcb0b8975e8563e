#include "air/flow_element.h"

namespace ductwright::air {

std::optional<Correction> onePoint(FlowCoefficient k, const FlowPoint& at) {
  if (!(at.reported.si() > 0) || !(at.measured.si() > 0)) return std::nullopt;
  return Correction{k * (at.measured / at.reported), Pressure()};
}

std::optional<Correction> twoPoint(FlowCoefficient k, const FlowPoint& high, const FlowPoint& low) {
  const double p1 = elementPressure(k, high.reported).si();
  const double p2 = elementPressure(k, low.reported).si();
  const double q1 = high.measured.si();
  const double q2 = low.measured.si();
  const double square = (q1 * q1 - q2 * q2) / (p1 - p2);
  if (!(square > 0) || !std::isfinite(square)) return std::nullopt;
  return Correction{FlowCoefficient::fromSi(std::sqrt(square)), Pressure::fromSi(q1 * q1 / square - p1)};
}

Airflow correctedFlow(const Correction& correction, FlowCoefficient k, Airflow reported) {
  return elementFlow(correction.coefficient, elementPressure(k, reported) + correction.zero);
}

double errorLeft(const Correction& correction, FlowCoefficient k, const FlowPoint& at) {
  return correctedFlow(correction, k, at.reported) / at.measured - 1;
}

double onePointUncertainty(const FlowPoint& at, Airflow u) { return u / at.measured; }

double twoPointUncertainty(const FlowPoint& high, Airflow uHigh, const FlowPoint& low, Airflow uLow) {
  const double q1 = high.measured.si();
  const double q2 = low.measured.si();
  return std::hypot(q1 * uHigh.si(), q2 * uLow.si()) / std::abs(q1 * q1 - q2 * q2);
}

}  // namespace ductwright::air
