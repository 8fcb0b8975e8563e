#include "report/score.h"
#include "report/sheets.h"
#include "text_table.h"
#include "words.h"

namespace ductwright::report {
namespace {

using verdict::Criterion;

std::string criterionWords(const verdict::CriterionVerdict& of) {
  if (of.outcome == verdict::Outcome::notApplicable) return "–";
  return std::string(name(of.outcome)) + (of.score ? " " + scoreWords(of.score) : "");
}

std::string countsLine(const verdict::FleetCounts& counts) {
  return std::to_string(counts.units) + " units: " + std::to_string(counts.pass) + " pass, " +
         std::to_string(counts.fail) + " fail, " + std::to_string(counts.cannotTell) + " cannot tell, " +
         std::to_string(counts.untested) + " untested\n";
}

std::string unitText(const fleet::Unit& unit, const verdict::UnitVerdict& judged, quantity::System system) {
  std::string out = unit.tag + ": " + std::string(name(judged.outcome)) + ", score " + scoreWords(judged.score) + "\n\n";
  using Side = TextTable::Side;
  TextTable table({{"criterion"}, {"check"}, {"step"}, {"result"}, {"measured", Side::right},
                   {"required", Side::right}, {"conformity %", Side::right}, {"because"}});
  for (const verdict::Check& check : judged.checks) {
    table.add({std::string(name(check.criterion)), std::string(name(check.kind)),
               fleet::stepName(check.procedure, check.step), std::string(name(check.outcome)) + (check.close ? ", close" : ""),
               measuredWords(check, system), intervalWords(check, system), conformityWords(check.conformity),
               because(check)});
  }
  out += table.text();
  if (!judged.notes.empty()) out += "\n";
  for (const verdict::Note& note : judged.notes) out += "- " + sentence(note, system) + "\n";
  return out;
}

}  // namespace

std::string scoreText(const fleet::Snapshot& project, const verdict::FleetVerdict& verdicts, std::string_view tag) {
  using Side = TextTable::Side;
  TextTable table({{"unit"}, {"result"}, {"score", Side::right}, {"airflow"}, {"reheat lockout"}, {"discharge rise"},
                   {"because"}});
  for (std::size_t i = 0; i < verdicts.units.size(); ++i) {
    const fleet::Unit& unit = project.units[i]->unit;
    const verdict::UnitVerdict& judged = *verdicts.units[i];
    if (!tag.empty() && unit.tag == tag) return unitText(unit, judged, project.system);
    table.add({unit.tag, std::string(name(judged.outcome)), scoreWords(judged.score),
               criterionWords(judged.of(Criterion::airflow)), criterionWords(judged.of(Criterion::reheatLockout)),
               criterionWords(judged.of(Criterion::dischargeRise)), reasonOf(judged, project.system)});
  }
  if (!tag.empty()) return "";
  return project.projectName + "\n" + countsLine(verdicts.counts) + "\n" + table.text();
}

std::string scoreCsv(const fleet::Snapshot& project, const verdict::FleetVerdict& verdicts, std::string_view tag) {
  exchange::Sheet sheet = resultSheet(project, verdicts);
  if (!tag.empty())
    std::erase_if(sheet.rows, [&](const exchange::SheetRow& row) { return std::get<std::string>(row[0]) != tag; });
  return exchange::toCsv(sheet);
}

}  // namespace ductwright::report
