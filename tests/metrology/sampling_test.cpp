#include "metrology/sampling.h"

#include <gtest/gtest.h>

namespace ductwright::metrology {
namespace {

TEST(Sampling, acceptsEveryLotThatIsNotSampledAndNoneThatIsAllBad) {
  EXPECT_DOUBLE_EQ(acceptanceChance({0, 0}, 100, 40), 1);
  EXPECT_DOUBLE_EQ(acceptanceChance({5, 0}, 100, 0), 1);
  EXPECT_DOUBLE_EQ(acceptanceChance({5, 4}, 100, 100), 0);
  EXPECT_DOUBLE_EQ(acceptanceChance({5, 5}, 100, 100), 1);
  EXPECT_DOUBLE_EQ(acceptanceChance({5, 4}, 1.0), 0);
  EXPECT_DOUBLE_EQ(acceptanceChance({5, 0}, 0.0), 1);
}

TEST(Sampling, acceptsLessOftenWithMoreBadUnits) {
  double before = 1.1;
  for (int bad = 0; bad <= 60; ++bad) {
    const double chance = acceptanceChance({20, 2}, 60, bad);
    EXPECT_LE(chance, before + 1e-12) << bad;
    before = chance;
  }
}

TEST(Sampling, findsAPlanThatKeepsBothPromisesAndNoneSmaller) {
  const RiskPoint producer{.02, .95}, consumer{.10, .10};
  const auto plan = smallestPlan(200, producer, consumer);
  ASSERT_TRUE(plan);
  const auto serves = [&](Plan p) {
    return acceptanceChance(p, 200, 4) >= .95 && acceptanceChance(p, 200, 20) <= .10;
  };
  EXPECT_TRUE(serves(*plan));
  for (int n = 1; n < plan->sample; ++n)
    for (int c = 0; c <= n; ++c) EXPECT_FALSE(serves({n, c})) << n << '/' << c;
}

TEST(Sampling, hasNoPlanWhereOnlyTheWholeLotTells) {
  EXPECT_FALSE(smallestPlan(10, {.10, .99}, {.20, .001}));
}

TEST(Sampling, boundsWhatASampleProves) {
  // With one bad unit more than the bound, so good a sample would be rarer than 5 in 100.
  for (const int bad : {0, 1, 3}) {
    const int most = mostBad(120, 24, bad, 0.95);
    EXPECT_GT(acceptanceChance({24, bad}, 120, most), 0.05);
    EXPECT_LE(acceptanceChance({24, bad}, 120, most + 1), 0.05);
    const double share = mostBadShare(24, bad, 0.95);
    EXPECT_NEAR(acceptanceChance({24, bad}, share), 0.05, 1e-9);
  }
}

TEST(Sampling, provesEverythingWithTheWholeLot) {
  EXPECT_EQ(mostBad(50, 50, 3, 0.95), 3);
  EXPECT_EQ(mostBad(50, 0, 0, 0.95), 50);
  EXPECT_EQ(mostBadShare(4, 4, 0.95), 1);
}

TEST(Sampling, needsNoLargerSampleThanTheLot) {
  EXPECT_EQ(zeroAcceptanceSample(0.999999, 10, 1), 10);
  EXPECT_EQ(zeroAcceptanceSample(0.95, 10, 10), 1);
}

}  // namespace
}  // namespace ductwright::metrology
