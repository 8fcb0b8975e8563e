#pragma once

#include <memory>
#include <vector>

#include "verdict/context.h"
#include "verdict/verdict.h"

namespace ductwright::verdict {

// Judges one unit by the project's criteria. Pure: the same values give the same verdict.
UnitVerdict judge(const UnitRecord& record, const JudgingContext& context);
UnitVerdict judge(const UnitRecord& record, const Snapshot& project);

struct FleetCounts {
  std::size_t units = 0, pass = 0, fail = 0, cannotTell = 0, untested = 0;
  // The least number of non-conforming units to expect among the passed: Σ(1 − score/100).
  double expectedNonConforming = 0;
  std::array<std::size_t, 10> scores{};  // by tens; 100 counts in the last
};

struct FleetVerdict {
  std::vector<std::shared_ptr<const UnitVerdict>> units;  // in the snapshot's order
  FleetCounts counts;
};

// Judges every unit, on all cores. `threads` 0: as many as there are.
FleetVerdict judgeFleet(const Snapshot& project, unsigned threads = 0);
// The same after a change: units that share their record and context with `before` keep their verdict.
FleetVerdict judgeAgain(const Snapshot& project, const Snapshot& before, const FleetVerdict& verdicts);
FleetCounts countFleet(const std::vector<std::shared_ptr<const UnitVerdict>>& units);

}  // namespace ductwright::verdict
