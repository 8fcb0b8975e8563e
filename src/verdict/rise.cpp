#include <algorithm>
#include <cmath>
#include <limits>

#include "airflow.h"
#include "decision.h"
#include "expected_rise.h"
#include "air/heat.h"
#include "metrology/uncertainty.h"
#include "tally.h"
#include "voiding.h"

// What the heat does to the air: as much as it should, not more than is allowed, nothing when it is off.
namespace ductwright::verdict {
namespace {

using enum fleet::ReadingQuantity;
using fleet::RiseStep;
using quantity::Dimension;
using quantity::Temperature;

Check checkOf(CheckKind kind, RiseStep step) {
  Check check;
  check.criterion = Criterion::dischargeRise;
  check.kind = kind;
  check.procedure = Procedure::dischargeRise;
  check.dimension = kind == CheckKind::limit ? Dimension::temperature : Dimension::temperatureDifference;
  check.step = code(step);
  return check;
}

void leave(Check& check, const Shortage& shortage, Because because = Because::missing) {
  check.because = shortage.early ? Because::early : because;
  check.lacking = shortage.early ? Lacking::nothing : shortage.lacking;
}

StepReadings stepOf(const Judging& j, RiseStep step) { return j.readings.step(step); }

// The flow implied by the heat balance against the flow read: beyond the combined U one of the readings is wrong.
void tellBalance(const Judging& j, const Check& check, const HeatedAir& heated, const HeatInput& input,
                 const Difference& rise) {
  if (!(rise.kelvins > 0) || !(input.watts > 0)) return;
  const double implied = heated.flow.value * input.watts / (heated.capacity.si() * rise.kelvins);
  const double byPower = input.spread.times(implied / input.watts).variance();
  const double byRise = rise.spread.times(implied / rise.kelvins).variance();
  const double byFlow = heated.flow.spread().variance();
  if (std::abs(implied - heated.flow.value) <= metrology::kCoverage * std::sqrt(byPower + byRise + byFlow)) return;
  const ReadingQuantity flowRead = j.unit().kind == fleet::UnitKind::seriesFan ? fanFlow : measuredFlow;
  const ReadingQuantity repeat = byFlow >= std::max(byPower, byRise) ? flowRead
                                 : byPower >= byRise                 ? input.weakest
                                                                     : dischargeAirTemperature;
  j.note({NoteKind::heatBalance, Criterion::dischargeRise, check.step, implied, heated.flow.value, repeat});
}

// True where the check could be judged at this step.
bool judgeRiseAt(const Judging& j, RiseStep at, Check& check) {
  check = checkOf(CheckKind::rise, at);
  const StepReadings step = stepOf(j, at);
  Shortage shortage{Lacking::step, false};
  if (step.empty()) {
    leave(check, shortage);
    return false;
  }
  const auto discharge = step.of(dischargeAirTemperature);
  if (discharge.empty()) {
    leave(check, {Lacking::dischargeAir, step.onlyEarly(dischargeAirTemperature)});
    return false;
  }
  auto entering = enteringAir(j, step, shortage);
  auto flow = entering ? warmedFlow(j, step, *entering, shortage) : std::nullopt;
  if (!flow) {
    leave(check, shortage);
    return false;
  }
  const auto capacity = air::airCapacity(j.context.air(), Temperature::fromSi(entering->kelvin()),
                                         quantity::Airflow::fromSi(flow->value));
  const HeatedAir heated{*entering, *flow, capacity};
  const auto expected = expectedRise(j, step, heated, shortage);
  if (!expected) {
    leave(check, shortage, Because::noExpectation);
    return false;
  }
  const Difference rise = above(*entering, discharge, j.context);
  Judged judged{rise.kelvins - expected->kelvins, rise.spread};
  judged.spread += expected->spread;
  const double allowed =
      std::max(j.criteria().riseShare * std::abs(expected->kelvins), j.criteria().riseFloor.si());
  check.expected = expected->kelvins;
  decide(check, judged, {-allowed, allowed}, j.criteria());
  if (expected->input) tellBalance(j, check, heated, *expected->input, rise);
  return true;
}

// From heat forced, else from heat on.
Check riseCheck(const Judging& j) {
  Check forced, on;
  if (judgeRiseAt(j, RiseStep::heatForced, forced) || judgeRiseAt(j, RiseStep::heatOn, on)) 
    return forced.outcome != Outcome::untested ? forced : on;
  const bool forcedTried = !stepOf(j, RiseStep::heatForced).empty();
  return forcedTried ? forced : on;
}

Check limitCheck(const Judging& j) {
  Check check = checkOf(CheckKind::limit, RiseStep::heatOn);
  const Unit& unit = j.unit();
  std::optional<Temperature> limit = unit.dischargeLimit;
  if (!limit && unit.zoneHeatingSetpoint) limit = *unit.zoneHeatingSetpoint + j.criteria().limitAboveSetpoint;
  if (limit) check.high = limit->si();
  const StepReadings step = stepOf(j, RiseStep::heatOn);
  const auto discharge = step.estimate(dischargeAirTemperature);
  if (!discharge) {
    leave(check, {step.empty() ? Lacking::step : Lacking::dischargeAir, step.onlyEarly(dischargeAirTemperature)});
    return check;
  }
  if (unit.zoneHeatingSetpoint) {
    const double above = discharge->value - unit.zoneHeatingSetpoint->si();
    if (above > j.criteria().ventilationNote.si())
      j.note({NoteKind::ventilationEffectiveness, Criterion::dischargeRise, check.step, above,
              j.criteria().ventilationNote.si()});
  }
  if (!limit) {
    leave(check, {Lacking::dischargeLimit, false});
    return check;
  }
  decide(check, {discharge->value, discharge->spread()}, {-std::numeric_limits<double>::infinity(), limit->si()},
         j.criteria());
  return check;
}

// The ± of the criteria is also what allows for a fan's heat: no reading gives the fan's power.
Check coldCheck(const Judging& j) {
  Check check = checkOf(CheckKind::coldWhenOff, RiseStep::heatOff);
  const StepReadings step = stepOf(j, RiseStep::heatOff);
  const auto discharge = step.of(dischargeAirTemperature);
  if (discharge.empty()) {
    leave(check, {step.empty() ? Lacking::step : Lacking::dischargeAir, step.onlyEarly(dischargeAirTemperature)});
    return check;
  }
  Shortage shortage;
  const auto entering = enteringAir(j, step, shortage);
  if (!entering) {
    leave(check, shortage);
    return check;
  }
  const Difference rise = above(*entering, discharge, j.context);
  const double allowed = j.criteria().coldWhenOff.si();
  check.expected = 0;
  decide(check, {rise.kelvins, rise.spread}, {-allowed, allowed}, j.criteria());
  return check;
}

}  // namespace

void judgeRise(const Judging& j) {
  if (j.unit().heat == fleet::HeatKind::none || j.unit().kind == fleet::UnitKind::exhaust) return;
  Tally tally;
  const auto put = [&](Check check, bool isVoided) {
    if (isVoided) check.because = Because::voided;
    j.verdict.checks.push_back(check);
    tally.add(check);
  };
  if (isVoid(j, Criterion::dischargeRise)) {
    put(checkOf(CheckKind::rise, RiseStep::heatForced), true);
    put(checkOf(CheckKind::limit, RiseStep::heatOn), true);
    put(checkOf(CheckKind::coldWhenOff, RiseStep::heatOff), true);
  } else {
    put(riseCheck(j), false);
    put(limitCheck(j), false);
    put(coldCheck(j), false);
    for (const RiseStep step : {RiseStep::heatOn, RiseStep::heatForced, RiseStep::heatOff})
      noteReadings(j, Criterion::dischargeRise, stepOf(j, step));
  }
  j.of(Criterion::dischargeRise) = tally.result();
}

}  // namespace ductwright::verdict
