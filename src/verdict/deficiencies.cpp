#include <algorithm>

#include "deficiency_cause.h"
#include "deficiency_words.h"
#include "verdict/patterns.h"

namespace ductwright::verdict {
namespace {

struct Grouped {
  Cause cause;
  std::vector<const Check*> checks;
};

std::vector<Grouped> grouped(const UnitVerdict& verdict, const UnitRecord& record) {
  std::vector<Grouped> out;
  for (const Check& check : verdict.checks) {
    if (check.outcome != Outcome::fail) continue;
    const Cause cause = causeOf(check, verdict, record);
    auto it = std::find_if(out.begin(), out.end(), [&](const Grouped& g) { return g.cause == cause; });
    if (it == out.end()) it = out.insert(out.end(), {cause, {}});
    it->checks.push_back(&check);
  }
  return out;
}

void addIfNew(std::vector<Grouped>& groups, Cause cause) {
  if (std::none_of(groups.begin(), groups.end(), [&](const Grouped& g) { return g.cause == cause; }))
    groups.push_back({cause, {}});
}

// What a note raises of its own: negative induction; and electric heat that an early point showed on.
void addNoted(std::vector<Grouped>& groups, const UnitRecord& record, const UnitVerdict& verdict) {
  for (const Note& note : verdict.notes)
    if (note.kind == NoteKind::negativeInduction) addIfNew(groups, Cause::primaryOverFan);
  if (!verdict.safety) return;
  const bool told = std::any_of(groups.begin(), groups.end(), [](const Grouped& g) {
    return g.cause == Cause::heatWithoutAir || g.cause == Cause::heatWhenOff;
  });
  if (!told) addIfNew(groups, heatSeenWithoutCall(record) ? Cause::heatWhenOff : Cause::heatWithoutAir);
}

// The airflow trouble from which trouble with the heat may follow.
std::optional<Cause> airflowTrouble(const std::vector<Grouped>& groups) {
  for (const Cause cause : {Cause::flowReading, Cause::hotFlowReading, Cause::starved, Cause::fanFlow,
                            Cause::flowSetpoint, Cause::flowOff})
    if (std::any_of(groups.begin(), groups.end(), [&](const Grouped& g) { return g.cause == cause; }))
      return cause;
  return std::nullopt;
}

}  // namespace

std::vector<Raised> deficienciesOf(const UnitRecord& record, const UnitVerdict& verdict,
                                   const Snapshot& project) {
  std::vector<Grouped> groups = grouped(verdict, record);
  addNoted(groups, record, verdict);
  const DeficiencyWords words(record, verdict, project);
  const auto trouble = airflowTrouble(groups);
  std::vector<Raised> out;
  for (const Grouped& group : groups) {
    const CauseFacts facts = factsOf(group.cause, verdict, record.unit);
    const std::string first =
        trouble ? words.mendFirst(group.cause, factsOf(*trouble, verdict, record.unit)) : "";
    out.push_back({.cause = std::string(facts.key),
                   .unit = record.unit.id,
                   .party = facts.party,
                   .severity = facts.severity,
                   .title = words.title(facts),
                   .evidence = words.evidence(group.cause, facts, group.checks) + first,
                   .closes = words.closes(group.cause, group.checks)});
  }
  return out;
}

}  // namespace ductwright::verdict
