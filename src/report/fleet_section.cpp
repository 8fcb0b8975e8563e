#include <algorithm>

#include "place_words.h"
#include "report/commissioning.h"
#include "words.h"

namespace ductwright::report {
namespace {

using verdict::Criterion;

MarkGrid gridByFloor(const Subject& s) {
  MarkGrid grid;
  for (std::size_t i = 0; i < s.project.units.size(); ++i) {
    const fleet::Unit& unit = s.project.units[i]->unit;
    std::string name = s.project.buildings.size() > 1 ? unit.building : "";
    name += (name.empty() || unit.floor.empty() ? "" : ", ") + floorWords(unit.floor);
    auto group = std::find_if(grid.groups.begin(), grid.groups.end(), [&](const auto& g) { return g.name == name; });
    if (group == grid.groups.end()) group = grid.groups.insert(grid.groups.end(), {name, {}});
    group->units.push_back({unit.tag, s.verdicts.units[i]->outcome});
  }
  return grid;
}

Cell criterionCell(const verdict::CriterionVerdict& of) {
  if (of.outcome == Outcome::notApplicable) return {"", Outcome::notApplicable};
  return {of.score ? scoreWords(of.score) : "", of.outcome};
}

}  // namespace

Section fleetSection(const Subject& s) {
  Table table;
  table.caption = "Every unit: the number beside a mark is the score";
  table.columns = {{"unit", 1.1},        {"floor", 0.7}, {"zone", 1.3},                 {"air handler", 1.2},
                   {"kind", 1.2},       {"result", 1.1}, {"score", 0.75, Align::right}, {"airflow", 0.9},
                   {"lockout", 0.95},    {"rise", 0.75},         {"because", 3.9}};
  for (std::size_t i = 0; i < s.project.units.size(); ++i) {
    const fleet::Unit& unit = s.project.units[i]->unit;
    const verdict::UnitVerdict& judged = *s.verdicts.units[i];
    table.rows.push_back({{unit.tag, {}}, {unit.floor, {}}, {unit.zone, {}}, {unit.airHandler, {}},
                          {std::string(name(unit.kind)), {}}, {std::string(name(judged.outcome)), judged.outcome},
                          {scoreWords(judged.score), {}}, criterionCell(judged.of(Criterion::airflow)),
                          criterionCell(judged.of(Criterion::reheatLockout)),
                          criterionCell(judged.of(Criterion::dischargeRise)), {reasonOf(judged, s.project.system), {}}});
  }
  Section section{"The fleet at a glance", 0, {}};
  section.blocks = {Heading{section.title, Rank::part, {}, std::to_string(s.project.units.size()) + " units"}, Key{false},
                    gridByFloor(s), std::move(table)};
  return section;
}

}  // namespace ductwright::report
