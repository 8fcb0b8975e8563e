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
  return -std::expm1(std::pow(ntu, 0.22) / ratio * std::expm1(-ratio * std::pow(ntu, 0.78)));
}

std::optional<double> crossFlowNtu(double effectiveness, double ratio) {
  if (!(effectiveness > 0 && effectiveness < 1)) return std::nullopt;
  if (crossFlowEffectiveness(kLargestNtu, ratio) < effectiveness) return std::nullopt;
  double low = 0;
  double high = kLargestNtu;
  for (int i = 0; i < 200 && high - low > 1e-14 * high; ++i) {
    const double middle = low + (high - low) / 2;
    (crossFlowEffectiveness(middle, ratio) < effectiveness ? low : high) = middle;
  }
  return low + (high - low) / 2;
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
