#include <cmath>

#include "metrology/sampling.h"
#include "open_deficiencies.h"
#include "report/commissioning.h"

namespace ductwright::report {
namespace {

constexpr double kConfidence = 0.95;

std::string counted(std::size_t count, const std::string& one, const std::string& many) {
  return std::to_string(count) + " " + (count == 1 ? one : many);
}

}  // namespace

std::string_view name(Recommendation::Advice advice) {
  switch (advice) {
    case Recommendation::Advice::accept: return "Accept";
    case Recommendation::Advice::acceptWithConditions: return "Accept with conditions";
    case Recommendation::Advice::doNotAccept: return "Do not accept";
  }
  return "Do not accept";
}

Recommendation recommend(const fleet::Snapshot& project, const verdict::FleetVerdict& verdicts) {
  using Advice = Recommendation::Advice;
  const auto open = openDeficiencies(project);
  std::size_t safety = 0;
  for (const auto* deficiency : open) safety += deficiency->severity == fleet::Severity::safety ? 1U : 0U;
  std::size_t unsafe = 0;
  for (const auto& unit : verdicts.units) unsafe += unit->safety ? 1U : 0U;
  const verdict::FleetCounts& counts = verdicts.counts;
  if (counts.units == 0) return {Advice::doNotAccept, "The schedule has no unit: nothing is proven."};
  if (safety > 0) {
    return {Advice::doNotAccept, counted(safety, "safety deficiency is open.", "safety deficiencies are open.")};
  }
  if (unsafe > 0) {
    return {Advice::doNotAccept,
            counted(unsafe, "unit was seen heating where it must not.", "units were seen heating where they must not.")};
  }
  if (counts.fail > 0) {
    return {Advice::doNotAccept,
            counted(counts.fail, "unit fails", "units fail") + " of " + std::to_string(counts.units) + "."};
  }
  const std::size_t judged = counts.pass + counts.cannotTell;
  if (judged == 0) return {Advice::doNotAccept, "No unit is tested: nothing is proven."};
  if (counts.untested > 0) {
    return {Advice::acceptWithConditions, "No unit fails, but " + counted(counts.untested, "is untested", "are untested") +
                                              " of " + std::to_string(counts.units) + "."};
  }
  if (counts.cannotTell > 0) {
    return {Advice::acceptWithConditions,
            "No unit fails, but the readings cannot tell at " + counted(counts.cannotTell, "unit.", "units.")};
  }
  if (!open.empty()) {
    return {Advice::acceptWithConditions,
            "Every unit passes; " + counted(open.size(), "deficiency is open.", "deficiencies are open.")};
  }
  return {Advice::accept, "Every unit passes and nothing is open."};
}

std::string sampleWords(const verdict::FleetCounts& counts) {
  const std::size_t tested = counts.pass + counts.fail + counts.cannotTell;
  std::string words = std::to_string(tested) + " of " + counted(counts.units, "unit", "units") + " tested, " +
                      std::to_string(counts.fail) + " failed";
  if (tested == 0 || counts.units == 0) return words + ": nothing is proven of the fleet.";
  if (tested == counts.units) return words + ": the whole fleet was tested, no sampling doubt remains.";
  const int most = metrology::mostBad(static_cast<int>(counts.units), static_cast<int>(tested),
                                      static_cast<int>(counts.fail), kConfidence);
  return words + ": with 95 % confidence at most " + std::to_string(most) + " of the " + std::to_string(counts.units) +
         " units (" + std::to_string(static_cast<int>(std::ceil(100.0 * most / static_cast<double>(counts.units)))) +
         " %) fail, if the tested ones were drawn at random.";
}

}  // namespace ductwright::report
