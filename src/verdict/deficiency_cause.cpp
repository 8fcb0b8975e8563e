#include "deficiency_cause.h"

#include "verdict/patterns.h"

#include <algorithm>

namespace ductwright::verdict {
namespace {

using fleet::AirflowStep;
using fleet::Party;
using fleet::Severity;

// Less rise than this is no heat: common practice, no source.
constexpr double kNoHeat = quantity::fahrenheitDegrees(3).si();

bool isElectric(const Unit& u) {
  return u.heat == fleet::HeatKind::electricStaged || u.heat == fleet::HeatKind::electricModulating;
}

bool noted(const UnitVerdict& v, NoteKind kind) {
  return std::any_of(v.notes.begin(), v.notes.end(), [&](const Note& n) { return n.kind == kind; });
}
bool notedAt(const UnitVerdict& v, NoteKind kind, int step) {
  return std::any_of(v.notes.begin(), v.notes.end(),
                     [&](const Note& n) { return n.kind == kind && n.step == step; });
}

const Check* checkAt(const UnitVerdict& v, CheckKind kind, int step) {
  const auto it = std::find_if(v.checks.begin(), v.checks.end(),
                               [&](const Check& c) { return c.kind == kind && c.step == step; });
  return it == v.checks.end() ? nullptr : &*it;
}

bool hotInlet(int step) {
  return step == code(AirflowStep::hotMax) || step == code(AirflowStep::hotMin);
}

// The step whose reading a check was judged by: steps of equal scheduled flow share one.
int stepRead(const Check& c, const UnitVerdict& v) {
  for (const Check& other : v.checks)
    if (other.kind == c.kind && other.measured == c.measured && other.expected == c.expected &&
        (checkAt(v, CheckKind::reportedAgainstMeasured, other.step) ||
         notedAt(v, NoteKind::starved, other.step)))
      return other.step;
  return c.step;
}

// A damper was read at the step; where it stood wide open, the verdict notes the shortage as starved.
bool damperRead(const UnitRecord& record, int step) {
  const auto run = record.currentRun(fleet::Procedure::airflow);
  return std::any_of(record.readings.begin(), record.readings.end(), [&](const fleet::Reading& r) {
    return r.quantity == fleet::ReadingQuantity::damperPosition && r.procedure == fleet::Procedure::airflow &&
           r.step == step && r.run == run && !r.withdrawn;
  });
}

// The controller's own flow tells: on its design while the measured is not, its reading is wrong; off its
// design like the measured, it holds another flow, unless it may be short of air.
Cause airflowCause(const Check& c, const UnitVerdict& v, const UnitRecord& record) {
  const int step = stepRead(c, v);
  const bool againstDesign = c.kind == CheckKind::measuredAgainstDesign;
  if (step == code(AirflowStep::fan) && againstDesign) return Cause::fanFlow;
  if (againstDesign && notedAt(v, NoteKind::starved, step)) return Cause::starved;
  const Cause reading = record.unit.kind == fleet::UnitKind::dualDuct && hotInlet(step)
                            ? Cause::hotFlowReading
                            : Cause::flowReading;
  const Check* reported = checkAt(v, CheckKind::reportedAgainstMeasured, step);
  if (!reported || reported->outcome == Outcome::untested) return Cause::flowOff;
  const double shown = reported->expected + reported->measured;
  const bool onDesign = againstDesign && shown >= c.low && shown <= c.high;
  if (reported->outcome == Outcome::fail || onDesign) return reading;
  const bool maybeStarved = c.measured < c.low && !damperRead(record, step);
  return maybeStarved ? Cause::flowOff : Cause::flowSetpoint;
}

// Heat was seen on at some flow of the lockout's points.
bool heatSeenOn(const UnitVerdict& v) {
  return std::any_of(v.checks.begin(), v.checks.end(), [](const Check& c) {
    return c.kind == CheckKind::onWhenAllowed && (c.outcome == Outcome::pass || c.outcome == Outcome::fail);
  });
}

Cause riseCause(const Check& c) {
  if (c.measured > 0) return Cause::highRise;
  return c.expected + c.measured < kNoHeat ? Cause::noHeat : Cause::lowHeat;
}

// Which trade sets a wrong flow reading right: what the readings explain is a setting of the controller.
Party flowReadingParty(const UnitVerdict& v) {
  for (const NoteKind kind : {NoteKind::size, NoteKind::units, NoteKind::density, NoteKind::zero})
    if (noted(v, kind)) return Party::controlsContractor;
  return Party::balancer;
}

std::string_view flowReadingWhat(const UnitVerdict& v) {
  if (noted(v, NoteKind::units)) return "The controller's flow seems to be in another unit";
  if (noted(v, NoteKind::size)) return "The controller seems set up for another inlet size";
  if (noted(v, NoteKind::zero)) return "The flow sensor's zero seems off";
  if (noted(v, NoteKind::density)) return "The controller's flow seems to be on the other basis";
  return "The controller's flow reading is wrong";
}

}  // namespace

Cause causeOf(const Check& c, const UnitVerdict& v, const UnitRecord& record) {
  switch (c.kind) {
    case CheckKind::measuredAgainstDesign:
    case CheckKind::reportedAgainstMeasured:
      return airflowCause(c, v, record);
    case CheckKind::onWithoutCall:
      return Cause::heatWhenOff;
    case CheckKind::onWhenAllowed:
    case CheckKind::trip:
      return Cause::heatWithoutAir;
    case CheckKind::heatsWhenItShould:
      return heatSeenOn(v) ? Cause::lockoutThreshold : Cause::noHeat;
    case CheckKind::rise:
      return riseCause(c);
    case CheckKind::limit:
      return Cause::dischargeLimit;
    case CheckKind::coldWhenOff:
      break;
  }
  return c.measured > 0 ? Cause::heatWhenOff : Cause::temperatureSensors;
}

// Parties and severities by the trade's custom: common practice, no source.
CauseFacts factsOf(Cause cause, const UnitVerdict& v, const Unit& u) {
  const bool electric = isElectric(u);
  using enum Party;
  using enum Severity;
  switch (cause) {
    case Cause::starved:
      return {"airflow-starved",
              mechanicalContractor,
              major,
              "Short of air with the damper open",
              {"duct static pressure and its setpoint",
               "volume dampers, fire dampers and flexible duct on the way to the unit",
               "whether neighbours on the same branch are short too"}};
    case Cause::flowReading:
      return {"flow-reading",
              flowReadingParty(v),
              major,
              flowReadingWhat(v),
              {"flow coefficient, inlet size and units in the controller",
               "sensor tubes: swapped, pinched or off",
               "the sensor's zero with the damper shut, and the inlet's straight run"}};
    case Cause::hotFlowReading:
      return {"flow-reading-hot",
              flowReadingParty(v),
              major,
              "The controller's flow reading of the hot inlet is wrong",
              {"flow coefficient, inlet size and units of the hot inlet",
               "sensor tubes: swapped, pinched or off", "the sensor's zero with the damper shut"}};
    case Cause::flowSetpoint:
      return {"flow-setpoint",
              controlsContractor,
              major,
              "The controller holds another flow than the design",
              {"the flow setpoints in the controller against the schedule",
               "overrides and resets that are in force", "the controller's mode at the time"}};
    case Cause::flowOff:
      return {"airflow-off",
              balancer,
              major,
              "Airflow is off its design",
              {"the reading itself: repeat it, and record the reported flow and the damper beside it",
               "the flow setpoints in the controller", "the flow coefficient"}};
    case Cause::fanFlow:
      return {"fan-flow",
              balancer,
              major,
              "The fan's flow is off its design",
              {"speed setting and rotation", "outlets and their dampers",
               "the filter, and the induction opening"}};
    case Cause::primaryOverFan:
      return {"primary-over-fan",
              balancer,
              moderate,
              "Primary air exceeds the fan's flow: air spills into the plenum",
              {"the fan's flow and speed", "the primary setpoint in force", "the flow reading of the inlet"}};
    case Cause::heatWithoutAir:
      return {
          "heat-without-air",
          electric ? electricalContractor : controlsContractor,
          electric ? safety : major,
          electric ? "The electric heater runs without enough air" : "Heat is on below its airflow threshold",
          {"the lockout's threshold in the controller",
           electric ? "the heater's airflow switch: setting, tube, jumper"
                    : "the valve's command against its position",
           "the flow that the controller compares with"}};
    case Cause::heatWhenOff:
      return {"heat-when-off",
              electric ? electricalContractor : mechanicalContractor,
              electric ? safety : major,
              electric ? "The electric heater is on when it should be off"
                       : "The coil heats when it should be off",
              {electric ? "contactors, for one that is stuck" : "the valve's seat, for dirt or wear",
               electric ? "the controller's heat output" : "the actuator: closing fully, right way round",
               "whether the unit's two temperature sensors agree with no heat"}};
    case Cause::lockoutThreshold:
      return {"lockout-threshold",
              controlsContractor,
              moderate,
              "Heat is held off at enough air",
              {"the lockout's threshold in the controller", "the reheat flow setpoint",
               "the heater's own airflow switch"}};
    case Cause::noHeat:
      return {"no-heat",
              electric ? electricalContractor : mechanicalContractor,
              major,
              "No heat when it is called",
              {electric ? "supply, fuses and disconnect" : "isolation valves, strainer and air in the coil",
               electric ? "limits, tripped or open"
                        : "the valve and its wiring, and whether another unit heats instead",
               electric ? "the controller's heat output" : "the hot-water plant at the time"}};
    case Cause::lowHeat:
      return {"low-heat",
              electric ? electricalContractor : mechanicalContractor,
              electric ? major : moderate,
              "Less heat than expected",
              {electric ? "each stage's volts and amperes" : "water flow and entering water temperature",
               electric ? "fuses and contactors of single stages"
                        : "strainer, balancing valve and air in the coil",
               "the airflow at the time"}};
    case Cause::highRise:
      return {"high-rise",
              electric ? electricalContractor : balancer,
              moderate,
              "More rise than expected",
              {"the airflow at the time: less than was taken",
               electric ? "heater size against the schedule" : "water flow against the schedule",
               "the discharge sensor's place: in the heater's radiation or a hot layer"}};
    case Cause::dischargeLimit:
      return {"discharge-limit",
              controlsContractor,
              major,
              "Discharge air is hotter than its limit",
              {"the discharge limit in the controller", "the flow at full heat",
               "heater size or water temperature against the schedule"}};
    case Cause::temperatureSensors:
      break;
  }
  return {
      "temperature-sensors",
      controlsContractor,
      moderate,
      "Discharge air reads colder than entering air with the heat off",
      {"the two sensors side by side in the same air", "their offsets in the controller", "their places"}};
}

std::vector<Criterion> criteriaThatShow(std::string_view cause) {
  using enum Criterion;
  for (std::size_t i = 0; i < kCauses; ++i) {
    const auto known = static_cast<Cause>(i);
    if (factsOf(known, {}, {}).key != cause) continue;
    if (known <= Cause::primaryOverFan) return {airflow};
    if (known == Cause::heatWithoutAir || known == Cause::lockoutThreshold) return {reheatLockout};
    if (known == Cause::heatWhenOff || known == Cause::noHeat) return {reheatLockout, dischargeRise};
    return {dischargeRise};
  }
  return {};
}

}  // namespace ductwright::verdict
