#include "voiding.h"

#include <algorithm>

namespace ductwright::verdict {

bool isVoid(const Judging& j, Criterion criterion) {
  if (!j.readings.rebalanced()) return false;
  const auto readings = j.readings.of(procedureOf(criterion));
  const auto balance = j.readings.of(Procedure::airflow);
  if (readings.empty() || balance.empty()) return false;

  std::optional<fleet::Timestamp> first;
  for (const Counted& c : balance) {
    const auto& at = c.reading->takenAt;
    if (at && (!first || *at < *first)) first = at;
  }
  bool unknown = !first;
  for (const Counted& c : readings) {
    const auto& at = c.reading->takenAt;
    if (first && at && *at < *first) return true;
    unknown = unknown || !at;
  }
  if (unknown) j.note({NoteKind::timeUnknown, criterion, readings.front().step()});
  return false;
}

}  // namespace ductwright::verdict
