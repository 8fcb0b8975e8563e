#pragma once

#include "plot/figure.h"
#include "quantity/unit.h"

namespace ductwright::plot {

// A unit's evidence: its record, how it was judged, and the units it is shown in.
struct Evidence {
  const fleet::UnitRecord& record;
  const verdict::UnitVerdict& verdict;
  const fleet::Criteria& criteria;
  quantity::System system = quantity::System::ip;
};

// Measured and reported flow as a share of design, a column a step, with the tolerance band.
Figure airflowFigure(const Evidence& evidence);

// Heat on or off, called or not, against the share of the reference flow, with the threshold and the bracket
// between the greatest flow seen off and the least seen on.
Figure lockoutFigure(const Evidence& evidence);

// Measured against expected discharge rise, with parity, tolerance and the discharge limit.
Figure riseFigure(const Evidence& evidence);

}  // namespace ductwright::plot
