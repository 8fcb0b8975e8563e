#include "air/velocity_pressure.h"

#include <array>

#include "air/traverse.h"
#include "imperial.h"
#include "table.h"

namespace ductwright::reference {
namespace {

using air::velocity;
using air::velocityPressure;
using quantity::feetPerMinute;
using quantity::inchesOfWater;
using quantity::inFeetPerMinute;
using quantity::inInchesOfWater;

// The air of the trade's constant 4005 = 1096.7 / √0.075, rounded. That constant counts inches of water at
// about 68 °F (248.6 Pa), the program those at 4 °C (249.1 Pa, NIST SP 811): its velocities are 0.09 %
// higher.
constexpr auto kStandardAir = poundsPerCubicFoot(0.075);
constexpr double kInchesDiffer = 1.1e-3;

// V = 1096.7 √(VP / ρ), ASHRAE Handbook of Fundamentals, measurement and instruments; ASHRAE 111-2008 (from
// memory).
TEST(VelocityPressure, followsTheTradesFormula) {
  for (const double vp : {0.01, 0.06234, 0.16, 0.36, 1.0, 3.15})
    for (const double rho : {0.062, 0.075, 0.080})
      expectWithin(inFeetPerMinute(velocity(inchesOfWater(vp), poundsPerCubicFoot(rho))),
                   1096.7 * std::sqrt(vp / rho), kInchesDiffer);
}

// "Ventilation Calc", exercise sheet, scribd 68765729.
TEST(VelocityPressure, followsAnExerciseSheet) {
  expectWithin(inFeetPerMinute(velocity(inchesOfWater(3.15), kStandardAir)), 7108, kInchesDiffer);
  expectWithin(inFeetPerMinute(velocity(inchesOfWater(0.866), kStandardAir)), 3727.02, kInchesDiffer);
  expectWithin(velocity(inchesOfWater(0.866), kStandardAir).si(), 18.94, kInchesDiffer + 4e-4);
  expectWithin(quantity::inCfm(feetPerMinute(4000) * quantity::Area::fromSi(1.5)), 64583, 1e-5);
}

// Computed from (V / 4005)².
TEST(VelocityPressure, turnsAVelocityBackIntoAPressure) {
  const std::array<std::array<double, 2>, 4> rows{
      {{500, 0.01559}, {1000, 0.06234}, {2000, 0.2494}, {3000, 0.5611}}};
  for (const auto [v, vp] : rows)
    expectWithin(inInchesOfWater(velocityPressure(feetPerMinute(v), kStandardAir)), vp,
                 2 * kInchesDiffer + 3e-4);
}

// A public explanatory page on Pitot traverses: 2002 fpm from the mean of the roots; about 2026 from the
// root of the mean is the mistake it warns of.
TEST(VelocityPressure, averagesVelocitiesNotPressures) {
  const std::array pressures{inchesOfWater(0.16), inchesOfWater(0.25), inchesOfWater(0.36)};
  const auto flow = air::traverseFlow(pressures, kStandardAir, quantity::Area::fromSi(1));
  expectWithin(inFeetPerMinute(quantity::Velocity::fromSi(flow.si())), 2002, kInchesDiffer + 3e-4);
}

// Computed: mean root 0.40, 1602 fpm, 3204 cfm in a duct of 24 × 12 in.
TEST(VelocityPressure, givesTheFlowOfATraverse) {
  const std::array pressures{inchesOfWater(0.09), inchesOfWater(0.16), inchesOfWater(0.25),
                             inchesOfWater(0.16)};
  const auto area = quantity::Area::fromSi(quantity::inches(24).si() * quantity::inches(12).si());
  expectWithin(quantity::inCfm(air::traverseFlow(pressures, kStandardAir, area)), 3204, kInchesDiffer);
}

}  // namespace
}  // namespace ductwright::reference
