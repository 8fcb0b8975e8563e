#pragma once

#include <vector>

#include "fleet/record.h"
#include "verdict/context.h"

// The fleet's airflow readings, reduced to what patterns are looked for in.
namespace ductwright::verdict {

// One step of one unit's current airflow run, as one instrument measured it. Flows on the design's basis, SI;
// 0 where there is none.
struct FlowSample {
  std::uint32_t unit = 0;  // its place in the snapshot
  std::int32_t step = 0;
  fleet::Word instrument;  // empty where none was named, or where outlets were read with several
  double measured = 0, reported = 0, design = 0;
  double damper = -1;                       // 0 to 1, below 0 where it was not read
  const fleet::Reading* reading = nullptr;  // the first of them
};

// Inlet steps only (no `fan`, no `shut`), in the snapshot's order, then by step. The snapshot must outlive
// them.
std::vector<FlowSample> flowSamples(const fleet::Snapshot& project, const JudgingContext& context);

}  // namespace ductwright::verdict
