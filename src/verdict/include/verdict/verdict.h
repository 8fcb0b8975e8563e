#pragma once

#include <array>
#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fleet/record.h"

// What the engine says of a unit. Plain codes and numbers: words are made when somebody reads them.
namespace ductwright::verdict {

using fleet::Criteria;
using fleet::Snapshot;
using fleet::Unit;
using fleet::UnitId;
using fleet::UnitRecord;

enum class Outcome : std::uint8_t { pass, fail, cannotTell, untested, notApplicable };
enum class Criterion : std::uint8_t { airflow, reheatLockout, dischargeRise };
inline constexpr std::size_t kCriteria = 3;

enum class CheckKind : std::uint8_t {
  measuredAgainstDesign,
  reportedAgainstMeasured,
  onWithoutCall,
  onWhenAllowed,
  heatsWhenItShould,
  trip,
  rise,
  limit,
  coldWhenOff,
};

// Why a check or a criterion came out as it did.
enum class Because : std::uint8_t {
  none,           // judged, inside
  outside,        // judged, outside the interval
  notCapable,     // the instrument's uncertainty is too large for the interval
  guardBand,      // too near a limit for the guarded rule
  early,          // only early readings
  voided,         // taken before the airflow run that superseded another
  missing,        // a needed step, point or quantity was not recorded: `lacking` names it
  noReference,    // the schedule gives no flow to compare with: a design error
  withoutCall,    // heat on without a call
  noExpectation,  // the expected rise cannot be computed: `lacking` names what it lacks
};

// What is not there, with Because::missing and Because::noExpectation.
enum class Lacking : std::uint8_t {
  nothing, step, callBelow, callAtFlow, trip, heatCall, heatOn, flow, fanFlow, primaryFlow,
  enteringAir, primaryAir, plenumAir, dischargeAir, dischargeLimit, heaterPower, valveOpen, enteringWater, coilPoint
};

enum class NoteKind : std::uint8_t {
  starved, belowControl, coefficient, zero, units, size, density, tooPerfect, negativeInduction, notReported,
  defaultAccuracy, waitUnknown, timeUnknown, threshold, airflowSwitch, heatBalance, ventilationEffectiveness,
  instrumentOverdue, absurdValue
};

inline constexpr int kNoStep = -1;
inline constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

// One check: y against [low, high], u its standard uncertainty. NaN where there is none; SI. `measured` is y:
// for reportedAgainstMeasured and rise the difference from `expected` (the measured flow, the expected rise),
// so that the reported flow or the measured rise is expected + measured.
struct Check {
  Criterion criterion = Criterion::airflow;
  CheckKind kind = CheckKind::measuredAgainstDesign;
  Outcome outcome = Outcome::untested;
  Because because = Because::none;
  bool close = false;
  quantity::Dimension dimension = quantity::Dimension::airflow;
  fleet::Procedure procedure = fleet::Procedure::airflow;
  int step = 0;  // kNoStep where a lockout point is missing altogether
  Lacking lacking = Lacking::nothing;
  std::uint16_t settlesWith = 0;  // readings in all that would settle a close or undecided check; 0: only a better instrument
  double measured = kNone, expected = kNone, low = kNone, high = kNone, u = kNone, conformity = kNone;
};

// An explanation beside the checks; it does not change the score.
struct Note {
  NoteKind kind = NoteKind::starved;
  Criterion criterion = Criterion::airflow;
  int step = 0;
  double value = kNone, other = kNone;  // what the words need: a ratio, a flow, a bracket
  fleet::ReadingQuantity quantity = fleet::ReadingQuantity::measuredFlow;  // what it is about, or to repeat
};

struct CriterionVerdict {
  Outcome outcome = Outcome::notApplicable;
  Because because = Because::none;  // of the check that decided it
  Lacking lacking = Lacking::nothing;
  int step = 0;
  std::optional<double> score;  // 0 to 100, nothing where nothing was judged
};

struct UnitVerdict {
  UnitId unit;
  Outcome outcome = Outcome::untested;
  std::optional<double> score;
  std::array<CriterionVerdict, kCriteria> criteria;
  std::vector<Check> checks;
  std::vector<Note> notes;
  bool safety = false;  // heat seen on where it must not be: raise it at once

  [[nodiscard]] const CriterionVerdict& of(Criterion c) const { return criteria[static_cast<std::size_t>(c)]; }
};

// The procedure whose readings prove a criterion.
constexpr fleet::Procedure procedureOf(Criterion c) {
  return c == Criterion::airflow         ? fleet::Procedure::airflow
         : c == Criterion::reheatLockout ? fleet::Procedure::reheatLockout
                                         : fleet::Procedure::dischargeRise;
}

std::string_view name(Outcome);    // "cannot tell"
std::string_view name(Criterion);  // "airflow", "reheat lockout", "discharge rise"
std::string_view key(Criterion);   // "airflow", "reheat_lockout", "discharge_rise"
std::string_view name(CheckKind);  // "measured against design", …
std::string_view unitSymbol(quantity::Dimension);  // the SI unit of a check's numbers: "m3/s", "K", "1"
// The reason as the interchange writes it: "", "early", "void", "missing: cooling min", …
std::string because(const Check&);
std::string because(const CriterionVerdict&, Criterion);
// One sentence for people, in the project's units.
std::string sentence(const Check&, quantity::System);
std::string sentence(const Note&, quantity::System);

}  // namespace ductwright::verdict
