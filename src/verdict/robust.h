#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

// Statistics that a few wild values do not move.
namespace ductwright::verdict {

// The middle value (of an even number, the mean of the two); 0 of nothing. Reorders `values`.
inline double medianOf(std::vector<double>& values) {
  if (values.empty()) return 0;
  const auto half = static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), values.begin() + half, values.end());
  const double upper = values[static_cast<std::size_t>(half)];
  if (values.size() % 2 == 1) return upper;
  return (upper + *std::max_element(values.begin(), values.begin() + half)) / 2;
}
inline double median(std::vector<double> values) {
  return medianOf(values);
}

// Median absolute deviation to standard deviation, for a normal distribution: 1 / Φ⁻¹(3/4).
inline constexpr double kNormalMad = 1.4826022185056018;
// Standard deviation of the median of n normal values ÷ (σ / √n), for large n: √(π / 2).
inline constexpr double kMedianSpread = 1.2533141373155001;

// The standard deviation of a normal distribution with the values' median absolute deviation.
inline double robustDeviation(std::vector<double> values, double middle) {
  for (double& v : values) v = std::abs(v - middle);
  return kNormalMad * medianOf(values);
}

}  // namespace ductwright::verdict
