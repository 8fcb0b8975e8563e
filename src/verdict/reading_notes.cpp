#include "airflow.h"

// How the readings of a step were taken, where that deserves a word.
namespace ductwright::verdict {
namespace {

using quantity::Dimension;

// Quantities whose uncertainty enters a check. A reported flow is what is judged, not what judges.
bool carriesAccuracy(ReadingQuantity q) {
  switch (q) {
    case ReadingQuantity::measuredFlow:
    case ReadingQuantity::outletFlow:
    case ReadingQuantity::fanFlow:
    case ReadingQuantity::enteringAirTemperature:
    case ReadingQuantity::dischargeAirTemperature:
    case ReadingQuantity::primaryAirTemperature:
    case ReadingQuantity::plenumAirTemperature:
    case ReadingQuantity::enteringWaterTemperature:
    case ReadingQuantity::leavingWaterTemperature:
    case ReadingQuantity::waterFlow:
    case ReadingQuantity::heaterPower: return true;
    default: return false;
  }
}

bool isAbsurd(ReadingQuantity q, double value) {
  switch (fleet::dimensionOf(q)) {
    case Dimension::airflow:
    case Dimension::waterFlow:
    case Dimension::power:
    case Dimension::count: return value < 0;
    case Dimension::ratio: return value < -0.05 || value > 1.05;
    case Dimension::temperature:  // −40 to 120 °C, wider than any air or water here
      return value < quantity::celsius(-40).si() || value > quantity::celsius(120).si();
    case Dimension::flag: return value != 0 && value != 1;
    default: return false;
  }
}

bool overdue(const Counted& c) {
  if (!c.instrument || !c.reading->takenAt) return false;
  const auto& at = *c.reading->takenAt;
  return at.utcMillis + at.offsetMinutes * 60'000LL >= c.instrument->overdueFrom;
}

bool namesNoAccuracy(const Counted& c) {
  if (!carriesAccuracy(c.quantity())) return false;
  return !c.instrument || !c.instrument->worth[static_cast<std::size_t>(c.quantity())].known;
}

}  // namespace

void noteReadings(const Judging& j, Criterion criterion, const StepReadings& step) {
  bool unnamed = false, unwaited = false, late = false;
  for (const Counted& c : step.all()) {
    const ReadingQuantity q = c.quantity();
    const auto note = [&](bool& done, bool is, NoteKind kind) {
      if (done || !is) return;
      done = true;
      j.note({kind, criterion, c.step(), c.reading->value, kNone, q});
    };
    if (isAbsurd(q, c.reading->value)) j.note({NoteKind::absurdValue, criterion, c.step(), c.reading->value, kNone, q});
    if (c.early()) continue;
    note(unnamed, namesNoAccuracy(c), NoteKind::defaultAccuracy);
    note(unwaited, !c.reading->waited, NoteKind::waitUnknown);
    note(late, overdue(c), NoteKind::instrumentOverdue);
  }
}

}  // namespace ductwright::verdict
