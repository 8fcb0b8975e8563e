#include <algorithm>
#include <cmath>

#include "open_deficiencies.h"
#include "plot/unit_figures.h"
#include "readings_table.h"
#include "report/commissioning.h"
#include "words.h"

namespace ductwright::report {
namespace {

using fleet::Unit;
using quantity::Dimension;
using verdict::Check;
using verdict::Criterion;

class DesignFacts {
 public:
  explicit DesignFacts(quantity::System system) : m_system(system) {}

  void add(const std::string& name, const std::string& value) {
    if (!value.empty()) m_facts.facts.push_back({name, value});
  }
  template <class Quantity>
  void add(const std::string& name, const std::optional<Quantity>& value, Dimension dimension) {
    if (value) add(name, quantityWords(value->si(), dimension, m_system));
  }
  [[nodiscard]] Facts facts() { return std::move(m_facts); }

 private:
  quantity::System m_system;
  Facts m_facts{{}, 3};
};

Facts designOf(const Unit& unit, quantity::System system) {
  DesignFacts facts(system);
  facts.add("Place", unit.building + (unit.building.empty() ? "" : ", ") + unit.floor + (unit.zone.empty() ? "" : ", " + unit.zone));
  facts.add("Air handler", unit.airHandler);
  facts.add("Kind", std::string(name(unit.kind)));
  facts.add("Inlet", unit.inletDiameter, Dimension::length);
  facts.add("Cooling max", unit.coolingMax, Dimension::airflow);
  facts.add("Cooling min", unit.coolingMin, Dimension::airflow);
  facts.add("Heating max", unit.heatingMax, Dimension::airflow);
  facts.add("Heating min", unit.heatingMin, Dimension::airflow);
  facts.add("Reheat", unit.reheat, Dimension::airflow);
  facts.add("Fan", unit.fan, Dimension::airflow);
  facts.add("Hot max", unit.hotMax, Dimension::airflow);
  facts.add("Hot min", unit.hotMin, Dimension::airflow);
  facts.add("Ventilation min", unit.ventilationMin, Dimension::airflow);
  if (unit.heat != fleet::HeatKind::none) facts.add("Heat", std::string(name(unit.heat)));
  facts.add("Heater power", unit.heaterPower, Dimension::power);
  facts.add("Coil water", unit.coilWaterFlow, Dimension::waterFlow);
  facts.add("Discharge limit", unit.dischargeLimit, Dimension::temperature);
  facts.add("Coefficient", unit.flowCoefficient, Dimension::flowCoefficient);
  facts.add("Controller", unit.profile);
  return facts.facts();
}

Table resultsOf(const verdict::UnitVerdict& judged) {
  Table table;
  table.columns = {{"criterion", 2}, {"result", 1.4}, {"score", 0.8, Align::right}, {"because", 6}};
  for (const Criterion criterion : {Criterion::airflow, Criterion::reheatLockout, Criterion::dischargeRise}) {
    const verdict::CriterionVerdict& of = judged.of(criterion);
    table.rows.push_back({{std::string(name(criterion)), {}}, {std::string(name(of.outcome)), of.outcome},
                          {scoreWords(of.score), {}}, {because(of, criterion), {}}});
  }
  return table;
}

std::string expandedWords(const Check& check, quantity::System system) {
  if (!std::isfinite(check.u)) return "–";
  const bool temperature = check.dimension == Dimension::temperature;
  return quantity::write(2 * check.u, temperature ? Dimension::temperatureDifference : check.dimension, system);
}

Table checksOf(const verdict::UnitVerdict& judged, quantity::System system) {
  Table table;
  table.caption = "Checks";
  table.columns = {{"criterion", 1.3},  {"check", 2},      {"step", 1.1},  {"measured", 1.1, Align::right}, {"± U", 1, Align::right},
                   {"required", 1.8, Align::right}, {"conformity %", 1, Align::right}, {"result", 1.3}};
  table.empty = "Nothing was judged.";
  for (const Check& check : judged.checks) {
    std::string result(name(check.outcome));
    if (check.close) result += ", close";
    const std::string why = because(check);
    if (check.outcome == Outcome::untested && !why.empty()) result = why;
    table.rows.push_back({{std::string(name(check.criterion)), {}}, {std::string(name(check.kind)), {}},
                          {fleet::stepName(check.procedure, check.step), {}}, {measuredWords(check, system), {}},
                          {expandedWords(check, system), {}}, {intervalWords(check, system), {}},
                          {conformityWords(check.conformity), {}}, {result, check.outcome}});
  }
  return table;
}

// What the checks and notes mean, in sentences.
void addRemarks(std::vector<Block>& blocks, const verdict::UnitVerdict& judged, quantity::System system) {
  std::vector<std::string> sentences;
  for (const Check& check : judged.checks) {
    if (check.outcome == Outcome::fail || check.outcome == Outcome::cannotTell || check.close)
      sentences.push_back(sentence(check, system));
  }
  for (const verdict::Note& note : judged.notes) sentences.push_back(sentence(note, system));
  if (sentences.empty()) return;
  blocks.push_back(Heading{"Remarks", Rank::heading, {}, ""});
  for (const std::string& words : sentences) blocks.push_back(Paragraph{"– " + words, Weight::normal});
}

void addDeficiencies(std::vector<Block>& blocks, const Subject& s, fleet::UnitId unit) {
  Table table;
  table.caption = "Deficiencies";
  table.columns = {{"No.", 0.5, Align::right}, {"severity", 0.9}, {"what is wrong", 5}, {"who mends it", 1.8}, {"state", 1.6}};
  for (const fleet::Deficiency& d : s.project.deficiencies) {
    if (d.unit != unit) continue;
    table.rows.push_back({{std::to_string(d.number), {}}, {std::string(name(d.severity)), {}}, {d.title, {}},
                          {std::string(name(d.party)), {}}, {std::string(name(d.state())), {}}});
  }
  if (!table.rows.empty()) blocks.push_back(std::move(table));
}

void addSignOffs(std::vector<Block>& blocks, const fleet::UnitRecord& record) {
  for (const fleet::SignOff& sign : record.signOffs) {
    std::string words = "Signed by " + sign.person + ", " + std::string(name(sign.role)) + ", " + sign.at.shortText() +
                        ": " + sign.meaning + ". Digest " + sign.digest + ".";
    if (!sign.brokenBecause.empty()) {
      words += " Broken " + (sign.brokenAt ? sign.brokenAt->shortText() + " " : std::string()) + "by " + sign.brokenBy + ": " +
               sign.brokenBecause + ".";
    }
    blocks.push_back(Paragraph{words, Weight::normal});
  }
}

Figures figuresOf(const fleet::UnitRecord& record, const verdict::UnitVerdict& judged, const fleet::Snapshot& project) {
  const plot::Evidence evidence{record, judged, project.criteria, project.system};
  Figures figures;
  figures.figures = {plot::airflowFigure(evidence), plot::lockoutFigure(evidence), plot::riseFigure(evidence)};
  figures.shares = {1.2, 1, 1};
  figures.height = 165;
  return figures;
}

}  // namespace

Section unitSection(const Subject& s, std::size_t index) {
  const fleet::UnitRecord& record = *s.project.units[index];
  const verdict::UnitVerdict& judged = *s.verdicts.units[index];
  const quantity::System system = s.project.system;
  Section section{record.unit.tag, 1, {}};
  const std::string score = judged.score ? ", score " + scoreWords(judged.score) : "";
  section.blocks.push_back(Heading{record.unit.tag, Rank::part, judged.outcome, std::string(name(judged.outcome)) + score});
  section.blocks.push_back(designOf(record.unit, system));
  section.blocks.push_back(resultsOf(judged));
  section.blocks.push_back(figuresOf(record, judged, s.project));
  section.blocks.push_back(Key{true});
  section.blocks.push_back(checksOf(judged, system));
  addRemarks(section.blocks, judged, system);
  section.blocks.push_back(readingsTable(record, system));
  addDeficiencies(section.blocks, s, record.unit.id);
  addSignOffs(section.blocks, record);
  return section;
}

}  // namespace ductwright::report
