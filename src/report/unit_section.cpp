#include <algorithm>
#include <cmath>

#include "place_words.h"
#include "plot/unit_figures.h"
#include "readings_table.h"
#include "report/commissioning.h"
#include "verdict/correction.h"
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

Facts designOf(const Unit& unit, const fleet::Snapshot& project) {
  const quantity::System system = project.system;
  DesignFacts facts(system);
  facts.add("Place", placeWords(unit, project));
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

// One line: a column a criterion.
Table resultsOf(const verdict::UnitVerdict& judged) {
  Table table;
  table.rows.emplace_back();
  for (const Criterion criterion : {Criterion::airflow, Criterion::reheatLockout, Criterion::dischargeRise}) {
    const verdict::CriterionVerdict& of = judged.of(criterion);
    std::string words(name(of.outcome));
    if (of.score) words += ", score " + scoreWords(of.score);
    if (const std::string why = because(of, criterion); !why.empty() && of.outcome != Outcome::notApplicable) words += "; " + why;
    table.columns.push_back({std::string(name(criterion)), 1});
    table.rows[0].push_back({words, of.outcome});
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
  table.columns = {{"criterion", 1.2},  {"check", 2.2},    {"step", 1.1},  {"measured", 1.1, Align::right}, {"± U", 0.9, Align::right},
                   {"required", 1.75, Align::right}, {"conformity %", 1.15, Align::right}, {"result", 1.4}};
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

// What is said of a reading, whichever its step.
bool isAboutReading(verdict::NoteKind kind) {
  using enum verdict::NoteKind;
  return kind == instrumentOverdue || kind == defaultAccuracy || kind == waitUnknown || kind == timeUnknown || kind == notReported;
}

// Notes that say the same of several steps are said once.
void addNotes(std::vector<std::string>& sentences, const std::vector<verdict::Note>& notes, quantity::System system) {
  const auto alike = [](const verdict::Note& a, const verdict::Note& b) {
    return a.kind == b.kind && a.criterion == b.criterion && a.quantity == b.quantity && isAboutReading(a.kind);
  };
  for (auto note = notes.begin(); note != notes.end(); ++note) {
    const auto same = [&](const verdict::Note& other) { return alike(*note, other); };
    if (std::any_of(notes.begin(), note, same)) continue;
    std::string also;
    for (auto other = std::next(note); other != notes.end(); ++other) {
      if (same(*other)) also += (also.empty() ? " Also at " : ", ") + fleet::stepName(procedureOf(other->criterion), other->step);
    }
    sentences.push_back(sentence(*note, system) + (also.empty() ? "" : also + "."));
  }
}

// A reported flow that is not proven right: the coefficient may mend it.
bool reportsWrong(const verdict::UnitVerdict& judged) {
  return std::any_of(judged.checks.begin(), judged.checks.end(), [](const Check& check) {
    return check.kind == verdict::CheckKind::reportedAgainstMeasured && check.outcome == Outcome::fail;
  });
}

// What the checks and notes mean, in sentences.
void addRemarks(std::vector<Block>& blocks, const fleet::UnitRecord& record, const verdict::UnitVerdict& judged,
                const fleet::Snapshot& project) {
  const quantity::System system = project.system;
  std::vector<std::string> sentences;
  for (const Check& check : judged.checks) {
    if (check.outcome == Outcome::fail || check.outcome == Outcome::cannotTell || check.close)
      sentences.push_back(sentence(check, system));
  }
  addNotes(sentences, judged.notes, system);
  if (reportsWrong(judged)) {
    for (const auto& advice : verdict::coefficientAdvice(record, project)) sentences.push_back(sentence(advice, system));
  }
  if (sentences.empty()) return;
  blocks.push_back(Heading{"Remarks", Rank::heading, {}, ""});
  for (const std::string& words : sentences) blocks.push_back(Paragraph{"– " + words, Weight::small});
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
                        ": " + sign.meaning + ". Digest " + sign.digest.substr(0, 16) + "….";
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
  figures.height = 132;
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
  section.blocks.push_back(designOf(record.unit, s.project));
  section.blocks.push_back(resultsOf(judged));
  section.blocks.push_back(figuresOf(record, judged, s.project));
  section.blocks.push_back(Key{true});
  section.blocks.push_back(checksOf(judged, system));
  addRemarks(section.blocks, record, judged, s.project);
  section.blocks.push_back(readingsTable(record, system));
  addDeficiencies(section.blocks, s, record.unit.id);
  addSignOffs(section.blocks, record);
  return section;
}

}  // namespace ductwright::report
