#include "axis_range.h"

#include <algorithm>
#include <cmath>

namespace ductwright::plot {

void AxisRange::add(double value) {
  if (!std::isfinite(value)) return;
  m_low = std::min(m_low, value);
  m_high = std::max(m_high, value);
}

void AxisRange::add(double value, double half) {
  const double reach = std::isfinite(half) ? half : 0;
  add(value - reach);
  add(value + reach);
}

}  // namespace ductwright::plot
