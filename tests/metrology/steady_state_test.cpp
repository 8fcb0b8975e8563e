#include "metrology/steady_state.h"

#include <gtest/gtest.h>

namespace ductwright::metrology {
namespace {

TEST(SteadyRatio, saysNothingTooEarlyOrWithoutScatter) {
  SteadyRatio steady;
  EXPECT_FALSE(steady.ratio());
  steady.add(5);
  steady.add(5.5);
  EXPECT_FALSE(steady.ratio());
  steady.add(5);
  EXPECT_TRUE(steady.ratio());

  SteadyRatio constant;
  for (int i = 0; i < 10; ++i) constant.add(5);
  EXPECT_FALSE(constant.ratio());
}

TEST(SteadyRatio, doesNotDependOnScaleOrOrigin) {
  SteadyRatio plain, scaled;
  for (int i = 0; i < 60; ++i) {
    const double x = (i * 7919 % 101) / 101.0;
    plain.add(x);
    scaled.add(20 + 1000 * x);
  }
  EXPECT_NEAR(plain.ratio().value(), scaled.ratio().value(), 1e-9);
}

TEST(SteadyRatio, growsInARampAndFallsBackAfterIt) {
  SteadyRatio steady;
  for (int i = 0; i < 50; ++i) steady.add(i + (i % 2));
  const double moving = steady.ratio().value();
  for (int i = 0; i < 100; ++i) steady.add(50 + (i % 2));
  EXPECT_GT(moving, 3);
  EXPECT_LT(steady.ratio().value(), 1.2);
}

TEST(CriticalRatio, isNothingOutsideItsTable) {
  EXPECT_TRUE(criticalRatio({}, 0.95));
  EXPECT_FALSE(criticalRatio({}, 0.97));
  EXPECT_FALSE(criticalRatio({0.5, 0.1, 0.1}, 0.95));
}

}  // namespace
}  // namespace ductwright::metrology
