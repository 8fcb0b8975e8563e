#pragma once

#include <memory>
#include <string>

#include "verdict/judge.h"

// One unit on a site, with readings put down one by one, for tests of the judgement.
namespace ductwright::verdict::testing {

using fleet::AirflowStep;
using fleet::Procedure;
using fleet::Reading;
using fleet::ReadingQuantity;
using fleet::RiseStep;
using fleet::Word;

// What is said of a reading beside its value.
struct How {
  std::string instrument = {};
  std::optional<float> waited = 1000.0F;
  std::optional<int> minute = {};  // of 2026-03-04, from 08:00 UTC
  std::string outlet = {};
  int run = 1;
  bool withdrawn = false;
};

inline fleet::Timestamp minuteOfDay(int minute) {
  return {1'772'611'200'000 + minute * 60'000LL, 0};  // 2026-03-04 08:00 UTC
}

inline fleet::Accuracy accuracy(const std::string& quantity, double share, double plus = 0) {
  fleet::Accuracy a;
  a.quantity = quantity;
  a.share = share;
  a.plus = plus;
  return a;
}

class Site {
 public:
  Snapshot project;
  fleet::UnitRecord record;

  Site() {
    record.unit.tag = "1-01";
    record.unit.kind = fleet::UnitKind::coolingOnly;
  }
  Unit& unit() { return record.unit; }
  Criteria& criteria() { return project.criteria; }

  // An instrument of ±(share · reading + plus), SI.
  Site& instrument(const std::string& serial, const std::string& quantity, double share, double plus = 0) {
    return add(serial, accuracy(quantity, share, plus));
  }
  // A flow instrument whose certificate leaves no uncertainty.
  Site& exact(const std::string& serial) {
    fleet::Accuracy none = accuracy("flow", 0);
    none.expanded = 0;
    return add(serial, none);
  }
  Site& add(const std::string& serial, const fleet::Accuracy& accuracy) {
    for (fleet::Instrument& known : project.instruments) {
      if (known.serial != serial) continue;
      known.accuracies.push_back(accuracy);
      return *this;
    }
    fleet::Instrument instrument;
    instrument.serial = serial;
    instrument.accuracies = {accuracy};
    project.instruments.push_back(instrument);
    return *this;
  }

  Site& read(Procedure procedure, int step, ReadingQuantity quantity, double si, const How& how = {}) {
    Reading r;
    r.key.ordinal = static_cast<std::uint32_t>(record.readings.size());
    r.procedure = procedure;
    r.step = step;
    r.quantity = quantity;
    r.value = si;
    r.instrument = Word(how.instrument);
    r.outlet = Word(how.outlet);
    r.waited = how.waited;
    r.run = how.run;
    r.withdrawn = how.withdrawn;
    if (how.minute) r.takenAt = minuteOfDay(*how.minute);
    record.readings.push_back(r);
    return *this;
  }
  Site& read(AirflowStep step, ReadingQuantity q, quantity::Airflow flow, const How& how = {}) {
    return read(Procedure::airflow, code(step), q, flow.si(), how);
  }
  Site& measured(AirflowStep step, double cfm, const How& how = {}) {
    return read(step, ReadingQuantity::measuredFlow, quantity::cfm(cfm), how);
  }
  Site& reported(AirflowStep step, double cfm, const How& how = {}) {
    return read(step, ReadingQuantity::reportedFlow, quantity::cfm(cfm), how);
  }

  [[nodiscard]] UnitVerdict verdict() const { return judge(record, project); }
};

inline const Check* find(const UnitVerdict& v, CheckKind kind, int step) {
  for (const Check& check : v.checks)
    if (check.kind == kind && check.step == step) return &check;
  return nullptr;
}
inline const Check* find(const UnitVerdict& v, CheckKind kind, AirflowStep step) { return find(v, kind, code(step)); }
inline const Check* find(const UnitVerdict& v, CheckKind kind, RiseStep step) { return find(v, kind, code(step)); }
inline const Note* find(const UnitVerdict& v, NoteKind kind) {
  for (const Note& note : v.notes)
    if (note.kind == kind) return &note;
  return nullptr;
}

}  // namespace ductwright::verdict::testing
