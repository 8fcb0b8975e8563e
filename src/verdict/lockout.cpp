#include <algorithm>
#include <cmath>
#include <limits>

#include "airflow.h"
#include "decision.h"
#include "heater_air.h"
#include "tally.h"
#include "voiding.h"

// Whether heat stays off below the flow that it needs, and comes on above it.
namespace ductwright::verdict {
namespace {

using enum fleet::ReadingQuantity;
using fleet::HeatKind;
using quantity::Airflow;

bool isElectric(const Unit& unit) {
  return unit.heat == HeatKind::electricStaged || unit.heat == HeatKind::electricModulating;
}

bool isAbove(const std::optional<Airflow>& flow) { return flow && flow->si() > 0; }

// What was seen at one flow.
struct Point {
  int step = 0;
  std::optional<bool> call, on;
  HeaterFlow air;
  double reference = 0;                 // 0: none
  std::optional<fleet::Timestamp> at;

  [[nodiscard]] bool hasShare() const { return air.flow && reference > 0; }
  [[nodiscard]] double share() const { return air.flow->value / reference; }
};

class Lockout {
 public:
  explicit Lockout(const Judging& j)
      : m_j(j),
        m_threshold(j.unit().heatEnableRatio.value_or(j.criteria().heatEnableRatio)),
        m_shouldHeat(1 - j.criteria().lockoutFlowTolerance) {}

  void judge() {
    if (!applies()) return;
    if (isVoid(m_j, Criterion::reheatLockout)) {
      m_absence = Because::voided;
    } else {
      judgePoints();
      tellBrackets();
    }
    demandCompleteness();
    m_j.of(Criterion::reheatLockout) = m_tally.result();
  }

 private:
  [[nodiscard]] bool applies() const {
    const Unit& unit = m_j.unit();
    if (unit.kind == fleet::UnitKind::exhaust || !(m_threshold > 0)) return false;
    return isElectric(unit) || (unit.heat == HeatKind::hotWater && isAbove(unit.reheat));
  }

  [[nodiscard]] double referenceOf(const StepReadings& step) const {
    const auto setpoint = flowOf(m_j, step, flowSetpoint, Place::inlet, m_j.unit().flowBasis);
    if (setpoint && setpoint->value > 0) return setpoint->value;
    if (isAbove(m_j.unit().reheat)) return m_j.unit().reheat->si();
    return isAbove(m_j.unit().heatingMin) ? m_j.unit().heatingMin->si() : 0;
  }

  [[nodiscard]] Point pointOf(const StepReadings& step) const {
    Point out;
    out.step = step.step();
    out.call = step.flag(heatCall);
    out.on = step.flag(heatOn);
    out.air = heaterFlow(m_j, step, m_j.unit().flowBasis, m_j.criteria().lockoutReportedShare);
    out.reference = referenceOf(step);
    for (const Counted& c : step.all()) {
      const auto& at = c.reading->takenAt;
      if (at && (!out.at || *out.at < *at)) out.at = at;
    }
    return out;
  }

  // On a limit counts as reaching it, whatever the rounding.
  static bool reaches(double share, double limit) { return share >= limit * (1 - 1e-9); }
  [[nodiscard]] bool isBelow(const Point& p) const { return p.hasShare() && !reaches(p.share(), m_threshold); }

  void judgePoints() {
    const auto all = m_j.readings.of(Procedure::reheatLockout);
    for (std::size_t at = 0; at < all.size();) {
      std::size_t end = at;
      while (end < all.size() && all[end].step() == all[at].step()) ++end;
      const StepReadings step(all.subspan(at, end - at), m_j.context);
      noteReadings(m_j, Criterion::reheatLockout, step);
      judgePoint(step);
      at = end;
    }
  }

  void judgePoint(const StepReadings& step) {
    const Point point = pointOf(step);
    const bool complete = point.call && point.on && (!*point.call || point.air.flow);
    const std::optional<bool> seenOn = complete ? point.on : seeEarly(step);
    if (!point.call || !point.on) {
      leave(point, seenOn.value_or(false), point.on ? Lacking::heatCall : Lacking::heatOn,
            step.onlyEarly(heatCall) || step.onlyEarly(heatOn));
    } else if (!*point.call) {
      if (*point.on) failWithoutCall(point);
    } else if (!point.air.flow) {
      leave(point, *point.on, point.air.lacking, point.air.early);
    } else if (!(point.reference > 0)) {
      Check check = checkOf(kindOf(*point.on), point.step);
      check.because = Because::noReference;
      put(check, true);
    } else {
      judgeCall(point);
    }
    if (complete) remember(point, step.mean(heatSignal));
  }

  // An early point is not judged, but what it shows of electric heat is said at once. Whether heat was seen on.
  std::optional<bool> seeEarly(const StepReadings& step) {
    const Point point = pointOf(step.withEarly());
    if (!point.call || !point.on) return point.on;
    const bool below = isBelow(point);
    if (*point.call && below) m_early.callBelow = true;
    if (*point.call && point.hasShare() && reaches(point.share(), m_shouldHeat)) m_early.callAtFlow = true;
    if (*point.call && below && !*point.on) m_early.trip = true;
    if (*point.on && (!*point.call || below)) danger();
    return point.on;
  }

  void danger() { m_j.verdict.safety = m_j.verdict.safety || isElectric(m_j.unit()); }

