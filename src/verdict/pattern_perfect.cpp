#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>

#include "pattern_search.h"
#include "review_rules.h"

// Readings that equal their design to the last digit too often to have been read.
namespace ductwright::verdict {
namespace {

// Measured flows scatter about design by at least this share: common practice, no source.
constexpr double kLeastScatter = 0.02;
constexpr std::size_t kFewestEqual = 8;
constexpr double kLeastShare = 0.5;

struct Reader {
  std::vector<const FlowSample*> samples;
  std::size_t equal = 0;
};

bool equalsDesign(const FlowSample& s) {
  return std::abs(s.measured - s.design) <= 1e-6 * s.design;
}

// The step in which a reader writes flows down: 10, 5, 2 or 1 in the last digit of the project's unit, by
// what nine readings in ten are multiples of.
double stepOf(const Reader& reader, const quantity::Unit& unit) {
  const double digit = std::pow(10.0, -unit.decimals) * unit.factor;
  for (const double step : {10.0, 5.0, 2.0}) {
    const auto multiples =
        std::count_if(reader.samples.begin(), reader.samples.end(), [&](const FlowSample* s) {
          const double n = s->measured / (digit * step);
          return std::abs(n - std::round(n)) < 1e-3;
        });
    if (static_cast<double>(multiples) >= 0.9 * static_cast<double>(reader.samples.size()))
      return step * digit;
  }
  return digit;
}

// The mean chance that an honest reading falls on its design's own step.
double chanceOfEqual(const Reader& reader, const quantity::Unit& unit) {
  const double step = stepOf(reader, unit);
  double sum = 0;
  for (const FlowSample* s : reader.samples)
    sum += std::erf(step / 2 / (kLeastScatter * s->design) / std::numbers::sqrt2);
  return sum / static_cast<double>(reader.samples.size());
}

std::vector<std::uint32_t> unitsOf(const Reader& reader) {
  std::vector<std::uint32_t> out;
  for (const FlowSample* s : reader.samples)
    if (equalsDesign(*s) && (out.empty() || out.back() != s->unit)) out.push_back(s->unit);
  return out;
}

}  // namespace

std::vector<Pattern> tooPerfectReadings(const PatternSearch& search) {
  std::map<std::string, Reader> readers;
  for (const FlowSample& s : search.samples) {
    if (s.design <= 0) continue;
    const std::string& by = s.reading->takenBy.text();
    const std::string& serial = s.instrument.text();
    Reader& reader = readers[!by.empty() ? by : !serial.empty() ? "instrument " + serial : "nobody named"];
    reader.samples.push_back(&s);
    reader.equal += equalsDesign(s) ? 1 : 0;
  }
  const quantity::Unit& unit = quantity::unitFor(quantity::Dimension::airflow, search.project.system);
  std::vector<Pattern> out;
  for (const auto& [name, reader] : readers) {
    if (reader.equal < kFewestEqual ||
        static_cast<double>(reader.equal) < kLeastShare * static_cast<double>(reader.samples.size()))
      continue;
    const double chance = chanceOfAtLeast(reader.equal, reader.samples.size(), chanceOfEqual(reader, unit));
    if (chance > kFalsePatterns / static_cast<double>(readers.size())) continue;
    const auto units = unitsOf(reader);
    out.push_back({.kind = PatternKind::tooPerfect,
                   .subject = name,
                   .units = idsOf(search, units),
                   .factor = 1,
                   .strength = deviationsOf(chance),
                   .sentence = std::to_string(reader.equal) + " of " +
                               counted(reader.samples.size(), "measured flow") + " taken by " + name +
                               " equal their design to the last digit (" + someTags(search, units) +
                               "). Ask how they were taken and witness some again.",
                   .party = fleet::Party::balancer});
  }
  return out;
}

}  // namespace ductwright::verdict
