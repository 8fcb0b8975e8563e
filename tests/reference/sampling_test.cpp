#include "metrology/sampling.h"

#include <array>

#include "table.h"

namespace ductwright::reference {
namespace {

using metrology::acceptanceChance;
using metrology::Plan;

// SAS function reference, PROBHYPR: 200 in the lot, 50 marked, 10 drawn, at most 2.
TEST(Sampling, followsAPublishedHypergeometricValue) {
  EXPECT_NEAR(acceptanceChance(Plan{10, 2}, 200, 50), .5236734081, 1e-9);
}

// Documentation of the R package Planesmuestra: n 125, c 2, p 0.1.
TEST(Sampling, followsAPublishedBinomialValue) {
  EXPECT_NEAR(acceptanceChance(Plan{125, 2}, 0.1), .000210835, 1e-9);
}

// NIST/SEMATECH e-Handbook, 6.2.3.2, lot 10 000, n 52, c 3 (from memory). It prints .845 and .739 at .04 and
// .05; the exact binomial gives .846 and .738.
TEST(Sampling, followsAPublishedOperatingCharacteristic) {
  constexpr std::array chances{.998, .980, .930, .845, .739, .620, .502, .394, .300, .223, .162, .115};
  for (std::size_t i = 0; i < chances.size(); ++i)
    EXPECT_NEAR(acceptanceChance(Plan{52, 3}, 0.01 * static_cast<double>(i + 1)), chances[i], 0.0016);
}

// Computed exactly in Python.
TEST(Sampling, followsComputedHypergeometricValues) {
  EXPECT_NEAR(acceptanceChance(Plan{10, 0}, 100, 10), .33048, 6e-6);
  EXPECT_NEAR(acceptanceChance(Plan{10, 0}, 100, 5), .58375, 6e-6);
  EXPECT_NEAR(acceptanceChance(Plan{6, 0}, 60, 3), .72484, 6e-6);
  EXPECT_NEAR(acceptanceChance(Plan{12, 1}, 120, 12), .65717, 6e-6);
  EXPECT_NEAR(acceptanceChance(Plan{24, 2}, 240, 24), .55997, 6e-6);
}

// Computed: chance of acceptance at 10 % non-conforming, and the share at chances .95, .50 and .10, of the
// single sampling plans of ISO 2859-1 (n and c read in the CRAN package AQLSchemes 1.7-2).
TEST(Sampling, followsTheOperatingCharacteristicsOfStandardPlans) {
  struct Row {
    Plan plan;
    double atTenPercent, producer, half, consumer;
  };
  for (const Row& row : {Row{{13, 0}, .2542, .394, 5.19, 16.2}, Row{{13, 1}, .6213, 2.81, 12.6, 26.8},
                         Row{{20, 1}, .3917, 1.81, 8.25, 18.1}, Row{{32, 2}, .3667, 2.60, 8.27, 15.8},
                         Row{{50, 3}, .2503, 2.78, 7.29, 12.9}, Row{{80, 5}, .1769, 3.32, 7.06, 11.3},
                         Row{{125, 7}, .0601, 3.22, 6.12, 9.24}}) {
    EXPECT_NEAR(acceptanceChance(row.plan, 0.10), row.atTenPercent, 6e-5);
    EXPECT_NEAR(acceptanceChance(row.plan, row.producer / 100), .95, 0.003);
    EXPECT_NEAR(acceptanceChance(row.plan, row.half / 100), .50, 0.003);
    EXPECT_NEAR(acceptanceChance(row.plan, row.consumer / 100), .10, 0.003);
    // The bound that the sample proves is the other reading of the same curve.
    EXPECT_NEAR(metrology::mostBadShare(row.plan.sample, row.plan.acceptance, 0.90), row.consumer / 100,
                6e-4);
  }
}

// Computed: n = ⌈ln(1 − C) / ln(1 − p)⌉ at 90, 95 and 99 %.
TEST(Sampling, sizesASampleWithoutABadUnitFromAnEndlessLot) {
  struct Row {
    double share;
    int n90, n95, n99;
  };
  for (const Row row :
       {Row{.10, 22, 29, 44}, {.05, 45, 59, 90}, {.025, 91, 119, 182}, {.01, 230, 299, 459}}) {
    EXPECT_EQ(metrology::zeroAcceptanceSample(.90, row.share), row.n90);
    EXPECT_EQ(metrology::zeroAcceptanceSample(.95, row.share), row.n95);
    EXPECT_EQ(metrology::zeroAcceptanceSample(.99, row.share), row.n99);
  }
}

// Computed: 90 and 95 %.
TEST(Sampling, sizesASampleWithoutABadUnitFromALot) {
  struct Row {
    int lot, bad, n90, n95;
  };
  for (const Row row : {Row{100, 10, 20, 25},
                        {100, 5, 37, 45},
                        {50, 5, 18, 22},
                        {200, 20, 21, 27},
                        {200, 10, 41, 51},
                        {500, 50, 22, 28}}) {
    EXPECT_EQ(metrology::zeroAcceptanceSample(.90, row.lot, row.bad), row.n90) << row.lot << ' ' << row.bad;
    EXPECT_EQ(metrology::zeroAcceptanceSample(.95, row.lot, row.bad), row.n95) << row.lot << ' ' << row.bad;
  }
}

// The call of chapter 18 of the R package mistat (rdrr.io): lot 100, accept 1 % with .95, 8 % with .05;
// result computed.
TEST(Sampling, findsTheSmallestPlan) {
  EXPECT_EQ(metrology::smallestPlan(100, {.01, .95}, {.08, .05}), (Plan{46, 1}));
}

// Computed: a tenth of 100 units misses ten bad ones in 33 of 100 buildings.
TEST(Sampling, showsHowLittleATenthProves) {
  EXPECT_NEAR(acceptanceChance(Plan{10, 0}, 100, 10), 0.33, 0.001);
  EXPECT_EQ(metrology::mostBad(100, 10, 0, 0.67), 10);
}

}  // namespace
}  // namespace ductwright::reference