  void judgeCall(const Point& point) {
    const double share = point.share();
    const Judged judged{share, point.air.flow->spread().times(1 / point.reference)};
    Check check = checkOf(kindOf(*point.on), point.step);
    constexpr double kOpen = std::numeric_limits<double>::infinity();
    if (*point.on) {
      decide(check, judged, {m_threshold, kOpen}, m_j.criteria());
      if (isBelow(point)) danger();
    } else {
      decide(check, judged, {-kOpen, m_shouldHeat}, m_j.criteria(), HighEnd::outside);
    }
    m_seen.callBelow = m_seen.callBelow || isBelow(point);
    m_seen.callAtFlow = m_seen.callAtFlow || reaches(share, m_shouldHeat);
    put(check, true);
  }

  void failWithoutCall(const Point& point) {
    Check check = checkOf(CheckKind::onWithoutCall, point.step);
    check.outcome = Outcome::fail;
    check.because = Because::withoutCall;
    check.conformity = 0;
    if (point.hasShare()) check.measured = point.share();
    danger();
    put(check, true);
  }

  // A point that cannot be judged is shown; it is not needed where others prove the same.
  void leave(const Point& point, bool on, Lacking lacking, bool early) {
    Check check = checkOf(kindOf(on), point.step);
    check.because = early ? Because::early : Because::missing;
    check.lacking = early ? Lacking::nothing : lacking;
    put(check, false);
  }

  static CheckKind kindOf(bool on) { return on ? CheckKind::onWhenAllowed : CheckKind::heatsWhenItShould; }

  static Check checkOf(CheckKind kind, int step) {
    Check check;
    check.criterion = Criterion::reheatLockout;
    check.kind = kind;
    check.procedure = Procedure::reheatLockout;
    check.dimension = quantity::Dimension::ratio;
    check.step = step;
    return check;
  }

  void put(const Check& check, bool counts) {
    m_j.verdict.checks.push_back(check);
    if (counts) m_tally.add(check);
  }

  // What the trip and the brackets are read from.
  void remember(const Point& point, const std::optional<double>& signal) {
    m_allTimed = m_allTimed && point.at;
    const Moment moment{point.at.value_or(fleet::Timestamp{}), point.step};
    if (*point.on) m_on.add(moment);
    if (!*point.on && *point.call && isBelow(point)) m_tripped.add(moment);
    if (!point.air.flow) return;
    const double flow = point.air.flow->value;
    if (*point.on) {
      m_leastOn = std::fmin(m_leastOn, flow);
    } else if (*point.call) {
      double& greatest = signal && *signal > 0 ? m_greatestSwitchedOff : m_greatestOff;
      greatest = std::fmax(greatest, flow);
    }
  }

  // Electric heat that went off, with a call, below the threshold, later than it was seen on. Where the time of a point
  // is not known the points' numbers order them, which is told.
  [[nodiscard]] bool sawTrip() const {
    if (!m_on.any || !m_tripped.any) return false;
    if (m_allTimed) return m_on.first < m_tripped.last;
    if (m_on.firstStep >= m_tripped.lastStep) return false;
    m_j.note({NoteKind::timeUnknown, Criterion::reheatLockout, m_tripped.lastStep});
    return true;
  }

  void demandCompleteness() {
    demand(m_seen.callBelow, m_early.callBelow, CheckKind::onWhenAllowed, Lacking::callBelow);
    demand(m_seen.callAtFlow, m_early.callAtFlow, CheckKind::heatsWhenItShould, Lacking::callAtFlow);
    if (isElectric(m_j.unit())) demand(sawTrip(), m_early.trip, CheckKind::trip, Lacking::trip);
  }

  void demand(bool seen, bool seenEarly, CheckKind kind, Lacking lacking) {
    if (seen) return;
    Check check = checkOf(kind, kNoStep);
    check.because = m_absence != Because::missing ? m_absence : seenEarly ? Because::early : Because::missing;
    if (check.because == Because::missing) check.lacking = lacking;
    put(check, true);
  }

  // The greatest flow seen off with a call and the least seen on. Where the controller's output was on and the heat
  // was not, the heater's own airflow switch held it.
  void tellBrackets() const {
    const bool switched = !std::isnan(m_greatestSwitchedOff);
    if (!std::isnan(m_greatestOff) || (!std::isnan(m_leastOn) && !switched))
      m_j.note({NoteKind::threshold, Criterion::reheatLockout, 0, m_greatestOff, m_leastOn});
    if (switched) m_j.note({NoteKind::airflowSwitch, Criterion::reheatLockout, 0, m_greatestSwitchedOff, m_leastOn});
  }

  // When a point was taken; of two at one time the higher number is later.
  struct Moment {
    fleet::Timestamp at;
    int step = 0;
    friend bool operator<(const Moment& a, const Moment& b) { return a.at == b.at ? a.step < b.step : a.at < b.at; }
  };
  // The first and the last of the points of one sort, by time and by number.
  struct Order {
    bool any = false;
    Moment first, last;
    int firstStep = 0, lastStep = 0;

    void add(const Moment& m) {
      if (!any || m < first) first = m;
      if (!any || last < m) last = m;
      firstStep = any ? std::min(firstStep, m.step) : m.step;
      lastStep = any ? std::max(lastStep, m.step) : m.step;
      any = true;
    }
  };
  struct Seen {
    bool callBelow = false, callAtFlow = false, trip = false;
  };
  const Judging& m_j;
  double m_threshold, m_shouldHeat;
  Order m_on, m_tripped;
  bool m_allTimed = true;
  double m_greatestOff = kNone, m_greatestSwitchedOff = kNone, m_leastOn = kNone;
  Seen m_seen, m_early;
  Because m_absence = Because::missing;
  Tally m_tally;
};

}  // namespace

void judgeLockout(const Judging& j) { Lockout(j).judge(); }

}  // namespace ductwright::verdict
