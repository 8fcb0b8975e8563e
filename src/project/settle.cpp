#include "settle.h"

#include <algorithm>

#include "blank.h"
#include "canonical.h"
#include "verdict/patterns.h"

namespace ductwright::project {
namespace {

using namespace fleet;
using verdict::FleetVerdict;
using verdict::Raised;
using verdict::UnitVerdict;

bool names(const std::vector<Raised>& list, const std::string& cause) {
  return std::any_of(list.begin(), list.end(), [&](const Raised& r) { return r.cause == cause; });
}

// Whether an earlier run of some procedure showed the cause, so that its going is owed to a newer run.
bool shownByEarlierRun(const UnitRecord& record, const std::string& cause, const Snapshot& project) {
  for (const Procedure procedure : valuesOf<Procedure>()) {
    const auto current = record.currentRun(procedure);
    if (!current || *current <= 1) continue;
    UnitRecord earlier = record;
    const auto newest = [&](const auto& r, int number) { return r.procedure == procedure && number >= *current; };
    std::erase_if(earlier.runs, [&](const Run& r) { return newest(r, r.number); });
    std::erase_if(earlier.readings, [&](const Reading& r) { return newest(r, r.run); });
    if (!earlier.currentRun(procedure)) continue;
    if (names(verdict::deficienciesOf(earlier, verdict::judge(earlier, project), project), cause)) return true;
  }
  return false;
}

Deficiency recorded(const Raised& raised, int number, const Doing& doing) {
  Deficiency d;
  d.id = {doing.newUuid()};
  d.number = number;
  d.cause = raised.cause;
  d.unit = raised.unit;
  d.party = raised.party;
  d.severity = raised.severity;
  d.title = raised.title;
  d.evidence = raised.evidence;
  d.closes = raised.closes;
  d.moves.push_back({DeficiencyState::raised, doing.at, doing.author.person, doing.author.role, "raised by the failing check"});
  return d;
}

class Deficiencies {
 public:
  Deficiencies(Edit& edit, const State& before, const Doing& doing) : m_edit(edit), m_before(before), m_doing(doing) {
    for (const Deficiency& d : edit.next().deficiencies) {
      m_number = std::max(m_number, d.number);
      m_ofUnit[d.unit].push_back(d.id);
    }
  }

  void follow(const UnitRecord& record, const UnitVerdict& now) {
    const bool failing = now.outcome == verdict::Outcome::fail || now.safety;
    const auto known = m_ofUnit.find(record.unit.id);
    if (!failing && known == m_ofUnit.end()) return;
    const auto raised = verdict::deficienciesOf(record, now, m_edit.next());
    for (const Raised& r : raised)
      if (find(record.unit.id, r.cause) == nullptr) m_edit.put(recorded(r, ++m_number, m_doing));
    if (known == m_ofUnit.end()) return;
    for (const DeficiencyId id : known->second) settleOne(record, now, raised, id);
  }

 private:
  const Deficiency* find(UnitId unit, const std::string& cause) const {
    const auto known = m_ofUnit.find(unit);
    if (known == m_ofUnit.end()) return nullptr;
    for (const DeficiencyId id : known->second)
      if (const Deficiency* d = byId(id); d != nullptr && d->cause == cause) return d;
    return nullptr;
  }
  const Deficiency* byId(DeficiencyId id) const {
    const auto& all = m_edit.next().deficiencies;
    const auto at = std::find_if(all.begin(), all.end(), [&](const Deficiency& d) { return d.id == id; });
    return at == all.end() ? nullptr : &*at;
  }
  bool shownBefore(UnitId unit, const std::string& cause) const {
    const auto& before = *m_before.snapshot;
    for (std::size_t i = 0; i < before.units.size(); ++i)
      if (before.units[i]->unit.id == unit)
        return names(verdict::deficienciesOf(*before.units[i], *m_before.verdicts->units[i], before), cause);
    return false;
  }
  void move(DeficiencyId id, DeficiencyState to, const std::string& note) {
    m_edit.move(id, {to, m_doing.at, m_doing.author.person, m_doing.author.role, note});
  }

  void settleOne(const UnitRecord& record, const UnitVerdict& now, const std::vector<Raised>& seen, DeficiencyId id) {
    const Deficiency d = *byId(id);
    using enum DeficiencyState;
    const auto shownBy = verdict::criteriaThatShow(d.cause);
    if (shownBy.empty()) return;  // raised by hand
    const DeficiencyState state = d.state();
    if (names(seen, d.cause)) {
      const bool thoughtCured = state == workReported || state == awaitingRetest || state == proven || state == withdrawn;
      if (thoughtCured && !shownBefore(record.unit.id, d.cause)) move(id, DeficiencyState::raised, "the retest shows it again");
      return;
    }
    if (state == proven || state == withdrawn || !std::all_of(shownBy.begin(), shownBy.end(), [&](auto c) {
          const auto outcome = now.of(c).outcome;
          return outcome == verdict::Outcome::pass || outcome == verdict::Outcome::notApplicable;
        }))
      return;
    if (shownByEarlierRun(record, d.cause, m_edit.next())) move(id, proven, "a new run passed");
    else if (state == DeficiencyState::raised) move(id, withdrawn, "the reading that raised it was corrected");
  }

  Edit& m_edit;
  const State& m_before;
  const Doing& m_doing;
  int m_number = 0;
  std::unordered_map<UnitId, std::vector<DeficiencyId>, IdHash> m_ofUnit;
};

Result<void> breakSignOffs(Edit& edit, const UnitRecord& record, const UnitVerdict& now, const Doing& doing) {
  std::string digest;
  for (const SignOff& s : std::vector<SignOff>(record.signOffs)) {
    if (!s.brokenBecause.empty()) continue;
    if (digest.empty()) digest = store::SignedBytes{kCanonicalFormat, canonicalText(record, now, edit.next())}.digest();
    if (s.digest == digest) continue;
    if (blank(doing.reason))
      return failure(record.unit.tag + " was signed by " + s.person + " (" + std::string(name(s.role)) + ") on " +
                     s.at.shortText() + ": this change breaks the sign-off, so give a reason for it.");
    edit.breakSignOff(record.unit.id, s.id, doing.reason, doing.at, doing.author.person);
  }
  return {};
}

}  // namespace

Result<FleetVerdict> settle(Edit& edit, const State& before, const Doing& doing) {
  edit.finish();
  FleetVerdict verdicts = verdict::judgeAgain(edit.next(), *before.snapshot, *before.verdicts);
  std::unordered_map<UnitId, const UnitVerdict*, IdHash> earlier;
  earlier.reserve(before.verdicts->units.size());
  for (const auto& v : before.verdicts->units) earlier.emplace(v->unit, v.get());

  Deficiencies deficiencies(edit, before, doing);
  for (std::size_t i = 0; i < verdicts.units.size(); ++i) {
    const UnitVerdict& now = *verdicts.units[i];
    const auto was = earlier.find(now.unit);
    const bool rejudged = was == earlier.end() || was->second != &now;
    if (!rejudged && !edit.touched().contains(now.unit) && !edit.designChanged()) continue;
    const auto record = edit.next().units[i];  // held: breaking a sign-off replaces it
    if (rejudged) deficiencies.follow(*record, now);
    if (record->signOffs.empty()) continue;
    if (const auto broken = breakSignOffs(edit, *record, now, doing); !broken) return tl::make_unexpected(broken.error());
  }
  return verdicts;
}

}  // namespace ductwright::project
