#include "inlet.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "site.h"

namespace ductwright::sample {
namespace {

constexpr double kShut = 0.005;  // what a shut blade still passes, as a share of the open one

// A round blade's free area against its angle.
double opening(double damper) {
  return kShut + (1 - kShut) * (1 - std::cos(damper * std::numbers::pi / 2));
}

}  // namespace

double Inlet::signal(double flow) const {
  const double root = flow / coefficient;
  return root * root * density / kStandardDensity;
}

double Inlet::reported(double flow) const {
  const double shown = std::max(0.0, signal(flow) + zero);
  return basis * loaded * std::sqrt(shown * kStandardDensity / assumed);
}

double Inlet::flowAt(double setpoint) const {
  const double root = setpoint / (basis * loaded);
  const double wanted = root * root * assumed / kStandardDensity - zero;
  const double flow = coefficient * std::sqrt(std::max(0.0, wanted) * kStandardDensity / density);
  return std::min(flow, openFlow());
}

double Inlet::openFlow() const {
  return std::sqrt(pressure / openResistance);
}

double Inlet::damperFor(double flow) const {
  const double fixed = openResistance * (1 - authority);
  const double spare = pressure / (flow * flow) - fixed;
  if (spare <= openResistance * authority) return 1;
  const double open = (std::sqrt(openResistance * authority / spare) - kShut) / (1 - kShut);
  return std::acos(1 - std::clamp(open, 0.0, 1.0)) * 2 / std::numbers::pi;
}

double Inlet::flowThrough(double damper) const {
  const double open = opening(std::clamp(damper, 0.0, 1.0));
  return std::sqrt(pressure / (openResistance * (1 - authority + authority / (open * open))));
}

double Inlet::onTheWay(double from, double to, double waited, double stroke) const {
  const double start = damperFor(from);
  const double end = damperFor(to);
  const double moved = waited / stroke;
  if (moved >= std::abs(end - start)) return to;
  return flowThrough(start + (end > start ? moved : -moved));
}

}  // namespace ductwright::sample
