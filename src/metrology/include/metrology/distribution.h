#pragma once

#include <cmath>
#include <numbers>

namespace ductwright::metrology {

// Φ: the chance that a standard normal variable is below x.
inline double normalCdf(double x) {
  return 0.5 * std::erfc(-x / std::numbers::sqrt2);
}

// The inverse of Φ; ±infinity at 1 and 0. `p` lies in 0 to 1.
double normalQuantile(double p);

// Student's t: the chance of being below t, and its inverse. The degrees of freedom are above 0 and may
// be infinite (the normal distribution).
double studentCdf(double t, double freedom);
double studentQuantile(double p, double freedom);

// The coverage factor k for a two-sided level of confidence: t of (1 + level) / 2.
double coverageFactor(double level, double freedom);

}  // namespace ductwright::metrology
