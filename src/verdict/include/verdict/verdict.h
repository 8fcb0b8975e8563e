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
  missing,        // a needed step, point or quantity was not recorded: `what` names it
  noReference,    // the schedule gives no flow to compare with: a design error
  withoutCall,    // heat on without a call
  noExpectation,  // the expected rise cannot be computed: `what` names what is lacking
};

enum class NoteKind : std::uint8_t {
  starved, belowControl, coefficient, zero, units, size, density, tooPerfect, negativeInduction, notReported,
  defaultAccuracy, waitUnknown, timeUnknown, threshold, airflowSwitch, heatBalance, ventilationEffectiveness,
  instrumentOverdue, absurdValue
};

inline constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

// One check: y = `measured` (or a difference) against [low, high]. NaN where there is none; SI.
struct Check {
  Criterion criterion = Criterion::airflow;
  CheckKind kind = CheckKind::measuredAgainstDesign;
  Outcome outcome = Outcome::untested;
  Because because = Because::none;
  bool close = false;
  quantity::Dimension dimension = quantity::Dimension::airflow;
  fleet::Procedure procedure = fleet::Procedure::airflow;
  int step = 0;
  std::uint8_t missing = 0;     // with Because::missing / noExpectation: see because()
  std::uint16_t settlesWith = 0;  // readings in all that would settle a close or undecided check; 0: only a better instrument
  double measured = kNone, expected = kNone, low = kNone, high = kNone, u = kNone, conformity = kNone;
};

// An explanation beside the checks; it does not change the score.
struct Note {
  NoteKind kind = NoteKind::starved;
  Criterion criterion = Criterion::airflow;
  int step = 0;
  double value = 0, other = 0;  // what the words need: a ratio, a flow, a bracket
};

struct CriterionVerdict {
  Outcome outcome = Outcome::notApplicable;
  Because because = Because::none;
  std::uint8_t missing = 0;
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
