#include "report/commissioning.h"
#include "words.h"

namespace ductwright::report {
namespace {

using verdict::Check;

bool isException(const Check& check) {
  return check.outcome == Outcome::fail || check.outcome == Outcome::cannotTell;
}

void addChecks(Table& table, const Subject& s, Outcome outcome) {
  for (std::size_t i = 0; i < s.project.units.size(); ++i) {
    const verdict::UnitVerdict& judged = *s.verdicts.units[i];
    if (judged.outcome != outcome) continue;
    bool first = true;
    for (const Check& check : judged.checks) {
      if (!isException(check)) continue;
      table.rows.push_back({{first ? s.project.units[i]->unit.tag : "", {}}, {"", check.outcome},
                            {std::string(name(check.criterion)) + ", " + fleet::stepName(check.procedure, check.step), {}},
                            {sentence(check, s.project.system), {}}, {conformityWords(check.conformity), {}}});
      first = false;
    }
  }
}

Table untestedTable(const Subject& s) {
  Table table;
  table.caption = "Untested, and what is missing";
  table.columns = {{"unit", 1}, {"floor", 1}, {"air handler", 1}, {"because", 5}};
  table.empty = "No unit is untested.";
  for (std::size_t i = 0; i < s.project.units.size(); ++i) {
    const verdict::UnitVerdict& judged = *s.verdicts.units[i];
    if (judged.outcome != Outcome::untested) continue;
    const fleet::Unit& unit = s.project.units[i]->unit;
    table.rows.push_back({{unit.tag, Outcome::untested}, {unit.floor, {}}, {unit.airHandler, {}}, {reasonOf(judged, s.project.system), {}}});
  }
  return table;
}

Table patternTable(const Subject& s) {
  Table table;
  table.caption = "What units have in common: one cause instead of many symptoms";
  table.columns = {{"what", 5}, {"units", 0.7, Align::right}, {"who mends it", 1.6}};
  table.empty = "No pattern stands out from chance.";
  for (const verdict::Pattern& pattern : verdict::patterns(s.project, s.verdicts)) {
    table.rows.push_back({{pattern.sentence, {}}, {std::to_string(pattern.units.size()), {}},
                          {std::string(name(pattern.party)), {}}});
  }
  return table;
}

}  // namespace

Section exceptionSection(const Subject& s) {
  Table failed;
  failed.caption = "Failing";
  failed.columns = {{"unit", 0.8}, {"", 0.2}, {"test, step", 1.55}, {"what was found", 6}, {"conformity %", 0.95, Align::right}};
  failed.empty = "No unit fails.";
  Table undecided = failed;
  undecided.caption = "Cannot tell, and what would settle it";
  undecided.empty = "No unit is undecided.";
  addChecks(failed, s, Outcome::fail);
  addChecks(undecided, s, Outcome::cannotTell);
  Section section{"Exceptions", 0, {}};
  section.blocks = {Heading{section.title, Rank::part, {}, ""}, patternTable(s), std::move(failed), std::move(undecided), untestedTable(s)};
  return section;
}

}  // namespace ductwright::report
