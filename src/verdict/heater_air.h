#pragma once

#include "step_air.h"

namespace ductwright::verdict {

// How a reported flow counts where no flow was measured: as ±share of it, rectangular, or, with nothing, as its
// instrument or the project's default says.
using ReportedShare = std::optional<double>;

// The air through the heater at a step: the unit's; in a series unit the fan's; in a parallel unit primary + fan
// with the heater at the discharge, the fan's with the heater in the plenum inlet. Measured, else reported.
struct HeaterFlow {
  std::optional<Estimate> flow;
  Lacking lacking = Lacking::nothing;  // where there is no flow
  bool early = false;                  // only early readings could have given it
};
HeaterFlow heaterFlow(const Judging&, const StepReadings&, fleet::FlowBasis, ReportedShare);

// Primary air at a step: measured, else reported.
std::optional<Estimate> primaryFlow(const Judging&, const StepReadings&, fleet::FlowBasis, ReportedShare);
// The fan's flow at a step: read; in a series unit else the outlets'; in a parallel unit none where it was seen off.
std::optional<Estimate> fanFlowOf(const Judging&, const StepReadings&, fleet::FlowBasis);

}  // namespace ductwright::verdict
