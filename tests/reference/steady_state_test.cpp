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

constexpr std::array kFilters{SteadyFilters{.2, .1, .1}, SteadyFilters{.1, .1, .1},
                              SteadyFilters{.05, .05, .05}, SteadyFilters{.3, .1, .1}};

// R at the end of runs of white noise, long enough to forget their beginning, by filter and in order.
std::array<std::vector<double>, kFilters.size()> simulatedRatios(int runs) {
  Noise noise;
  std::array<std::vector<double>, kFilters.size()> ratios;
  for (int run = 0; run < runs; ++run) {
    std::array<SteadyRatio, kFilters.size()> steady{SteadyRatio(kFilters[0]), SteadyRatio(kFilters[1]),
                                                    SteadyRatio(kFilters[2]), SteadyRatio(kFilters[3])};
    for (int i = 0; i < 150; ++i) {
      const double x = noise.next();
      for (auto& s : steady) s.add(x);
    }
    for (std::size_t f = 0; f < steady.size(); ++f) ratios[f].push_back(steady[f].ratio().value());
  }
  for (auto& r : ratios) std::sort(r.begin(), r.end());
  return ratios;
}

// Cao and Rhinehart, Journal of Process Control 5, 1995 and 7, 1997 (the method; their tables were not at
// hand). The critical values in the program were simulated with 200 000 runs of white noise; here again, with
// fewer.
TEST(SteadyState, keepsWhiteNoiseBelowItsCriticalValues) {
  constexpr int runs = 40000;
  const auto ratios = simulatedRatios(runs);
  for (std::size_t f = 0; f < kFilters.size(); ++f) {
    for (const double confidence : {.50, .90, .95, .99, .995}) {
      const auto critical = criticalRatio(kFilters[f], confidence);
      ASSERT_TRUE(critical);
      const auto below = std::lower_bound(ratios[f].begin(), ratios[f].end(), *critical) - ratios[f].begin();
      // Four standard errors of a share of so many runs, and the rounding of the table.
      const double allowed = 4 * std::sqrt(confidence * (1 - confidence) / runs) + 0.001;
      EXPECT_NEAR(static_cast<double>(below) / runs, confidence, allowed)
          << kFilters[f].mean << ' ' << confidence;
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
