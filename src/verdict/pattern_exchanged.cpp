#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "airflow.h"
#include "pattern_search.h"
#include "review_rules.h"

// Units whose readings fit each other's designs: two exchanged, or a row of them shifted.
namespace ductwright::verdict {
namespace {

constexpr std::size_t kSteps = 7;         // inlet steps
constexpr std::size_t kLongestRow = 8;    // units in one cycle
constexpr double kFarOff = 1.5;           // tolerances from its own design
constexpr double kFalseExchanges = 0.05;  // expected by chance where one is told

// A unit's mean measured flows and its design, by step; 0 where there is none.
struct Profile {
  std::array<double, kSteps> measured{}, design{}, readings{};
};

// How far a unit's readings are from a design, in tolerances: the root mean square over its steps; nothing
// where the design has no such step.
std::optional<double> distance(const Profile& readings, const Profile& design, const Criteria& criteria) {
  double squares = 0;
  std::size_t n = 0;
  for (std::size_t s = 0; s < kSteps; ++s) {
    if (readings.measured[s] <= 0 || readings.design[s] <= 0) continue;
    if (design.design[s] <= 0) return std::nullopt;
    const metrology::Interval allowed = flowInterval(design.design[s], criteria);
    const double off = (readings.measured[s] - design.design[s]) / (allowed.high - allowed.low) * 2;
    squares += off * off;
    ++n;
  }
  return n == 0 ? std::nullopt : std::optional(std::sqrt(squares / static_cast<double>(n)));
}

bool fits(const std::optional<double>& distance) {
  return distance && *distance <= 1;
}

class Exchanges {
 public:
  explicit Exchanges(const PatternSearch& search)
      : m_search(search), m_profiles(search.project.units.size()) {
    for (std::size_t i = 0; i < m_profiles.size(); ++i)
      for (std::size_t s = 0; s < kSteps; ++s)
        m_profiles[i].design[s] =
            scheduledFlow(search.project.units[i]->unit, static_cast<fleet::AirflowStep>(s)).value_or(0);
    for (const FlowSample& sample : search.samples) {
      Profile& p = m_profiles[sample.unit];
      const auto step = static_cast<std::size_t>(sample.step);
      const double n = ++p.readings[step];
      p.measured[step] += (sample.measured - p.measured[step]) / n;
    }
  }

  std::vector<Pattern> all() {
    std::map<std::pair<std::string_view, std::string_view>, std::vector<std::uint32_t>> floors;
    for (std::uint32_t i = 0; i < m_profiles.size(); ++i)
      if (misfit(i)) floors[{m_search.unit(i).building, m_search.unit(i).floor}].push_back(i);
    std::vector<Pattern> out;
    for (const auto& [floor, misfits] : floors)
      if (misfits.size() >= 2) lookOn(misfits, out);
    return out;
  }

 private:
  [[nodiscard]] std::optional<double> between(std::uint32_t readings, std::uint32_t design) const {
    return distance(m_profiles[readings], m_profiles[design], m_search.project.criteria);
  }

  // A unit that failed on airflow and whose readings are far from its own design.
  [[nodiscard]] bool misfit(std::uint32_t i) const {
    if (m_search.verdicts.units[i]->of(Criterion::airflow).outcome != Outcome::fail) return false;
    const auto own = between(i, i);
    return own && *own >= kFarOff;
  }

  // Follows each misfit to the design that its readings fit best; a way that comes back is an exchange.
  void lookOn(const std::vector<std::uint32_t>& misfits, std::vector<Pattern>& out) const {
    std::map<std::uint32_t, std::uint32_t> next;
    for (const std::uint32_t a : misfits) {
      std::optional<double> best;
      for (const std::uint32_t b : misfits) {
        if (a == b) continue;
        const auto d = between(a, b);
        if (!fits(d) || (best && *d >= *best)) continue;
        best = d;
        next[a] = b;
      }
    }
    std::map<std::uint32_t, bool> seen;
    for (const auto& [start, unused] : next) {
      std::vector<std::uint32_t> way{start};
      while (way.size() <= kLongestRow && next.count(way.back()) && next.at(way.back()) != start &&
             !seen[way.back()])
        way.push_back(next.at(way.back()));
      const bool closed = way.size() >= 2 && way.size() <= kLongestRow && next.count(way.back()) &&
                          next.at(way.back()) == start && !seen[start];
      if (!closed) continue;
      for (const std::uint32_t at : way) seen[at] = true;
      if (const double chance = chanceOf(way, misfits.size()); chance <= kFalseExchanges)
        out.push_back(pattern(way, chance));
    }
  }

  // The exchanges that chance would give among so many misfits, by how common the fitting designs are.
  [[nodiscard]] double chanceOf(const std::vector<std::uint32_t>& way, std::size_t misfits) const {
    const auto m = static_cast<double>(misfits);
    const auto length = static_cast<double>(way.size());
    double ways = neighbours(way) ? m : std::pow(m, length) / length;
    for (const std::uint32_t a : way) {
      std::size_t fitting = 0, others = 0;
      for (std::uint32_t b = 0; b < m_profiles.size(); ++b) {
        if (b == a) continue;
        ++others;
        fitting += fits(between(a, b)) ? 1 : 0;
      }
      ways *= static_cast<double>(std::max<std::size_t>(fitting, 1)) /
              static_cast<double>(std::max<std::size_t>(others, 1));
    }
    return ways;
  }

  // The units stand next to each other in the schedule.
  [[nodiscard]] static bool neighbours(const std::vector<std::uint32_t>& way) {
    const auto [low, high] = std::minmax_element(way.begin(), way.end());
    return *high - *low < way.size();
  }

  [[nodiscard]] Pattern pattern(const std::vector<std::uint32_t>& way, double chance) const {
    std::vector<std::string> tags;
    for (const std::uint32_t at : way) tags.push_back(m_search.unit(at).tag);
    const std::string subject = joined(tags);
    std::string sentence = way.size() == 2
                               ? "The readings of " + subject + " fit each other's design: "
                               : "The readings of " + subject + " each fit the next one's design: ";
    for (std::size_t i = 0; i < way.size(); ++i) {
      const Profile& readings = m_profiles[way[i]];
      const auto s = static_cast<std::size_t>(
          std::max_element(readings.measured.begin(), readings.measured.end()) - readings.measured.begin());
      const auto text = [&](double si) {
        return quantity::write(si, quantity::Dimension::airflow, m_search.project.system);
      };
      sentence += (i > 0 ? "; " : "") + tags[i] + " read " + text(readings.measured[s]) + ", design " +
                  text(readings.design[s]);
    }
    sentence += ". Check addresses and labels before anything is adjusted.";
    return {.kind = PatternKind::unitsExchanged,
            .subject = subject,
            .units = idsOf(m_search, way),
            .factor = 1,
            .strength = deviationsOf(chance),
            .sentence = std::move(sentence),
            .party = fleet::Party::controlsContractor};
  }

  const PatternSearch& m_search;
  std::vector<Profile> m_profiles;
};

}  // namespace

std::vector<Pattern> exchangedUnits(const PatternSearch& search) {
  return Exchanges(search).all();
}

}  // namespace ductwright::verdict
