#include "metrology/uncertainty.h"

#include <array>
#include <cmath>
#include <limits>

#include "metrology/distribution.h"
#include "table.h"

namespace ductwright::reference {
namespace {

using metrology::Contribution;

// GUM (JCGM 100:2008), H.1, the end gauge: contributions in nm with their degrees of freedom. The
// contributions and u = 32 are as the documentation of GTC quotes them (Measurement Standards Laboratory of
// New Zealand, commit 1c165fc); the degrees of freedom of 25, 16.6 and 2.9, ν = 16 and U99 = 93 from memory.
TEST(Uncertainty, followsTheEndGaugeOfTheGuide) {
  const std::array budget{Contribution{25, 18}, Contribution{5.8, 24}, Contribution{3.9, 5},
                          Contribution{6.7, 8}, Contribution{16.6, 2}, Contribution{2.9, 50}};
  std::array<double, 6> u{};
  for (std::size_t i = 0; i < u.size(); ++i) u[i] = budget[i].u;
  EXPECT_NEAR(metrology::combined(u), 32, 0.5);
  EXPECT_EQ(std::floor(metrology::effectiveFreedom(budget)), 16);
  EXPECT_NEAR(metrology::coverageFactor(0.99, 16) * 32, 93, 0.5);
  // Neither ν nor u is rounded on the way here.
  EXPECT_NEAR(metrology::expanded(budget, 0.99), 93, 1.5);
}

// GUM, G.4 (from memory; the 19.04 of some copies comes from rounding u to 1.03): 0.25 %, 0.57 % and 0.82 %
// with 9, 4 and 14 degrees of freedom give 1.03 %, 19.0 and U95 = 2.2 %.
TEST(Uncertainty, followsTheEffectiveDegreesOfFreedomOfTheGuide) {
  const std::array budget{Contribution{0.25, 9}, Contribution{0.57, 4}, Contribution{0.82, 14}};
  EXPECT_NEAR(metrology::combined(0.25, 0.57, 0.82), 1.0295, 5e-5);
  EXPECT_NEAR(metrology::effectiveFreedom(budget), 19.0, 0.05);
  EXPECT_NEAR(metrology::expanded(budget, 0.95), 2.0930 * 1.0295, 5e-4);
}

// A rectangular limit a has the standard uncertainty a / √3 (GUM, 4.3.7).
TEST(Uncertainty, takesALimitAsRectangular) {
  EXPECT_NEAR(metrology::rectangular(1), 0.577350269, 1e-9);
  EXPECT_NEAR(metrology::rectangular(metrology::accuracyLimit(450, 0.03, 7)), (13.5 + 7) / std::sqrt(3),
              1e-9);
}

// Computed: relative contributions of a coefficient, a pressure and a density to a flow,
// √(3² + (5/2)² + (2/2)²) = 4.03 %.
TEST(Uncertainty, combinesTheContributionsToAnElementsFlow) {
  EXPECT_NEAR(metrology::combined(3, 5.0 / 2, 2.0 / 2), 4.03, 0.005);
}

struct Quantile {
  double p, value;
};

// Standard tables (JCGM 106, table 1, for the first two digits; computed with SciPy 1.10.1 for the rest).
TEST(Quantiles, followTheNormalTable) {
  for (const Quantile row : {Quantile{.80, .8416},
                             {.90, 1.28155},
                             {.95, 1.64485},
                             {.975, 1.95996},
                             {.99, 2.32635},
                             {.995, 2.57583},
                             {.999, 3.09023}}) {
    EXPECT_NEAR(metrology::normalQuantile(row.p), row.value, 3e-5);
    EXPECT_NEAR(metrology::normalCdf(row.value), row.p, 1e-5);
    EXPECT_NEAR(metrology::normalQuantile(1 - row.p), -row.value, 3e-5);
  }
}

struct Student {
  double freedom, value;
};

// Computed with SciPy 1.10.1; equal to printed tables.
TEST(Quantiles, followTheStudentTable) {
  for (const Student row : {Student{1, 12.7062},
                            {2, 4.3027},
                            {3, 3.1824},
                            {4, 2.7764},
                            {5, 2.5706},
                            {6, 2.4469},
                            {8, 2.3060},
                            {9, 2.2622},
                            {10, 2.2281},
                            {15, 2.1314},
                            {16, 2.1199},
                            {18, 2.1009},
                            {19, 2.0930},
                            {20, 2.0860},
                            {30, 2.0423},
                            {50, 2.0086},
                            {100, 1.9840}}) {
    EXPECT_NEAR(metrology::studentQuantile(0.975, row.freedom), row.value, 6e-5);
    EXPECT_NEAR(metrology::studentCdf(row.value, row.freedom), 0.975, 4e-6);
  }
  EXPECT_NEAR(metrology::coverageFactor(0.95, std::numeric_limits<double>::infinity()), 1.95996, 1e-5);
}

// GUM, table G.2, the column for 95.45 % (from memory; computed again).
TEST(Quantiles, followTheGuidesCoverageFactors) {
  for (const Student row : {Student{1, 13.97}, {2, 4.53}, {5, 2.65}, {10, 2.28}, {20, 2.13}, {50, 2.05}})
    EXPECT_NEAR(metrology::coverageFactor(0.9545, row.freedom), row.value, 0.006);
}

}  // namespace
}  // namespace ductwright::reference
