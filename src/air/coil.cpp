#include "air/coil.h"

#include <algorithm>
#include <cmath>

namespace ductwright::air {
namespace {

constexpr double kLargestNtu = 100;

}  // namespace

double crossFlowEffectiveness(double ntu, double ratio) {
  if (ntu <= 0) return 0;
  if (ratio <= 0) return -std::expm1(-ntu);
  const double power = std::pow(ntu, 0.78);
  return -std::expm1(ntu / power / ratio * std::expm1(-ratio * power));
}

// By Newton's method from the NTU of Cr = 0, which is below: the effectiveness is concave, so no step overshoots.
std::optional<double> crossFlowNtu(double effectiveness, double ratio) {
  if (!(effectiveness > 0 && effectiveness < 1)) return std::nullopt;
  double ntu = -std::log1p(-effectiveness);
  if (ratio <= 0) return ntu < kLargestNtu ? std::optional(ntu) : std::nullopt;
  for (int i = 0; i < 100 && ntu < kLargestNtu; ++i) {
    const double power = std::pow(ntu, 0.78), decay = std::exp(-ratio * power);
    const double exponent = ntu / power / ratio * (decay - 1);
    const double rest = std::exp(exponent);
    const double slope = rest * (0.78 * decay - 0.22 * exponent / ntu);
    const double step = (effectiveness - 1 + rest) / slope;
    ntu += step;
    if (std::abs(step) <= 1e-14 * ntu) return ntu;
  }
  return ntu < kLargestNtu ? std::optional(ntu) : std::nullopt;
}

std::optional<quantity::CapacityRate> fittedConductance(const CoilPoint& point) {
  const auto [least, most] = std::minmax({point.air.si(), point.water.si()});
  const double greatest = least * (point.enteringWater - point.enteringAir).si();
  if (!(least > 0) || !(greatest > 0)) return std::nullopt;
  const double exchanged = point.air.si() * (point.dischargeAir - point.enteringAir).si();
  const auto ntu = crossFlowNtu(exchanged / greatest, least / most);
  if (!ntu) return std::nullopt;
  return quantity::CapacityRate::fromSi(*ntu * least);
}

quantity::Temperature coilDischarge(quantity::CapacityRate ua, const CoilEntering& entering) {
  const auto [least, most] = std::minmax({entering.air.si(), entering.water.si()});
  if (!(least > 0)) return entering.enteringAir;
  const double share = crossFlowEffectiveness(ua.si() / least, least / most) * least / entering.air.si();
  return entering.enteringAir + (entering.enteringWater - entering.enteringAir) * share;
}

}  // namespace ductwright::air
