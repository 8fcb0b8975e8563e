#pragma once

#include "plot/figure.h"
#include "verdict/judge.h"

namespace ductwright::plot {

// How many units have which score, by tens, split by result.
Figure scoreFigure(const verdict::FleetVerdict& verdicts);

enum class GroupBy : std::uint8_t { floor, airHandler };

// Units by result, a bar a floor or air handler, in the schedule's order.
Figure resultFigure(const fleet::Snapshot& project, const verdict::FleetVerdict& verdicts, GroupBy by);

}  // namespace ductwright::plot
