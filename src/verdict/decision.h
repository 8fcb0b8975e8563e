#pragma once

#include "estimate.h"
#include "metrology/conformity.h"
#include "verdict/verdict.h"

namespace ductwright::verdict {

// A value to be judged and its variance.
struct Judged {
  double y = 0;
  Spread spread;
};

enum class HighEnd : std::uint8_t { inside, outside };  // whether the upper limit itself is accepted

// Fills in the outcome, conformity, closeness and what would settle it, by the project's rule. A value within
// a billionth of a limit stands on it: 900 cfm is 90 % of 1000 cfm whatever the rounding.
void decide(Check& check, const Judged& judged, const metrology::Interval& interval, const Criteria& criteria,
            HighEnd high = HighEnd::inside);

}  // namespace ductwright::verdict
