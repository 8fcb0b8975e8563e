#include "metrology/steady_state.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <random>
#include <vector>

namespace ductwright::reference {
namespace {

using metrology::criticalRatio;
using metrology::SteadyFilters;
using metrology::SteadyRatio;

// White noise of our own making, the same on every machine.
class Noise {
 public:
  double next() {
    const auto uniform = [this] { return (static_cast<double>(m_bits() >> 11) + 0.5) * 0x1p-53; };
    return std::sqrt(-2 * std::log(uniform())) * std::cos(2 * std::numbers::pi * uniform());
  }

 private:
  std::mt19937_64 m_bits{20261125};
};

std::vector<double> simulatedRatios(const SteadyFilters& filters, int runs) {
  Noise noise;
  std::vector<double> ratios;
  for (int run = 0; run < runs; ++run) {
    SteadyRatio steady(filters);
    const int length = static_cast<int>(6 / std::min(filters.variance, filters.mean));
    for (int i = 0; i < length; ++i) steady.add(noise.next());
    ratios.push_back(steady.ratio().value());
  }
  std::sort(ratios.begin(), ratios.end());
  return ratios;
}

// Cao and Rhinehart, Journal of Process Control 5, 1995 and 7, 1997 (the method; their tables were not at hand).
// The critical values in the program were simulated with 200 000 runs of white noise; here again, with fewer.
TEST(SteadyState, keepsWhiteNoiseBelowItsCriticalValues) {
  constexpr int runs = 20000;
  for (const SteadyFilters filters : {SteadyFilters{.2, .1, .1}, {.1, .1, .1}, {.05, .05, .05}, {.3, .1, .1}}) {
    const auto ratios = simulatedRatios(filters, runs);
    for (const double confidence : {.50, .90, .95, .99, .995}) {
      const auto critical = criticalRatio(filters, confidence);
      ASSERT_TRUE(critical);
      const auto below = std::lower_bound(ratios.begin(), ratios.end(), *critical) - ratios.begin();
      // Four standard errors of a share of 20 000 runs, and the rounding of the table.
      const double allowed = 4 * std::sqrt(confidence * (1 - confidence) / runs) + 0.002;
      EXPECT_NEAR(static_cast<double>(below) / runs, confidence, allowed) << filters.mean << ' ' << confidence;
    }
  }
}

// The median of R is 1 at steady state, whatever the filters and the size of the noise; a ramp drives it up.
TEST(SteadyState, tellsARampFromNoise) {
  Noise noise;
  SteadyRatio still, moving;
  for (int i = 0; i < 200; ++i) {
    const double n = noise.next();
    still.add(450 + 3 * n);
    moving.add(450 + 3 * n + 3 * i);
  }
  const double critical = criticalRatio({}, .995).value();
  EXPECT_LT(still.ratio().value(), critical);
  EXPECT_GT(moving.ratio().value(), critical);
}

}  // namespace
}  // namespace ductwright::reference
