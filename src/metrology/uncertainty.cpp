#include "metrology/uncertainty.h"

#include <cassert>
#include <limits>

#include "metrology/distribution.h"

namespace ductwright::metrology {
namespace {

double combinedOf(std::span<const Contribution> budget) {
  double square = 0;
  for (const Contribution& c : budget) square += c.u * c.u;
  return std::sqrt(square);
}

}  // namespace

double combined(std::span<const double> contributions) {
  double square = 0;
  for (const double u : contributions) square += u * u;
  return std::sqrt(square);
}

Mean meanOf(std::span<const double> values) {
  assert(!values.empty());
  const auto n = static_cast<double>(values.size());
  double sum = 0;
  for (const double v : values) sum += v;
  const double mean = sum / n;
  if (values.size() == 1) return {mean, 0, 0};
  double square = 0;
  for (const double v : values) square += (v - mean) * (v - mean);
  const double deviation = std::sqrt(square / (n - 1));
  return {mean, deviation / std::sqrt(n), deviation};
}

double effectiveFreedom(std::span<const Contribution> budget) {
  const double u = combinedOf(budget);
  double sum = 0;
  for (const Contribution& c : budget) sum += c.u * c.u * c.u * c.u / c.freedom;
  if (sum == 0) return std::numeric_limits<double>::infinity();
  return u * u * u * u / sum;
}

double expanded(std::span<const Contribution> budget, double level) {
  return coverageFactor(level, effectiveFreedom(budget)) * combinedOf(budget);
}

}  // namespace ductwright::metrology
