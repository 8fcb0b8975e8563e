#include "open_deficiencies.h"

#include <algorithm>

#include "place_words.h"

namespace ductwright::report {

bool isOpen(const fleet::Deficiency& deficiency) {
  const fleet::DeficiencyState state = deficiency.state();
  return state != fleet::DeficiencyState::proven && state != fleet::DeficiencyState::withdrawn;
}

std::vector<const fleet::Deficiency*> openDeficiencies(const fleet::Snapshot& project) {
  std::vector<const fleet::Deficiency*> open;
  for (const fleet::Deficiency& deficiency : project.deficiencies) {
    if (isOpen(deficiency)) open.push_back(&deficiency);
  }
  std::stable_sort(open.begin(), open.end(), [](const auto* a, const auto* b) {
    return a->severity != b->severity ? a->severity < b->severity : a->number < b->number;
  });
  return open;
}

std::string placeOf(const fleet::Deficiency& deficiency, const fleet::Snapshot& project) {
  const fleet::UnitRecord* record = project.unit(deficiency.unit);
  if (!record) return "fleet";
  const std::string place = placeWords(record->unit, project);
  return record->unit.tag + (place.empty() ? "" : ", " + place);
}

}  // namespace ductwright::report
