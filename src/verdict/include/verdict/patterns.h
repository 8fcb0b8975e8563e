#pragma once

#include <string>
#include <vector>

#include "verdict/judge.h"

namespace ductwright::verdict {

enum class PatternKind : std::uint8_t {
  airHandlerLow,
  inletSizeFactor,
  airHandlerFactor,
  unitsExchanged,
  instrumentDisagrees,
  tooPerfect
};

// What many units have in common: one cause instead of thirty symptoms.
struct Pattern {
  PatternKind kind = PatternKind::airHandlerLow;
  std::string subject;  // the air handler, inlet size, instrument, "2-14 and 2-15"
  std::vector<UnitId> units;
  double factor = 1;     // the constant factor, where there is one
  double strength = 0;   // how far from chance, in robust standard deviations
  std::string sentence;  // one sentence, in the project's units
  fleet::Party party = fleet::Party::agent;
};
std::vector<Pattern> patterns(const Snapshot& project, const FleetVerdict& verdicts);

// A deficiency that a verdict raises: one per cause. `cause` is stable, so that raising is idempotent.
struct Raised {
  std::string cause;
  UnitId unit;
  fleet::Party party = fleet::Party::agent;
  fleet::Severity severity = fleet::Severity::moderate;
  std::string title, evidence, closes;
};
std::vector<Raised> deficienciesOf(const UnitRecord& record, const UnitVerdict& verdict,
                                   const Snapshot& project);

// The criteria that show a cause of deficienciesOf(): it is cured when each of them that applies passes. Empty for a
// cause of another making.
std::vector<Criterion> criteriaThatShow(std::string_view cause);

}  // namespace ductwright::verdict
