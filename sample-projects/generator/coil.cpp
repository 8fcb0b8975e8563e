#include "coil.h"

#include <algorithm>
#include <cmath>

namespace ductwright::sample {
namespace {

// Both streams unmixed (the usual closed approximation; handbooks of heat transfer, from memory).
double effectiveness(double ntu, double ratio) {
  if (ratio < 1e-9) return 1 - std::exp(-ntu);
  return 1 - std::exp(std::pow(ntu, 0.22) / ratio * (std::exp(-ratio * std::pow(ntu, 0.78)) - 1));
}

double exchanged(double conductance, double air, double water, double difference) {
  const double least = std::min(air, water);
  if (least <= 0) return 0;
  return effectiveness(conductance / least, least / std::max(air, water)) * least * difference;
}

// The greatest x in [0, most] with f(x) <= target, f growing.
template <class Function>
double bisect(Function f, double most, double target) {
  double low = 0;
  double high = most;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (f(middle) <= target ? low : high) = middle;
  }
  return (low + high) / 2;
}

}  // namespace

// Films: air side with flow to the power 0.5, water side to the power 0.8, 0.6 and 0.4 of the resistance at
// design.
double Coil::heat(double air, double entering, double water, double enteringWater) const {
  if (air <= 0 || water <= 0) return 0;
  const double films = 0.6 * std::pow(air / designAir, -0.5) + 0.4 * std::pow(water / designWater, -0.8);
  return exchanged(conductance / films, air, water * kWaterHeat, enteringWater - entering);
}

double Coil::waterFor(double air, double entering, double rise, double most, double enteringWater) const {
  return bisect([&](double water) { return heat(air, entering, water, enteringWater); }, most, air * rise);
}

Coil coilFor(double air, double entering, double rise, double water, double enteringWater) {
  const auto heat = [&](double conductance) {
    return exchanged(conductance, air, water * kWaterHeat, enteringWater - entering);
  };
  return {.designAir = air, .designWater = water, .conductance = bisect(heat, 100 * air, air * rise)};
}

}  // namespace ductwright::sample
