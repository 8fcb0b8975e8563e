#include "metrology/conformity.h"

#include <array>

#include "metrology/guard_band.h"
#include "table.h"

namespace ductwright::reference {
namespace {

using metrology::conformity;
using metrology::Interval;

// JCGM 106:2012, 7.4, as metrologyrules.com (2022) quotes its inputs; the result, 66 %, computed.
TEST(Conformity, followsTheTwoSidedExample) {
  EXPECT_NEAR(conformity(13.6, 1.8, {12.5, 16.3}), 0.6626, 1e-4);
}

// JCGM 106:2012, clause 7.2 (from memory; computed again).
TEST(Conformity, followsTheOneSidedExamples) {
  EXPECT_NEAR(conformity(-5.47, 0.05, {.high = -5.40}), 0.9192,
              1e-4);                                                // breakdown voltage of a Zener diode, V
  EXPECT_NEAR(conformity(509.7, 8.6, {.low = 490}), 0.9890, 1e-4);  // burst pressure of a container, kPa
}

// JCGM 106:2012, 8.3, guarded rejection at a speed limit (from memory; computed again): 100 km/h, u 2 % of
// the speed, 99.9 %: at least about 107 km/h.
TEST(GuardBand, followsTheSpeedLimitExample) {
  const double least = 100 / (1 - metrology::guardBand(0.02, 0.999));
  EXPECT_NEAR(least, 106.6, 0.05);
  EXPECT_NEAR(conformity(least, 0.02 * least, {.high = 100}), 0.001, 1e-6);
}

// JCGM 106:2012, table 1 (from memory; computed again).
TEST(GuardBand, followsTheTableOfFactors) {
  const std::array<std::array<double, 2>, 5> rows{
      {{.80, .84}, {.90, 1.28}, {.95, 1.64}, {.99, 2.33}, {.999, 3.09}}};
  for (const auto [p, z] : rows) EXPECT_NEAR(metrology::guardBand(1, p), z, 0.006);
}

// One-sided risk on the acceptance limit with a guard band r U, computed: 1 − Φ(2 r). ILAC-G8:09/2019 states
// it as "< 50 %" for none and "< 2.5 %" for w = U.
TEST(GuardBand, leavesTheKnownRiskAtItsLimit) {
  const std::array<std::array<double, 2>, 6> rows{
      {{0, .5}, {.5, .1587}, {.8225, .0500}, {.83, .0485}, {1, .0228}, {1.5, .00135}}};
  for (const auto [r, risk] : rows) {
    EXPECT_NEAR(metrology::riskAtLimit(r), risk, 6e-5);
    // The same from the conformity of a value right on the guarded limit, u = 0.5.
    const Interval accepted = metrology::guarded({.high = 10}, r * 1.0);
    EXPECT_NEAR(1 - conformity(accepted.high, 0.5, {.high = 10}), risk, 6e-5);
  }
}

// JCGM 106:2012, the resistors: deviation of the process 0.12 Ω, u 0.04 Ω, tolerance ±0.2 Ω (setup from
// memory); risks computed by integration.
TEST(GuardBand, tradesTheConsumersRiskForTheProducers) {
  const metrology::Process process{0, 0.12, 0.04};
  const Interval tolerance{-0.2, 0.2};
  const std::array<std::array<double, 3>, 3> rows{
      {{0, .0189, .0372}, {.04, .0043, .1147}, {.08, .00047, .2477}}};
  for (const auto [w, consumer, producer] : rows) {
    const auto risk = metrology::globalRisk(process, tolerance, metrology::guarded(tolerance, w));
    EXPECT_NEAR(risk.consumer, consumer, 6e-5);
    EXPECT_NEAR(risk.producer, producer, 6e-5);
  }
}

// Computed: ±10 % with U = 4 %: pass to 6, fail from 14, between them a guard band on either side of the
// limit.
TEST(GuardBand, dividesTheScaleIntoFour) {
  const Interval tolerance{-10, 10};
  EXPECT_EQ(metrology::guarded(tolerance, 4).high, 6);
  EXPECT_EQ(metrology::guarded(tolerance, -4).high, 14);
}

}  // namespace
}  // namespace ductwright::reference
