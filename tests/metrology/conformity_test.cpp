#include "metrology/conformity.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace ductwright::metrology {
namespace {

constexpr Interval kTen{-10, 10};

TEST(Conformity, withoutUncertaintyIsInsideOrOutside) {
  EXPECT_EQ(conformity(10, 0, kTen), 1);
  EXPECT_EQ(conformity(-10, 0, kTen), 1);
  EXPECT_EQ(conformity(10.001, 0, kTen), 0);
  EXPECT_EQ(conformity(1e9, 0, {.low = 3}), 1);
}

TEST(Conformity, isHalfOnALimit) {
  EXPECT_NEAR(conformity(10, 0.1, kTen), 0.5, 1e-12);
  EXPECT_NEAR(conformity(3, 0.1, {.low = 3}), 0.5, 1e-12);
}

TEST(Conformity, isCertainWithoutLimits) {
  EXPECT_EQ(conformity(7, 2, {}), 1);
}

TEST(Conformity, fallsAsTheErrorGrows) {
  for (const double u : {0.5, 3.0, 8.0, 30.0}) {
    double before = 2;
    for (double y = 0; y < 60; y += 0.5) {
      const double p = conformity(y, u, kTen);
      EXPECT_LE(p, before);
      EXPECT_NEAR(p, conformity(-y, u, kTen), 1e-12);
      before = p;
    }
  }
}

TEST(Conformity, keepsItsDigitsFarOutside) {
  const double above = conformity(30, 1, kTen);
  EXPECT_GT(above, 0);
  EXPECT_NEAR(above / normalCdf(-20), 1, 1e-9);
  EXPECT_NEAR(conformity(-30, 1, kTen) / above, 1, 1e-9);
}

TEST(SimpleAcceptance, decidesByTheValueWhereTheInstrumentIsCapable) {
  const SimpleAcceptance rule;
  EXPECT_EQ(judge(9.99, 5, kTen, rule).decision, Decision::pass);  // U equals the half-width: capable
  EXPECT_EQ(judge(10.01, 5, kTen, rule).decision, Decision::fail);
  EXPECT_EQ(judge(10, 5, kTen, rule).decision, Decision::pass);
}

TEST(SimpleAcceptance, cannotTellWithAnIncapableInstrumentUnlessItIsPlain) {
  const SimpleAcceptance rule;
  EXPECT_EQ(judge(9.99, 5.01, kTen, rule).decision, Decision::cannotTell);
  EXPECT_EQ(judge(0, 5.01, kTen, rule).decision, Decision::pass);   // p = 0.954
  EXPECT_EQ(judge(30, 5.01, kTen, rule).decision, Decision::fail);  // p < 0.0001
  EXPECT_EQ(judge(0, 20, kTen, rule).decision, Decision::cannotTell);
  // An interval of no width has no capable instrument, except one without error.
  EXPECT_EQ(judge(5, 0, {5, 5}, rule).decision, Decision::pass);
}

TEST(SimpleAcceptance, asksNoCapabilityOfAnOpenInterval) {
  EXPECT_EQ(judge(2.9, 50, {.low = 3}, SimpleAcceptance{}).decision, Decision::fail);
  EXPECT_EQ(judge(3.1, 50, {.low = 3}, SimpleAcceptance{}).decision, Decision::pass);
  SimpleAcceptance perfect;
  perfect.capabilityRatio = 0;
  EXPECT_EQ(judge(3.1, 50, {.low = 3}, perfect).decision, Decision::pass);
  EXPECT_EQ(judge(3.1, 0.5, {3, 4}, perfect).decision, Decision::cannotTell);
}

TEST(SimpleAcceptance, takesItsBoundsStrictly) {
  const Interval interval{-1, 1};
  const double p = conformity(0.9, 2, interval);
  SimpleAcceptance rule;
  rule.high = p;
  EXPECT_EQ(judge(0.9, 2, interval, rule).decision, Decision::pass);
  rule.high = std::nextafter(p, 1);
  EXPECT_EQ(judge(0.9, 2, interval, rule).decision, Decision::cannotTell);
}

TEST(GuardedAcceptance, cannotTellNearALimit) {
  const GuardedAcceptance rule;
  const double band = 1.644854;
  EXPECT_EQ(judge(10 - band - 0.001, 1, kTen, rule).decision, Decision::pass);
  EXPECT_EQ(judge(10 - band + 0.001, 1, kTen, rule).decision, Decision::cannotTell);
  EXPECT_EQ(judge(10 + band - 0.001, 1, kTen, rule).decision, Decision::cannotTell);
  EXPECT_EQ(judge(10 + band + 0.001, 1, kTen, rule).decision, Decision::fail);
}

TEST(Closeness, isStrictlyBetweenItsBounds) {
  EXPECT_FALSE(isClose(0.95));
  EXPECT_TRUE(isClose(0.9499));
  EXPECT_TRUE(isClose(0.0501));
  EXPECT_FALSE(isClose(0.05));
}

}  // namespace
}  // namespace ductwright::metrology
