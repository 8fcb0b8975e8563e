#pragma once

#include "metrology/conformity.h"
#include "verdict/verdict.h"

namespace ductwright::verdict {

// A value to be judged: y, what repeating does not remove, and the scatter of the mean of `readings`.
struct Judged {
  double y = 0;
  double fixedVariance = 0;
  double scatter = 0;
  int readings = 1;
};

enum class HighEnd : std::uint8_t { inside, outside };  // whether the upper limit itself is accepted

// Fills in the outcome, conformity, closeness and what would settle it, by the project's rule. A value within
// a billionth of a limit stands on it: 900 cfm is 90 % of 1000 cfm whatever the rounding.
void decide(Check& check, const Judged& judged, const metrology::Interval& interval, const Criteria& criteria,
            HighEnd high = HighEnd::inside);

}  // namespace ductwright::verdict
