#include "place_words.h"

#include <algorithm>

namespace ductwright::report {

std::string floorWords(const std::string& floor) {
  const bool number = !floor.empty() && std::all_of(floor.begin(), floor.end(), [](char c) { return c >= '0' && c <= '9'; });
  return number ? "Floor " + floor : floor;
}

std::string placeWords(const fleet::Unit& unit, const fleet::Snapshot& project) {
  std::string place = project.buildings.size() > 1 ? unit.building : "";
  for (const std::string& part : {floorWords(unit.floor), unit.zone}) {
    if (!part.empty()) place += (place.empty() ? "" : ", ") + part;
  }
  return place;
}

}  // namespace ductwright::report
