#include <gmock/gmock.h>

#include <algorithm>

#include "judged_building.h"
#include "verdict/review.h"

namespace ductwright::sample {
namespace {

TEST(ReviewedSample, ASoundScheduleGivesNoFinding) {
  for (const JudgedBuilding& judged : soundBuildings())
    for (const verdict::Finding& f : verdict::deskReview(judged.building.project))
      ADD_FAILURE() << "seed " << judged.seed << ", " << f.unit << ": " << f.finding << ' ' << f.evidence;
}

TEST(ReviewedSample, EveryFaultOfTheScheduleIsFound) {
  for (const auto& [seed, building, verdicts] : faultyBuildings()) {
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
  for (const auto& [seed, building, verdicts] : faultyBuildings()) {
    for (const verdict::Finding& f : verdict::deskReview(building.project))
      EXPECT_TRUE(f.unitId.isNull() || !building.sound(f.unit))
          << "seed " << seed << ", " << f.unit << ": " << f.finding;
  }
}

}  // namespace
}  // namespace ductwright::sample
