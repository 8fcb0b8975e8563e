#include "fleet/record.h"

#include <algorithm>

namespace ductwright::fleet {
namespace {

template <class List, class Same>
auto found(const List& list, Same same) -> decltype(&*list.begin()) {
  const auto it = std::find_if(list.begin(), list.end(), same);
  return it == list.end() ? nullptr : &*it;
}

}  // namespace

bool recordedBefore(const Reading& a, const Reading& b) {
  if (a.procedure != b.procedure) return a.procedure < b.procedure;
  if (a.run != b.run) return a.run < b.run;
  if (a.step != b.step) return a.step < b.step;
  return a.key < b.key;
}

const Accuracy* Instrument::accuracyFor(ReadingQuantity quantity) const {
  const std::string wanted = foldedWord(fleet::name(quantity));
  for (const Accuracy& a : accuracies)
    if (foldedWord(a.quantity) == wanted) return &a;
  const auto dimension = dimensionOf(quantity);
  const std::string family = foldedWord(quantity::name(dimension));
  for (const Accuracy& a : accuracies) {
    const std::string word = foldedWord(a.quantity);
    if (word == family || (dimension == quantity::Dimension::airflow && word == "flow")) return &a;
  }
  return nullptr;
}

std::optional<int> UnitRecord::currentRun(Procedure procedure) const {
  std::optional<int> highest;
  for (const Run& run : runs)
    if (run.procedure == procedure && (!highest || run.number > *highest)) highest = run.number;
  for (const Reading& reading : readings)
    if (reading.procedure == procedure && !reading.withdrawn && (!highest || reading.run > *highest)) highest = reading.run;
  return highest;
}

const UnitRecord* Snapshot::unit(std::string_view tag) const {
  const auto* record = found(units, [&](const auto& u) { return u->unit.tag == tag; });
  return record ? record->get() : nullptr;
}
const UnitRecord* Snapshot::unit(UnitId id) const {
  const auto* record = found(units, [&](const auto& u) { return u->unit.id == id; });
  return record ? record->get() : nullptr;
}
const AirHandler* Snapshot::airHandler(std::string_view name) const {
  return found(airHandlers, [&](const auto& a) { return a.name == name; });
}
const ControllerProfile* Snapshot::profile(std::string_view name) const {
  return found(profiles, [&](const auto& p) { return p.name == name; });
}
const RoomSensor* Snapshot::roomSensor(std::string_view name) const {
  return found(roomSensors, [&](const auto& s) { return s.name == name; });
}
const NetworkSegment* Snapshot::segment(std::string_view name) const {
  return found(segments, [&](const auto& s) { return s.name == name; });
}
const Instrument* Snapshot::instrument(std::string_view serial) const {
  return found(instruments, [&](const auto& i) { return i.serial == serial; });
}

}  // namespace ductwright::fleet
