#pragma once

#include <optional>

#include "metrology/conformity.h"

// What would settle a check that is close or undecided.
namespace ductwright::metrology {

// The greatest standard uncertainty at which a value y gives a conformity of at least `high` (y inside)
// or at most `low` (y outside); 0 where y stands on a limit and no instrument settles it.
double settlingUncertainty(double y, const Interval& interval, double low, double high);

// How many readings in all bring the uncertainty of their mean to `need`, where one reading scatters by
// `deviation` and `fixed` is what no repetition removes; nothing where `fixed` is too large by itself.
std::optional<int> readingsToReach(double need, double deviation, double fixed);

}  // namespace ductwright::metrology
