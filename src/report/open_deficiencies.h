#pragma once

#include <vector>

#include "fleet/record.h"

namespace ductwright::report {

// Neither proven nor withdrawn.
bool isOpen(const fleet::Deficiency& deficiency);
// The open ones, gravest first, then by number.
std::vector<const fleet::Deficiency*> openDeficiencies(const fleet::Snapshot& project);
// "2-14, Level 2, Room 214", or "fleet" for one that is about no unit.
std::string placeOf(const fleet::Deficiency& deficiency, const fleet::Snapshot& project);

}  // namespace ductwright::report
