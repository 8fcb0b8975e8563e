#include "air/traverse.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "table.h"

namespace ductwright::reference {
namespace {

using quantity::Area;
using quantity::Velocity;

// A turbulent profile across half a duct: (distance from the wall over half its width)^(1/7).
double profile(double position) {
  return std::pow(1 - std::abs(2 * position - 1), 1.0 / 7);
}

double roundRatio(std::span<const double> positions) {
  std::vector<Velocity> velocities;
  for (const double x : positions) velocities.push_back(Velocity::fromSi(profile(x)));
  const double exact = 49.0 / 60;  // ∫ (1 − r)^(1/7) 2 r dr
  return air::traverseFlow(velocities, Area::fromSi(1)).si() / exact;
}

double rectangularRatio(std::span<const double> positions) {
  std::vector<Velocity> velocities;
  for (const double x : positions)
    for (const double y : positions) velocities.push_back(Velocity::fromSi(profile(x) * profile(y)));
  const double exact = 7.0 / 8 * 7.0 / 8;
  return air::traverseFlow(velocities, Area::fromSi(1)).si() / exact;
}

// ISO 3966:2008 and ASHRAE 111-2008, by secondary public copies of the tables; distances from the axis, which
// those copies do not print, from memory.
TEST(Traverse, placesRectangularPointsByLogTchebycheff) {
  const std::array<std::vector<double>, 3> fromAxis{
      {{0, .2123, .4262}, {.0627, .2653, .4386}, {0, .1338, .2972, .4469}}};
  for (const int lines : {5, 6, 7}) {
    const auto positions = air::tchebycheffPositions(lines);
    ASSERT_EQ(positions.size(), static_cast<std::size_t>(lines));
    const auto& axis = fromAxis[static_cast<std::size_t>(lines - 5)];
    const std::size_t half = positions.size() / 2;
    for (std::size_t i = 0; i < axis.size(); ++i)
      EXPECT_NEAR(positions[half + i], 0.5 + axis[i], 0.0006) << lines << " lines, point " << i;
  }
}

TEST(Traverse, placesPointsAlikeFromBothWalls) {
  const auto symmetric = [](std::span<const double> positions) {
    EXPECT_TRUE(std::is_sorted(positions.begin(), positions.end()));
    for (std::size_t i = 0; i < positions.size(); ++i) {
      EXPECT_NEAR(positions[i] + positions[positions.size() - 1 - i], 1, 1e-12);
    }
  };
  for (const int n : {5, 6, 7}) symmetric(air::tchebycheffPositions(n));
  for (const int n : {6, 8, 10}) symmetric(air::logLinearPositions(n));
}

// Computed: what a traverse of a 1/7-power profile gives, over the exact mean. The log rules read slightly
// low.
TEST(Traverse, readsAPowerLawProfileNearlyRight) {
  const std::array round{.9973, .9991, .9989};
  const std::array rectangular{.9980, .9955, .9992};
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_NEAR(roundRatio(air::logLinearPositions(6 + 2 * static_cast<int>(i))), round[i], 1e-4);
    EXPECT_NEAR(rectangularRatio(air::tchebycheffPositions(5 + static_cast<int>(i))), rectangular[i], 1e-4);
  }
}

// Computed: equal areas read such a profile 3.4 % high with five lines, so the rule is worth its trouble.
TEST(Traverse, beatsEqualAreas) {
  const double equal = rectangularRatio(std::array{.1, .3, .5, .7, .9});
  EXPECT_NEAR(equal, 1.0339, 1e-4);
  EXPECT_LT(std::abs(rectangularRatio(air::tchebycheffPositions(5)) - 1), std::abs(equal - 1) / 10);
}

}  // namespace
}  // namespace ductwright::reference
