#include <map>

#include "report/commissioning.h"
#include "verdict/review.h"

namespace ductwright::report {

Section reviewSection(const Subject& s) {
  const std::vector<verdict::Finding> findings = verdict::deskReview(s.project);
  std::map<fleet::Severity, std::size_t> bySeverity;
  Table table;
  table.caption = "Findings";
  table.columns = {{"unit", 1}, {"severity", 0.8}, {"finding", 3.4}, {"evidence", 2.6}, {"who mends it", 1.4}};
  table.empty = "The schedule raises no finding.";
  for (const verdict::Finding& f : findings) {
    ++bySeverity[f.severity];
    table.rows.push_back({{f.unit, {}}, {std::string(name(f.severity)), {}}, {f.finding, {}}, {f.evidence, {}}, {std::string(name(f.party)), {}}});
  }
  std::string summary = std::to_string(findings.size()) + (findings.size() == 1 ? " finding" : " findings");
  for (const auto& [severity, count] : bySeverity) summary += ", " + std::to_string(count) + " " + std::string(name(severity));
  Section section{"Desk review of the schedule", 0, {}};
  section.blocks = {Heading{section.title, Rank::part, {}, summary}, std::move(table)};
  return section;
}

}  // namespace ductwright::report
