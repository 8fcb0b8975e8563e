#include <memory>

#include "report/commissioning.h"

namespace ductwright::report {
namespace {

std::string titleOf(ReportKind kind, const ReportOptions& options) {
  if (!options.title.empty()) return options.title;
  switch (kind) {
    case ReportKind::commissioning: return "Commissioning report: VAV terminal units";
    case ReportKind::unit: return "Terminal unit " + options.unit;
    case ReportKind::deficiencies: return "Deficiencies";
    case ReportKind::turnover: return "Turnover: as-left setpoints and coefficients";
  }
  return "";
}

void addUnits(Document& document, const Subject& subject) {
  document.sections.emplace_back([] { return Section{"Units", 0, {}}; });
  for (std::size_t i = 0; i < subject.project.units.size(); ++i)
    document.sections.emplace_back([&subject, i] { return unitSection(subject, i); });
}

}  // namespace

Document documentOf(ReportKind kind, const Subject& subject) {
  const ReportOptions& options = subject.options;
  Document document{titleOf(kind, options), subject.project.projectName, fleet::Day::of(options.at).text(), options.digest, {}};
  // Asked for twice, to count pages and to print them; the search for patterns and the desk review are long.
  const auto add = [&](Section (*make)(const Subject&)) {
    document.sections.emplace_back([&subject, make, kept = std::make_shared<std::optional<Section>>()] {
      if (!*kept) *kept = make(subject);
      return **kept;
    });
  };
  switch (kind) {
    case ReportKind::commissioning:
      add(ownerSection);
      add(fleetSection);
      add(exceptionSection);
      addUnits(document, subject);
      add(deficiencySection);
      add(instrumentSection);
      add(signatureSection);
      add(reviewSection);
      add(methodSection);
      break;
    case ReportKind::unit:
      for (std::size_t i = 0; i < subject.project.units.size(); ++i) {
        if (subject.project.units[i]->unit.tag != options.unit) continue;
        document.sections.emplace_back([&subject, i] { return unitSection(subject, i); });
      }
      break;
    case ReportKind::deficiencies: add(deficiencySection); break;
    case ReportKind::turnover:
      add(turnoverSection);
      add(instrumentSection);
      break;
  }
  return document;
}

}  // namespace ductwright::report
