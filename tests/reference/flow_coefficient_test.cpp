#include <array>

#include "air/flow_element.h"
#include "air/velocity_pressure.h"
#include "imperial.h"
#include "quantity/unit.h"
#include "table.h"

namespace ductwright::reference {
namespace {

using quantity::inches;
using quantity::inchesOfWater;

struct Inlet {
  double diameter, squareFeet, squareMetres, plain, amplified;
};

// Computed: area of a round inlet, 4005 A, and 4005 A / √2.3 (an averaging element that amplifies 2.3 times).
// 4005 counts inches of water at about 68 °F, the program those at 4 °C: its flows are 0.09 % higher.
constexpr std::array kInlets{
    Inlet{4, .0873, .008107, 349.5, 230.5},     Inlet{5, .1364, .012668, 546.1, 360.1},
    Inlet{6, .1963, .018241, 786.4, 518.5},     Inlet{7, .2673, .024829, 1070.4, 705.8},
    Inlet{8, .3491, .032429, 1398.0, 921.8},    Inlet{9, .4418, .041043, 1769.4, 1166.7},
    Inlet{10, .5454, .050671, 2184.4, 1440.3},  Inlet{12, .7854, .072966, 3145.5, 2074.1},
    Inlet{14, 1.0690, .099315, 4281.4, 2823.1}, Inlet{16, 1.3963, .129717, 5592.0, 3687.2},
};

TEST(FlowCoefficient, followsTheTableOfRoundInlets) {
  const auto rho = poundsPerCubicFoot(0.075);
  for (const Inlet& inlet : kInlets) {
    const auto area = quantity::circle(inches(inlet.diameter));
    EXPECT_NEAR(area.si() / (quantity::kFoot * quantity::kFoot), inlet.squareFeet, 6e-5);
    EXPECT_NEAR(area.si(), inlet.squareMetres, 6e-7);
    expectWithin(quantity::inCfm(air::velocity(inchesOfWater(1), rho) * area), inlet.plain, 1.1e-3);
    expectWithin(quantity::inCfm(air::velocity(inchesOfWater(1 / 2.3), rho) * area), inlet.amplified, 1.1e-3);
  }
}

// The coefficient is the flow at 1 in. w.g. in standard air, and 1 cfm there is 0.029903 L/s at 1 Pa
// (computed).
TEST(FlowCoefficient, isTheFlowAtOneInchOfWater) {
  const auto* cfm = quantity::findUnit(quantity::Dimension::flowCoefficient, "cfm");
  const auto* litres = quantity::findUnit(quantity::Dimension::flowCoefficient, "L/s");
  ASSERT_TRUE(cfm && litres);
  const auto k = quantity::FlowCoefficient::fromSi(quantity::toSi(904, *cfm));
  EXPECT_NEAR(quantity::inCfm(air::elementFlow(k, inchesOfWater(1))), 904, 1e-6);
  EXPECT_NEAR(quantity::inCfm(air::elementFlow(k, inchesOfWater(0.25))), 452, 1e-6);
  EXPECT_NEAR(quantity::fromSi(k.si(), *litres) / 904, 0.029903, 1e-6);
}

// Least controllable velocity, 4005 √(VP / F), computed: F = 1 and F = 2.3.
TEST(FlowCoefficient, givesTheLeastControllableVelocity) {
  const std::array<std::array<double, 3>, 5> rows{
      {{.003, 219, 145}, {.004, 253, 167}, {.01, 400, 264}, {.02, 566, 373}, {.03, 694, 457}}};
  const auto rho = poundsPerCubicFoot(0.075);
  for (const auto [vp, plain, amplified] : rows) {
    EXPECT_NEAR(quantity::inFeetPerMinute(air::velocity(inchesOfWater(vp), rho)), plain, 1.2);
    EXPECT_NEAR(quantity::inFeetPerMinute(air::velocity(inchesOfWater(vp / 2.3), rho)), amplified, 1.2);
  }
}

}  // namespace
}  // namespace ductwright::reference
