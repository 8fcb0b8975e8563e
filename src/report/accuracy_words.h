#pragma once

#include <string>
#include <vector>

#include "fleet/record.h"
#include "quantity/unit.h"

namespace ductwright::report {

// "flow ±(3.0 % + 5 cfm), temperature ±0.5 °F"; a certificate's U and k in its place.
std::string accuracyWords(const fleet::Instrument& instrument, quantity::System system);

// "in date", "overdue", "due date not given".
std::string calibrationWords(const fleet::Instrument& instrument, fleet::Day today);
bool overdue(const fleet::Instrument& instrument, fleet::Day today);

// How many readings each instrument of the project took, in the project's order.
std::vector<std::size_t> readingsByInstrument(const fleet::Snapshot& project);

}  // namespace ductwright::report
