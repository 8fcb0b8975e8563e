#include "metrology/settling.h"

#include <algorithm>
#include <cmath>

namespace ductwright::metrology {

double settlingUncertainty(double y, const Interval& interval, double low, double high) {
  if (!interval.contains(y)) {
    // Only the nearer limit counts: with the farther one the conformity is smaller still.
    const double distance = y < interval.low ? interval.low - y : y - interval.high;
    return distance / normalQuantile(1 - low);
  }
  const double distance = std::min(y - interval.low, interval.high - y);
  if (!(distance > 0)) return 0;
  if (std::isinf(distance)) return distance;
  // Inside, conformity falls as u grows; one limit alone bounds u from above.
  double settled = 0;
  double undecided = distance / normalQuantile(high);
  if (conformity(y, undecided, interval) >= high) return undecided;
  for (int i = 0; i < 60; ++i) {
    const double middle = (settled + undecided) / 2;
    (conformity(y, middle, interval) >= high ? settled : undecided) = middle;
  }
  return settled;
}

std::optional<int> readingsToReach(double need, double deviation, double fixed) {
  const double room = need * need - fixed * fixed;
  if (!(room > 0)) return std::nullopt;
  const double n = std::ceil(deviation * deviation / room);
  if (n > 1e9) return std::nullopt;
  return std::max(1, static_cast<int>(n));
}

}  // namespace ductwright::metrology
