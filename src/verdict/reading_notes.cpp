#include "airflow.h"

// How the readings of a step were taken, where that deserves a word.
namespace ductwright::verdict {
namespace {

bool overdue(const Counted& c) {
  if (!c.instrument || !c.reading->takenAt) return false;
  const auto& at = *c.reading->takenAt;
  return at.utcMillis + at.offsetMinutes * 60'000LL >= c.instrument->overdueFrom;
}

bool namesNoAccuracy(const Counted& c, const QuantityFacts& facts) {
  if (!facts.judges) return false;
  return !c.instrument || !c.instrument->worth[static_cast<std::size_t>(c.quantity())].known;
}

}  // namespace

void noteReadings(const Judging& j, Criterion criterion, const StepReadings& step) {
  bool unnamed = false, unwaited = false, late = false;
  for (const Counted& c : step.all()) {
    const ReadingQuantity q = c.quantity();
    const double value = c.reading->value;
    const auto note = [&](bool& done, bool is, NoteKind kind) {
      if (done || !is) return;
      done = true;
      j.note({kind, criterion, c.step(), value, kNone, q});
    };
    const QuantityFacts& facts = j.context.facts(q);
    if (value < facts.least || value > facts.most) j.note({NoteKind::absurdValue, criterion, c.step(), value, kNone, q});
    if (c.early()) continue;
    note(unnamed, namesNoAccuracy(c, facts), NoteKind::defaultAccuracy);
    note(unwaited, !c.reading->waited, NoteKind::waitUnknown);
    note(late, overdue(c), NoteKind::instrumentOverdue);
  }
}

}  // namespace ductwright::verdict
