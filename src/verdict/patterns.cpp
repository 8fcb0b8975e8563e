#include "verdict/patterns.h"

#include <algorithm>
#include <cmath>

#include "metrology/distribution.h"
#include "pattern_search.h"

namespace ductwright::verdict {

std::vector<Pattern> patterns(const Snapshot& project, const FleetVerdict& verdicts) {
  if (verdicts.units.size() != project.units.size()) return {};
  const JudgingContext context(project);
  const std::vector<FlowSample> samples = flowSamples(project, context);
  const PatternSearch search{project, context, verdicts, samples};
  std::vector<Pattern> out = exchangedUnits(search);
  const auto add = [&](std::vector<Pattern> more) {
    out.insert(out.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
  };
  std::vector<bool> starved(project.units.size());
  add(starvedAirHandlers(search, starved));
  add(constantFactors(search, starved));
  add(tooPerfectReadings(search));
  return out;
}

std::string someTags(const PatternSearch& search, const std::vector<std::uint32_t>& units) {
  constexpr std::size_t kShown = 4;
  std::string out;
  const std::size_t shown = units.size() <= kShown + 1 ? units.size() : kShown;
  for (std::size_t i = 0; i < shown; ++i) {
    if (i > 0) out += i + 1 == units.size() ? " and " : ", ";
    out += search.unit(units[i]).tag;
  }
  if (shown < units.size()) out += " and " + std::to_string(units.size() - shown) + " more";
  return out;
}

std::vector<UnitId> idsOf(const PatternSearch& search, const std::vector<std::uint32_t>& units) {
  std::vector<UnitId> out;
  out.reserve(units.size());
  for (const std::uint32_t at : units) out.push_back(search.unit(at).id);
  return out;
}

double deviationsOf(double chance) {
  return -metrology::normalQuantile(std::clamp(chance, 1e-300, 0.5));
}

double chanceOfAtLeast(std::size_t hits, std::size_t tries, double p) {
  if (hits == 0) return 1;
  if (p <= 0) return 0;
  if (p >= 1) return 1;
  const auto n = static_cast<double>(tries);
  double sum = 0;
  for (std::size_t k = hits; k <= tries; ++k) {
    const auto x = static_cast<double>(k);
    sum += std::exp(std::lgamma(n + 1) - std::lgamma(x + 1) - std::lgamma(n - x + 1) + x * std::log(p) +
                    (n - x) * std::log1p(-p));
  }
  return std::min(1.0, sum);
}

}  // namespace ductwright::verdict
