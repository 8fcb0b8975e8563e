#include "air/traverse.h"

#include <array>
#include <cassert>

#include "air/velocity_pressure.h"

namespace ductwright::air {
namespace {

using quantity::inches;

constexpr std::array kTchebycheff5{0.074, 0.288, 0.500, 0.712, 0.926};
constexpr std::array kTchebycheff6{0.061, 0.235, 0.437, 0.563, 0.765, 0.939};
constexpr std::array kTchebycheff7{0.053, 0.203, 0.366, 0.500, 0.634, 0.797, 0.947};
constexpr std::array kLogLinear6{0.032, 0.135, 0.321, 0.679, 0.865, 0.968};
constexpr std::array kLogLinear8{0.021, 0.117, 0.184, 0.345, 0.655, 0.816, 0.883, 0.979};
constexpr std::array kLogLinear10{0.019, 0.077, 0.153, 0.217, 0.361, 0.639, 0.783, 0.847, 0.923, 0.981};

}  // namespace

std::span<const double> tchebycheffPositions(int lines) {
  switch (lines) {
    case 5:
      return kTchebycheff5;
    case 6:
      return kTchebycheff6;
    case 7:
      return kTchebycheff7;
    default:
      return {};
  }
}

int tchebycheffLines(quantity::Length side) {
  if (side < inches(30)) return 5;
  return side > inches(36) ? 7 : 6;
}

std::span<const double> logLinearPositions(int pointsPerDiameter) {
  switch (pointsPerDiameter) {
    case 6:
      return kLogLinear6;
    case 8:
      return kLogLinear8;
    case 10:
      return kLogLinear10;
    default:
      return {};
  }
}

int logLinearPoints(quantity::Length diameter) {
  return diameter > inches(10) ? 10 : 6;
}

quantity::Airflow traverseFlow(std::span<const quantity::Velocity> velocities, quantity::Area area) {
  assert(!velocities.empty());
  quantity::Velocity sum;
  for (const auto v : velocities) sum = sum + v;
  return (sum / static_cast<double>(velocities.size())) * area;
}

quantity::Airflow traverseFlow(std::span<const quantity::Pressure> pressures, quantity::Density rho,
                               quantity::Area area) {
  assert(!pressures.empty());
  quantity::Velocity sum;
  for (const auto p : pressures) sum = sum + velocity(p, rho);
  return (sum / static_cast<double>(pressures.size())) * area;
}

}  // namespace ductwright::air
