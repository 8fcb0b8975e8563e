#include "deficiency_words.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <map>
#include <set>

#include "metrology/distribution.h"
#include "metrology/uncertainty.h"
#include "review_rules.h"

namespace ductwright::verdict {
namespace {

using fleet::Procedure;
using fleet::Reading;
using fleet::ReadingQuantity;
using quantity::Dimension;
using enum fleet::ReadingQuantity;

bool any(std::initializer_list<ReadingQuantity> list, ReadingQuantity q) {
  return std::find(list.begin(), list.end(), q) != list.end();
}

// The quantities that a check's number was made from.
bool makes(ReadingQuantity q, CheckKind kind) {
  switch (kind) {
    case CheckKind::measuredAgainstDesign:
      return any({measuredFlow, outletFlow, fanFlow}, q);
    case CheckKind::reportedAgainstMeasured:
      return any({measuredFlow, outletFlow, reportedFlow}, q);
    case CheckKind::rise:
    case CheckKind::coldWhenOff:
      return any({dischargeAirTemperature, enteringAirTemperature, primaryAirTemperature}, q);
    case CheckKind::limit:
      return q == dischargeAirTemperature;
    default:
      return any({heatOn, heatCall, measuredFlow, reportedFlow, fanFlow}, q);
  }
}

// What else was recorded at the step and helps to understand it.
bool isCondition(ReadingQuantity q) {
  return any(
      {reportedFlow, flowSetpoint, damperPosition, inletPressureDifference, ductStaticPressure, heatSignal,
       stagesOn, valvePosition, heaterPower, enteringWaterTemperature, leavingWaterTemperature, waterFlow,
       enteringAirTemperature, plenumAirTemperature, measuredFlow, fanFlow, supplyAirTemperature},
      q);
}

std::string capital(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z')
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
  return text;
}

std::string place(const Check& c) {
  const std::string step = fleet::stepName(c.procedure, c.step);
  return c.procedure == Procedure::reheatLockout ? "Point " + step : capital(step);
}

bool makesAny(ReadingQuantity q, const std::vector<const Check*>& checks) {
  return std::any_of(checks.begin(), checks.end(), [&](const Check* c) { return makes(q, c->kind); });
}

// Steps of equal scheduled flow that were judged by one reading.
bool sameNumbers(const Check& a, const Check& b) {
  return a.procedure == Procedure::airflow && a.kind == b.kind && a.measured == b.measured &&
         a.expected == b.expected && a.low == b.low && a.high == b.high;
}

// The checks step by step, without those that only repeat another step's numbers.
std::vector<std::vector<const Check*>> byStep(const std::vector<const Check*>& checks) {
  std::vector<std::vector<const Check*>> out;
  std::vector<const Check*> kept;
  for (const Check* c : checks) {
    if (std::any_of(kept.begin(), kept.end(), [&](const Check* k) { return sameNumbers(*k, *c); })) continue;
    kept.push_back(c);
    auto it = std::find_if(out.begin(), out.end(), [&](const auto& step) {
      return step.front()->procedure == c->procedure && step.front()->step == c->step;
    });
    if (it == out.end()) it = out.insert(out.end(), std::vector<const Check*>{});
    it->push_back(c);
  }
  return out;
}

bool explains(NoteKind kind) {
  using enum NoteKind;
  switch (kind) {
    case tooPerfect:
    case notReported:
    case defaultAccuracy:
    case waitUnknown:
    case timeUnknown:
    case absurdValue:
      return false;
    default:
      return true;
  }
}

// Notes that belong to a cause's own procedure, and starvation only to starvation.
bool belongs(const Note& note, Cause cause) {
  const bool lockout = cause == Cause::heatWithoutAir || cause == Cause::lockoutThreshold;
  const bool airflow = cause <= Cause::primaryOverFan;
  switch (note.criterion) {
    case Criterion::airflow:
      if (note.kind == NoteKind::starved) return cause == Cause::starved;
      if (note.kind == NoteKind::negativeInduction)
        return cause == Cause::primaryOverFan || cause == Cause::fanFlow;
      return airflow && cause != Cause::starved;
    case Criterion::reheatLockout:
      return lockout || cause == Cause::noHeat || cause == Cause::heatWhenOff;
    case Criterion::dischargeRise:
      break;
  }
  return !airflow && !lockout;
}

}  // namespace

bool heatSeenWithoutCall(const UnitRecord& record) {
  struct Seen {
    bool on = false, called = false, notCalled = false;
  };
  const auto run = record.currentRun(Procedure::reheatLockout);
  std::map<int, Seen> points;
  for (const Reading& r : record.readings) {
    if (r.procedure != Procedure::reheatLockout || r.withdrawn || r.run != run) continue;
    Seen& seen = points[r.step];
    if (r.quantity == heatOn) seen.on = seen.on || r.value >= 0.5;
    if (r.quantity == heatCall) (r.value >= 0.5 ? seen.called : seen.notCalled) = true;
  }
  return std::any_of(points.begin(), points.end(),
                     [](const auto& p) { return p.second.on && p.second.notCalled && !p.second.called; });
}

std::string DeficiencyWords::text(double si, Dimension dimension) const {
  return quantity::write(si, dimension, m_project.system);
}

std::string DeficiencyWords::title(const CauseFacts& facts) const {
  const Unit& u = unit();
  std::string out = std::string(facts.what) + ": " + u.tag;
  if (!u.zone.empty()) out += ", " + u.zone;
  if (!u.floor.empty()) out += ", floor " + u.floor;
  return out;
}

// Only the readings of the current run of the check's procedure and step.
bool DeficiencyWords::isOf(const Reading& r, const Check& c) const {
  return !r.withdrawn && r.procedure == c.procedure && r.step == c.step &&
         r.run == m_record.currentRun(c.procedure);
}

// [low, high] of a check moved by an offset; under the guarded rule drawn in by what its uncertainty costs.
std::string DeficiencyWords::range(const Check& c, double offset, Dimension dimension) const {
  const bool guarded = m_project.criteria.rule == fleet::DecisionRule::guarded && std::isfinite(c.u);
  const double guard = guarded ? metrology::normalQuantile(m_project.criteria.guardHigh) * c.u : 0;
  const bool low = std::isfinite(c.low), high = std::isfinite(c.high);
  const std::string from = low ? text(c.low + offset + guard, dimension) : "";
  const std::string to = high ? text(c.high + offset - guard, dimension) : "";
  return low && high ? from + " to " + to : low ? "at least " + from : "at most " + to;
}

std::string DeficiencyWords::shouldAndIs(const Check& c) const {
  const Dimension d = c.dimension;
  const double u = std::isfinite(c.u) ? metrology::kCoverage * c.u : 0;
  const std::string doubt =
      u > 0 ? " ± " + text(u, d == Dimension::temperature ? Dimension::temperatureDifference : d) : "";
  const auto interval = [&](double offset) {
    const std::string low = std::isfinite(c.low) ? text(c.low + offset, d) : "",
                      high = std::isfinite(c.high) ? text(c.high + offset, d) : "";
    return low.empty() ? "at most " + high : high.empty() ? "at least " + low : low + " to " + high;
  };
  switch (c.kind) {
    case CheckKind::measuredAgainstDesign:
      return "should be " + interval(0) + " (design " + text(c.expected, d) + "), is " + text(c.measured, d) +
             doubt;
    case CheckKind::reportedAgainstMeasured:
      return "the controller should report " + interval(c.expected) + " (measured " + text(c.expected, d) +
             doubt + "), it reports " + text(c.expected + c.measured, d);
    case CheckKind::onWithoutCall:
      return "heat should be off without a call, it is on";
    case CheckKind::onWhenAllowed:
      return "heat should be off below " + text(c.low, d) + " of the reference flow, it is on at " +
             text(c.measured, d) + doubt;
    case CheckKind::heatsWhenItShould:
      return "heat should be on with a call from " + text(c.high, d) +
             " of the reference flow, it is off at " + text(c.measured, d) + doubt;
    case CheckKind::trip:
      return "heat should go off as the flow falls below its threshold, it stays on";
    case CheckKind::rise:
      return "rise should be " + interval(c.expected) + " (expected " + text(c.expected, d) + "), is " +
             text(c.expected + c.measured, d) + doubt;
    case CheckKind::limit:
      return "discharge air should be " + interval(0) + ", is " + text(c.measured, d) + doubt;
    case CheckKind::coldWhenOff:
      break;
  }
  return "rise with the heat off should be " + interval(0) + ", is " + text(c.measured, d) + doubt;
}

// ", read with H-12 (flow hood) by A. Marsh, 2026-03-04 10:15, 300 s after the command"
std::string DeficiencyWords::howRead(const std::vector<const Check*>& step) const {
  std::vector<std::string> instruments;
  const Reading* last = nullptr;
  for (const Reading& r : m_record.readings) {
    if (!isOf(r, *step.front()) || !makesAny(r.quantity, step)) continue;
    if (!last || (r.takenAt && (!last->takenAt || *r.takenAt >= *last->takenAt))) last = &r;
    if (r.instrument.empty()) continue;
    const auto* known = m_project.instrument(r.instrument.text());
    const std::string shown =
        r.instrument.text() + (known && !known->description.empty() ? " (" + known->description + ")" : "");
    if (std::find(instruments.begin(), instruments.end(), shown) == instruments.end())
      instruments.push_back(shown);
  }
  if (!last) return "";
  std::string out =
      instruments.empty() ? ", read without a named instrument" : ", read with " + joined(instruments);
  if (!last->takenBy.empty()) out += " by " + last->takenBy.text();
  if (last->takenAt) out += ", " + last->takenAt->shortText();
  if (last->waited)
    out += ", " + text(static_cast<double>(*last->waited), Dimension::duration) + " after the command";
  return out;
}

// " With it: damper position 100.0 % and duct static pressure 0.400 in. w.g."
std::string DeficiencyWords::conditions(const std::vector<const Check*>& step) const {
  std::vector<std::string> seen;
  std::set<ReadingQuantity> told;
  for (const Reading& r : m_record.readings) {
    if (!isOf(r, *step.front()) || !isCondition(r.quantity)) continue;
    if (makesAny(r.quantity, step) && step.front()->procedure != Procedure::reheatLockout) continue;
    if (told.insert(r.quantity).second)
      seen.push_back(std::string(name(r.quantity)) + " " + text(r.value, dimensionOf(r.quantity)));
  }
  return seen.empty() ? "" : " With it: " + ended(joined(seen));
}

// What would settle a failed check that is near its limit.
std::string DeficiencyWords::closeness(const std::vector<const Check*>& step) const {
  for (const Check* c : step) {
    if (!c->close) continue;
    return c->settlesWith > 0 ? " It is near the limit: " + std::to_string(c->settlesWith) +
                                    " readings in all would settle it."
                              : " It is near the limit: a better instrument would settle it.";
  }
  return "";
}

std::string DeficiencyWords::told(const std::vector<const Check*>& step,
                                  const std::vector<const Check*>& all) const {
  std::string out = place(*step.front()) + ": ";
  for (std::size_t i = 0; i < step.size(); ++i) out += (i > 0 ? "; " : "") + shouldAndIs(*step[i]);
  out = ended(out + howRead(step)) + conditions(step) + closeness(step);
  std::vector<std::string> also;
  for (const Check* c : all)
    if (c != step.front() && sameNumbers(*c, *step.front()))
      also.push_back(fleet::stepName(c->procedure, c->step));
  return also.empty() ? out : out + " The same reading counts for " + joined(also) + ".";
}

std::string DeficiencyWords::explanations(Cause cause) const {
  std::string out;
  for (const Note& note : m_verdict.notes)
    if (explains(note.kind) && belongs(note, cause)) out += " " + sentence(note, m_project.system);
  return out;
}

std::string DeficiencyWords::cautions() const {
  if (electric(unit()))
    return " Caution: electric heat. Only a qualified electrician opens the heater, locked out and proven "
           "dead; no heat without "
           "proven airflow; no limit is bridged to test it.";
  if (unit().heat == fleet::HeatKind::hotWater)
    return " Caution: hot water. Isolate and let it cool before a joint is opened.";
  return "";
}

std::string DeficiencyWords::earlyPoint() const {
  return "Electric heat was seen on where it must be off, at a point that was read before its wait was over: "
         "enough to stop.";
}

std::string DeficiencyWords::evidence(Cause cause, const CauseFacts& facts,
                                      const std::vector<const Check*>& checks) const {
  std::string out;
  for (const auto& step : byStep(checks)) out += (out.empty() ? "" : " ") + told(step, checks);
  if (checks.empty() && cause != Cause::primaryOverFan) out += earlyPoint();
  out += explanations(cause);
  if (!out.empty() && out.front() == ' ') out.erase(0, 1);
  out += " Look first at: 1. " + std::string(facts.look[0]) + "; 2. " + std::string(facts.look[1]) + "; 3. " +
         std::string(facts.look[2]) + ".";
  const bool heat = cause > Cause::primaryOverFan && cause != Cause::temperatureSensors;
  return heat ? out + cautions() : out;
}

std::string DeficiencyWords::mendFirst(Cause cause, const CauseFacts& airflow) const {
  switch (cause) {
    case Cause::heatWithoutAir:
    case Cause::lockoutThreshold:
    case Cause::noHeat:
    case Cause::lowHeat:
    case Cause::highRise:
    case Cause::dischargeLimit:
      break;
    default:
      return "";
  }
  std::string what(airflow.what);
  what.front() = static_cast<char>(std::tolower(static_cast<unsigned char>(what.front())));
  return " Here also: " + what + ". Mend that first, this may follow from it.";
}

std::string DeficiencyWords::wait(Procedure procedure, int step) const {
  const auto& k = m_project.criteria;
  quantity::Duration needed;
  switch (procedure) {
    case Procedure::airflow: {
      const auto* profile = m_project.profile(unit().profile);
      const auto stroke = unit().strokeTime ? unit().strokeTime
                          : profile         ? profile->strokeTime
                                            : std::nullopt;
      needed = stroke.value_or(k.strokeUnknown) + k.settle;
      break;
    }
    case Procedure::reheatLockout:
      needed = k.lockoutWait;
      break;
    case Procedure::dischargeRise:
      needed = step != code(fleet::RiseStep::heatOff) ? k.heatOnWait
               : electric(unit())                     ? k.heatOffElectricWait
                                                      : k.heatOffWaterWait;
  }
  return text(needed.si(), Dimension::duration) + " or more after the command";
}

std::string DeficiencyWords::closedBy(const Check& c) const {
  const std::string step = fleet::stepName(c.procedure, c.step);
  switch (c.kind) {
    case CheckKind::measuredAgainstDesign:
      return "measured flow at " + step + " " + range(c, 0, c.dimension);
    case CheckKind::reportedAgainstMeasured:
      return "";  // told for all steps together
    case CheckKind::onWithoutCall:
      return "heat off without a call";
    case CheckKind::onWhenAllowed:
    case CheckKind::trip: {
      const double threshold =
          std::isfinite(c.low) ? c.low : unit().heatEnableRatio.value_or(m_project.criteria.heatEnableRatio);
      const std::string flow = above(unit().reheat, 0)
                                   ? " (" + text(threshold * unit().reheat->si(), Dimension::airflow) +
                                         " of " + text(unit().reheat->si(), Dimension::airflow) + ")"
                                   : "";
      return "heat off with a call below " + text(threshold, Dimension::ratio) + " of the reheat flow" +
             flow + ", after it was on above it";
    }
    case CheckKind::heatsWhenItShould:
      return "heat on with a call from " + text(c.high, Dimension::ratio) + " of the reheat flow";
    case CheckKind::rise:
      return "rise at " + step + " " + range(c, c.expected, c.dimension) + ", at the same power and flow";
    case CheckKind::limit:
      return "discharge air at " + step + " " + range(c, 0, c.dimension);
    case CheckKind::coldWhenOff:
      break;
  }
  return "rise at " + step + " " + range(c, 0, c.dimension);
}

std::vector<DeficiencyWords::Proof> DeficiencyWords::proofs(Cause cause,
                                                            const std::vector<const Check*>& checks) const {
  std::vector<Proof> out;
  const auto add = [&](Procedure procedure, int step, std::string reading) {
    const std::string waited = wait(procedure, step);
    auto it = std::find_if(out.begin(), out.end(),
                           [&](const Proof& p) { return p.procedure == procedure && p.wait == waited; });
    if (it == out.end()) it = out.insert(out.end(), {procedure, waited, {}});
    if (std::find(it->readings.begin(), it->readings.end(), reading) == it->readings.end())
      it->readings.push_back(std::move(reading));
  };
  std::vector<std::string> reported;
  for (const auto& step : byStep(checks))
    for (const Check* c : step) {
      if (c->kind == CheckKind::reportedAgainstMeasured)
        reported.push_back(fleet::stepName(c->procedure, c->step));
      else
        add(c->procedure, c->step, closedBy(*c));
    }
  if (!reported.empty())
    add(Procedure::airflow, 0,
        "reported flow at " + joined(reported) + " within the larger of " +
            text(m_project.criteria.reportedShare, Dimension::ratio) + " and " +
            text(m_project.criteria.reportedFloor.si(), Dimension::airflow) + " of the measured");
  if (!checks.empty()) return out;
  if (cause == Cause::primaryOverFan)
    add(Procedure::airflow, 0, "fan flow above the primary flow at every step");
  if (cause == Cause::heatWhenOff) add(Procedure::reheatLockout, 0, "heat off without a call");
  if (cause == Cause::heatWithoutAir)
    add(Procedure::reheatLockout, 0, "heat off with a call below its airflow threshold");
  return out;
}

std::string DeficiencyWords::closes(Cause cause, const std::vector<const Check*>& checks) const {
  std::string out;
  for (const Proof& proof : proofs(cause, checks)) {
    out += (out.empty() ? "A new " : " A new ") + std::string(name(proof.procedure)) + " run: ";
    for (std::size_t i = 0; i < proof.readings.size(); ++i) out += (i > 0 ? "; " : "") + proof.readings[i];
    out += (proof.readings.size() > 1 ? ", each " : ", ") + proof.wait + ".";
  }
  if (cause <= Cause::primaryOverFan && unit().heat != fleet::HeatKind::none)
    out += " Then repeat reheat lockout and discharge rise: a new airflow run voids them.";
  return out;
}

}  // namespace ductwright::verdict
