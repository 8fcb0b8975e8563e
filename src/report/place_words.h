#pragma once

#include <string>

#include "fleet/record.h"

namespace ductwright::report {

// "Level 2", and "Floor 2" where the schedule says only "2".
std::string floorWords(const std::string& floor);
// "Floor 2, Room 214"; with the building before it, where the project has several.
std::string placeWords(const fleet::Unit& unit, const fleet::Snapshot& project);

}  // namespace ductwright::report
