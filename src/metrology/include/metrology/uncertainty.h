#pragma once

#include <cmath>
#include <numbers>
#include <span>

// Standard uncertainties (k = 1) by JCGM 100:2008, the GUM. All numbers of one budget are in one unit.
namespace ductwright::metrology {

inline constexpr double kCoverage = 2;  // U = 2 u is what is shown

// A limit ±a within which every value is equally likely (GUM 4.3.7).
constexpr double rectangular(double limit) {
  return limit * std::numbers::inv_sqrt3;
}

// An instrument's limit ±(share · reading + plus).
constexpr double accuracyLimit(double reading, double share, double plus) {
  return share * (reading < 0 ? -reading : reading) + plus;
}

// A certificate's expanded uncertainty with its coverage factor k.
constexpr double fromCertificate(double expanded, double coverage) {
  return expanded / coverage;
}

// Independent contributions, in quadrature.
inline double combined(double a, double b) {
  return std::sqrt(a * a + b * b);
}
inline double combined(double a, double b, double c) {
  return std::sqrt(a * a + b * b + c * c);
}
double combined(std::span<const double> contributions);

// The mean of repeated readings and the standard error of that mean: 0 for one reading, which cannot show
// its own scatter. `values` must not be empty.
struct Mean {
  double value = 0;
  double standardError = 0;
  double deviation = 0;  // of one reading, n − 1
};
Mean meanOf(std::span<const double> values);

// A contribution to a budget with its degrees of freedom, which may be infinite.
struct Contribution {
  double u = 0;
  double freedom = 0;
};

// Effective degrees of freedom, Welch–Satterthwaite (GUM G.2b): u⁴ / Σ(uᵢ⁴ / νᵢ).
double effectiveFreedom(std::span<const Contribution> budget);

// U for a two-sided level of confidence: t of the effective degrees of freedom, which need not be whole,
// times the combined uncertainty (GUM G.4.1).
double expanded(std::span<const Contribution> budget, double level);

}  // namespace ductwright::metrology
