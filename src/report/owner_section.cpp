#include <algorithm>
#include <cmath>
#include <map>

#include "accuracy_words.h"
#include "open_deficiencies.h"
#include "plot/fleet_figures.h"
#include "report/commissioning.h"
#include "words.h"

namespace ductwright::report {
namespace {

using verdict::Check;
using verdict::CheckKind;

constexpr std::size_t kTopIssues = 5, kNamed = 6;

// "2-14, 2-15 and 3 more".
std::string namedFew(const std::vector<std::string>& tags) {
  std::string out;
  for (std::size_t i = 0; i < tags.size() && i < kNamed; ++i) out += (i == 0 ? "" : ", ") + tags[i];
  if (tags.size() > kNamed) out += " and " + std::to_string(tags.size() - kNamed) + " more";
  return out;
}

std::string safetyWords(const Subject& s) {
  std::size_t open = 0;
  for (const auto* deficiency : openDeficiencies(s.project)) open += deficiency->severity == fleet::Severity::safety ? 1U : 0U;
  std::vector<std::string> unsafe;
  for (std::size_t i = 0; i < s.verdicts.units.size(); ++i) {
    if (s.verdicts.units[i]->safety) unsafe.push_back(s.project.units[i]->unit.tag);
  }
  const std::string deficiencies = open == 0 ? "no safety deficiency open" : std::to_string(open) + " open";
  return deficiencies + (unsafe.empty() ? "" : "; seen heating where they must not: " + namedFew(unsafe));
}

// Units whose measured minimum is less than their rooms need.
std::string ventilationWords(const Subject& s) {
  std::vector<std::string> below;
  std::size_t asked = 0;
  for (std::size_t i = 0; i < s.project.units.size(); ++i) {
    const fleet::Unit& unit = s.project.units[i]->unit;
    if (!unit.ventilationMin) continue;
    ++asked;
    for (const Check& check : s.verdicts.units[i]->checks) {
      if (check.kind != CheckKind::measuredAgainstDesign || check.step != fleet::code(fleet::AirflowStep::coolingMin)) continue;
      if (check.measured < unit.ventilationMin->si()) below.push_back(unit.tag);
    }
  }
  if (asked == 0) return "the schedule gives no ventilation minimum";
  if (below.empty()) return "no measured minimum is below the scheduled ventilation minimum";
  return std::to_string(below.size()) + " of " + std::to_string(asked) + " measured below the scheduled ventilation minimum: " + namedFew(below);
}

std::string instrumentWords(const Subject& s) {
  const fleet::Day today = fleet::Day::of(s.options.at);
  const auto uses = readingsByInstrument(s.project);
  std::size_t used = 0;
  std::vector<std::string> late;
  for (std::size_t i = 0; i < uses.size(); ++i) {
    if (uses[i] == 0) continue;
    ++used;
    if (overdue(s.project.instruments[i], today)) late.push_back(s.project.instruments[i].serial);
  }
  if (used == 0) return "no reading names an instrument: the criteria's default accuracy holds";
  if (late.empty()) return std::to_string(used) + " used, none overdue";
  return std::to_string(late.size()) + " of " + std::to_string(used) + " used are overdue: " + namedFew(late);
}

std::string ruleWords(const fleet::Criteria& criteria) {
  const bool guarded = criteria.rule == fleet::DecisionRule::guarded;
  return std::string(guarded ? "guarded acceptance" : "simple acceptance") + " (JCGM 106:2012, " +
         (guarded ? "8.3" : "8.2") + "); uncertainties shown are expanded, k = 2; criteria version " +
         std::to_string(criteria.version);
}

std::string signatureWords(const Subject& s) {
  std::size_t standing = 0, broken = 0;
  std::map<std::string, std::size_t> people;
  for (const auto& record : s.project.units) {
    for (const fleet::SignOff& sign : record->signOffs) {
      if (!sign.brokenBecause.empty()) {
        ++broken;
        continue;
      }
      ++standing;
      ++people[sign.person + ", " + std::string(name(sign.role))];
    }
  }
  if (standing + broken == 0) return "no unit is signed";
  std::string words;
  for (const auto& [person, count] : people) words += (words.empty() ? "" : "; ") + person + ": " + std::to_string(count);
  if (broken > 0) words += (words.empty() ? "" : "; ") + std::to_string(broken) + " broken by a later change";
  return words;
}

std::string doubtWords(const verdict::FleetCounts& counts) {
  if (counts.pass == 0) return "";
  const double expected = counts.expectedNonConforming;
  const std::string number =
      expected < 0.05 ? "less than 0.1"
                      : "at least " + quantity::writeNumber(expected, {quantity::Dimension::number, "", "", 1, 0, 1});
  return number + " of the " + std::to_string(counts.pass) + " passed units expected not to conform, by their scores";
}

Table topIssues(const Subject& s) {
  Table table;
  table.caption = "Gravest open deficiencies";
  table.columns = {{"No.", 0.5, Align::right}, {"where", 2.2}, {"what is wrong", 4}, {"severity", 1}, {"who mends it", 1.8}, {"state", 1.5}};
  table.empty = "No deficiency is open.";
  const auto open = openDeficiencies(s.project);
  for (std::size_t i = 0; i < open.size() && i < kTopIssues; ++i) {
    table.rows.push_back({{std::to_string(open[i]->number), {}}, {placeOf(*open[i], s.project), {}}, {open[i]->title, {}},
                          {std::string(name(open[i]->severity)), {}}, {std::string(name(open[i]->party)), {}},
                          {std::string(name(open[i]->state())), {}}});
  }
  if (open.size() > kTopIssues) table.caption += " (" + std::to_string(kTopIssues) + " of " + std::to_string(open.size()) + ")";
  return table;
}

std::string buildingWords(const fleet::Snapshot& project) {
  std::string words;
  for (const auto& building : project.buildings) words += (words.empty() ? "" : ", ") + building.name;
  if (words.empty()) words = project.projectName;
  return words + ", elevation " + quantity::write(project.elevation.si(), quantity::Dimension::elevation, project.system);
}

Outcome markOf(Recommendation::Advice advice) {
  if (advice == Recommendation::Advice::accept) return Outcome::pass;
  return advice == Recommendation::Advice::doNotAccept ? Outcome::fail : Outcome::cannotTell;
}

Figures fleetFigures(const Subject& s) {
  Figures figures;
  figures.figures = {plot::resultFigure(s.project, s.verdicts, plot::GroupBy::floor),
                     plot::resultFigure(s.project, s.verdicts, plot::GroupBy::airHandler),
                     plot::scoreFigure(s.verdicts)};
  figures.shares = {1, 1, 1};
  const std::size_t groups = std::max(figures.figures[0].y.ticks.size(), figures.figures[1].y.ticks.size());
  figures.height = std::clamp(70.0 + 16.0 * static_cast<double>(groups), 150.0, 220.0);
  return figures;
}

}  // namespace

Section ownerSection(const Subject& s) {
  const Recommendation advice = recommend(s.project, s.verdicts);
  const verdict::FleetCounts& counts = s.verdicts.counts;
  Section section{"For the owner's representative", 0, {}};
  section.blocks = {
      Heading{s.options.title.empty() ? "Commissioning report: VAV terminal units" : s.options.title, Rank::title, {}, ""},
      Facts{{{"Building", buildingWords(s.project)},
             {"Prepared by", s.options.preparedBy.empty() ? "not named" : s.options.preparedBy},
             {"Date", fleet::Day::of(s.options.at).text()},
             {"Digest", s.options.digest.empty() ? "none" : s.options.digest}},
            1, true},
      Heading{std::string(name(advice.advice)), Rank::part, markOf(advice.advice), ""},
      Paragraph{advice.reason, Weight::strong},
      CountBar{{{Outcome::pass, counts.pass},
                {Outcome::cannotTell, counts.cannotTell},
                {Outcome::untested, counts.untested},
                {Outcome::fail, counts.fail}}},
      fleetFigures(s),
  };
  Facts facts{{{"Proven", sampleWords(counts)},
               {"Doubt", doubtWords(counts)},
               {"Safety", safetyWords(s)},
               {"Ventilation", ventilationWords(s)},
               {"Instruments", instrumentWords(s)},
               {"Decision rule", ruleWords(s.project.criteria)},
               {"Signed units", signatureWords(s)}},
              1, true};
  std::erase_if(facts.facts, [](const Facts::Fact& fact) { return fact.value.empty(); });
  section.blocks.push_back(facts);
  section.blocks.push_back(topIssues(s));
  section.blocks.push_back(SignatureLines{{"Commissioning agent", "Owner's representative"}});
  return section;
}

}  // namespace ductwright::report
