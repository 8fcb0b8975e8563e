#include "metrology/uncertainty.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <limits>

#include "metrology/settling.h"

namespace ductwright::metrology {
namespace {

TEST(Mean, hasNoStandardErrorFromOneReading) {
  const std::array one{450.0};
  EXPECT_EQ(meanOf(one).value, 450);
  EXPECT_EQ(meanOf(one).standardError, 0);
}

TEST(Mean, hasTheStandardErrorOfItsScatter) {
  const std::array readings{440.0, 450.0, 460.0};
  const Mean mean = meanOf(readings);
  EXPECT_DOUBLE_EQ(mean.value, 450);
  EXPECT_DOUBLE_EQ(mean.deviation, 10);
  EXPECT_DOUBLE_EQ(mean.standardError, 10 / std::sqrt(3));
}

TEST(Uncertainty, dividesACertificatesByItsFactor) {
  EXPECT_DOUBLE_EQ(fromCertificate(0.5, 2), 0.25);
}

TEST(Uncertainty, takesTheShareOfTheReadingsSize) {
  EXPECT_DOUBLE_EQ(accuracyLimit(-20, 0.05, 1), 2);
}

TEST(EffectiveFreedom, isInfiniteWhereNothingIsEstimated) {
  constexpr double infinite = std::numeric_limits<double>::infinity();
  const std::array known{Contribution{1, infinite}, Contribution{2, infinite}};
  EXPECT_TRUE(std::isinf(effectiveFreedom(known)));
  EXPECT_NEAR(expanded(known, 0.95), 1.959964 * std::sqrt(5), 1e-5);
  EXPECT_TRUE(std::isinf(effectiveFreedom(std::array{Contribution{0, 5}})));
}

TEST(EffectiveFreedom, isThatOfTheOnlyContribution) {
  EXPECT_NEAR(effectiveFreedom(std::array{Contribution{3, 7}}), 7, 1e-12);
}

TEST(Settling, givesTheUncertaintyAtWhichAValueIsPlain) {
  const Interval ten{-10, 10};
  for (const double y : {-9.0, 0.0, 5.0, 9.9}) {
    const double u = settlingUncertainty(y, ten, 0.05, 0.95);
    EXPECT_GE(conformity(y, u * 0.999, ten), 0.95) << y;
    EXPECT_LT(conformity(y, u * 1.001, ten), 0.95) << y;
  }
  for (const double y : {-14.0, 11.0, 30.0}) {
    const double u = settlingUncertainty(y, ten, 0.05, 0.95);
    EXPECT_LE(conformity(y, u * 0.999, ten), 0.05) << y;
  }
}

TEST(Settling, needsAPerfectInstrumentOnALimit) {
  EXPECT_EQ(settlingUncertainty(10, {-10, 10}, 0.05, 0.95), 0);
  EXPECT_TRUE(std::isinf(settlingUncertainty(10, {}, 0.05, 0.95)));
  EXPECT_NEAR(settlingUncertainty(13.29, {.high = 10}, 0.05, 0.95), 2, 1e-3);
}

TEST(Settling, countsTheReadingsThatBringTheMeanUnderTheNeed) {
  EXPECT_EQ(readingsToReach(2, 6, 0), 9);
  const auto n = readingsToReach(2, 6, 1.5).value();
  EXPECT_LE(combined(6 / std::sqrt(n), 1.5), 2);
  EXPECT_GT(combined(6 / std::sqrt(n - 1), 1.5), 2);
  EXPECT_EQ(readingsToReach(2, 0, 1), 1);
}

TEST(Settling, knowsThatReadingsDoNotMendAnInstrument) {
  EXPECT_FALSE(readingsToReach(2, 6, 2));
  EXPECT_FALSE(readingsToReach(0, 6, 0));
}

}  // namespace
}  // namespace ductwright::metrology
