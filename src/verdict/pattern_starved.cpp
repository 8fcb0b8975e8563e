#include <algorithm>
#include <cmath>
#include <map>

#include "pattern_search.h"
#include "review_rules.h"
#include "robust.h"

// An air handler, or one of its floors, that is short of air everywhere.
namespace ductwright::verdict {
namespace {

// The chance that a unit is starved for a reason of its own: common practice, no source.
constexpr double kStarvedAlone = 0.15;
constexpr double kMostUnits = 0.8;      // of the group are short
constexpr double kMostWitnesses = 0.7;  // of them show open dampers, or report the shortage themselves

// A unit at its greatest scheduled flow.
struct AtMaximum {
  std::uint32_t unit = 0;
  double design = 0, ratio = 1, reported = 0, damper = -1;  // ratio: measured ÷ design
};

std::vector<AtMaximum> unitsAtMaximum(const PatternSearch& search) {
  std::vector<AtMaximum> out;
  for (const FlowSample& s : search.samples) {
    if (s.design <= 0) continue;
    const AtMaximum now{s.unit, s.design, s.measured / s.design, s.reported / s.design, s.damper};
    if (out.empty() || out.back().unit != s.unit) {
      out.push_back(now);
    } else if (s.design > out.back().design) {
      out.back() = now;
    }
  }
  return out;
}

struct Group {
  std::string subject;
  std::vector<const AtMaximum*> units;
};

struct Shortage {
  std::vector<std::uint32_t> units;
  double ratio = 1, chance = 1;
  std::size_t low = 0, open = 0, withDamper = 0;
};

// Nothing where the group is not short of air as a whole.
std::optional<Shortage> shortageOf(const PatternSearch& search, const Group& group) {
  if (group.units.size() < kFewest) return std::nullopt;
  const auto& criteria = search.project.criteria;
  Shortage out;
  std::vector<double> ratios;
  std::size_t witnesses = 0;
  for (const AtMaximum* u : group.units) {
    ratios.push_back(u->ratio);
    out.units.push_back(u->unit);
    if (u->ratio >= 1 - criteria.flowLow / 2) continue;
    ++out.low;
    const bool open = u->damper >= criteria.starvedDamper;
    out.withDamper += u->damper >= 0 ? 1 : 0;
    out.open += open ? 1 : 0;
    witnesses += open || (u->damper < 0 && u->reported > 0 && u->reported < 1 - criteria.flowLow / 2) ? 1 : 0;
  }
  out.ratio = median(ratios);
  out.chance = chanceOfAtLeast(witnesses, group.units.size(), kStarvedAlone);
  const auto n = static_cast<double>(group.units.size());
  const bool everywhere = static_cast<double>(out.low) >= kMostUnits * n && out.ratio <= 1 - criteria.flowLow;
  const bool witnessed = static_cast<double>(witnesses) >= kMostWitnesses * static_cast<double>(out.low);
  return everywhere && witnessed ? std::optional(out) : std::nullopt;
}

Pattern patternOf(const PatternSearch& search, const Group& group, const Shortage& s) {
  std::string dampers;
  if (s.withDamper > 0)
    dampers = ", " + std::to_string(s.open) + " of " + std::to_string(s.withDamper) + " dampers wide open";
  return {.kind = PatternKind::airHandlerLow,
          .subject = group.subject,
          .units = idsOf(search, s.units),
          .factor = s.ratio,
          .strength = deviationsOf(s.chance),
          .sentence = group.subject + " is short of air everywhere: " + std::to_string(s.low) + " of " +
                      counted(s.units.size(), "unit") + " are low at their greatest flow, " +
                      plain(100 * s.ratio, 0) + " % of design in the middle" + dampers +
                      ". Look at the fan and the duct static pressure first.",
          .party = fleet::Party::mechanicalContractor};
}

}  // namespace

std::vector<Pattern> starvedAirHandlers(const PatternSearch& search, std::vector<bool>& starved) {
  const std::vector<AtMaximum> units = unitsAtMaximum(search);
  std::map<std::string, std::map<std::string, Group>> handlers;  // by air handler, then floor
  for (const AtMaximum& u : units) {
    const Unit& unit = search.unit(u.unit);
    if (!unit.airHandler.empty()) handlers[unit.airHandler][unit.floor].units.push_back(&u);
  }
  std::vector<Pattern> out;
  for (auto& [name, floors] : handlers) {
    Group whole{name, {}};
    for (auto& [floor, group] : floors) {
      group.subject = name + ", floor " + floor;
      whole.units.insert(whole.units.end(), group.units.begin(), group.units.end());
    }
    const double allowed = kFalsePatterns / static_cast<double>(handlers.size() * (1 + floors.size()));
    const auto look = [&](const Group& group) {
      const auto shortage = shortageOf(search, group);
      if (!shortage || shortage->chance > allowed) return false;
      out.push_back(patternOf(search, group, *shortage));
      for (const std::uint32_t at : shortage->units) starved[at] = true;
      return true;
    };
    if (look(whole) || floors.size() < 2) continue;
    for (const auto& [floor, group] : floors) look(group);
  }
  return out;
}

}  // namespace ductwright::verdict
