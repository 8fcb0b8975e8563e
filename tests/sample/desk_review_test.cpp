#include <gmock/gmock.h>

#include <algorithm>

#include "sample/sample_building.h"
#include "verdict/review.h"

namespace ductwright::sample {
namespace {

constexpr std::uint64_t kSeeds = 100;

TEST(ReviewedSample, ASoundScheduleGivesNoFinding) {
  for (std::uint64_t seed = 1; seed <= kSeeds; ++seed)
    for (const verdict::Finding& f : verdict::deskReview(makeBuilding(seed, {.faults = false}).project))
      ADD_FAILURE() << "seed " << seed << ", " << f.unit << ": " << f.finding << ' ' << f.evidence;
}

TEST(ReviewedSample, EveryFaultOfTheScheduleIsFound) {
  for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
    const SampleBuilding building = makeBuilding(seed);
    const auto findings = verdict::deskReview(building.project);
    for (const PlantedFinding& planted : building.findings) {
      const bool found = std::any_of(findings.begin(), findings.end(), [&](const verdict::Finding& f) {
        return f.unit == planted.unit && f.rule == planted.rule;
      });
      EXPECT_TRUE(found) << "seed " << seed << ", " << planted.unit << ": " << planted.fault;
    }
  }
}

TEST(ReviewedSample, NothingIsFoundAtUnitsWithoutAFault) {
  for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
    const SampleBuilding building = makeBuilding(seed);
    for (const verdict::Finding& f : verdict::deskReview(building.project))
      EXPECT_TRUE(f.unitId.isNull() || !building.sound(f.unit)) << "seed " << seed << ", " << f.unit << ": " << f.finding;
  }
}

}  // namespace
}  // namespace ductwright::sample
