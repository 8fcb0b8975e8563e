#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

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

// ln of the factor by which a unit's flow is off: in a sound unit, and in one with trouble of its own. Common
// practice, no source.
constexpr double kSoundSpread = 0.05, kTroubledSpread = 0.25;
constexpr double kFavoured =
    3;  // ln of how much likelier an exchange has to be than troubles of their own, 20 to 1

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

// −2 ln of the likelihood that readings are a design times a factor whose logarithm has the standard
// deviation `spread`, each step scattered by a fifth of its tolerance.
double deviance(const Profile& readings, const Profile& design, const Criteria& criteria, double spread) {
  double weights = 0, first = 0, second = 0;
  for (std::size_t s = 0; s < kSteps; ++s) {
    if (readings.measured[s] <= 0 || design.design[s] <= 0) continue;
    const metrology::Interval allowed = flowInterval(design.design[s], criteria);
    const double sigma = (allowed.high - allowed.low) / 2 / 5 / design.design[s];
    const double off = std::log(readings.measured[s] / design.design[s]), weight = 1 / (sigma * sigma);
    weights += weight;
    first += weight * off;
    second += weight * off * off;
  }
  return second - first * first / (weights + 1 / (spread * spread)) + std::log1p(spread * spread * weights);
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

  struct Pair {
    double distance;
    std::uint32_t a, b;
  };

  // Pairs that fit each other, the closest first; then, among the rest, rows.
  void lookOn(std::vector<std::uint32_t> misfits, std::vector<Pattern>& out) const {
    const std::size_t all = misfits.size();
    std::vector<Pair> pairs;
    for (std::size_t i = 0; i < all; ++i)
      for (std::size_t j = i + 1; j < all; ++j) {
        const auto there = between(misfits[i], misfits[j]), back = between(misfits[j], misfits[i]);
        if (fits(there) && fits(back)) pairs.push_back({*there + *back, misfits[i], misfits[j]});
      }
    std::sort(pairs.begin(), pairs.end(), [](const Pair& x, const Pair& y) {
      return std::tie(x.distance, x.a, x.b) < std::tie(y.distance, y.a, y.b);
    });
    const auto left = [&](std::uint32_t at) {
      return std::find(misfits.begin(), misfits.end(), at) != misfits.end();
    };
    for (const Pair& p : pairs)
      if (left(p.a) && left(p.b) && tell({p.a, p.b}, all, out))
        std::erase_if(misfits, [&](std::uint32_t at) { return at == p.a || at == p.b; });
    lookForRows(misfits, all, out);
  }

  // Follows each misfit to the design that its readings fit best; a way that comes back is a row.
  void lookForRows(const std::vector<std::uint32_t>& misfits, std::size_t all,
                   std::vector<Pattern>& out) const {
    std::map<std::uint32_t, std::uint32_t> next;
    for (const std::uint32_t a : misfits) {
      std::optional<double> best;
      for (const std::uint32_t b : misfits) {
        const auto d = a == b ? std::nullopt : between(a, b);
        if (!fits(d) || (best && *d >= *best)) continue;
        best = d;
        next[a] = b;
      }
    }
    std::set<std::uint32_t> told;
    for (const auto& [start, second] : next) {
      std::vector<std::uint32_t> way{start};
      for (std::uint32_t at = second; at != start && way.size() <= kLongestRow && next.count(at) > 0;
           at = next.at(at))
        way.push_back(at);
      const bool comesBack = next.count(way.back()) > 0 && next.at(way.back()) == start;
      if (!comesBack || way.size() < 3 || way.size() > kLongestRow || told.count(start) > 0) continue;
      told.insert(way.begin(), way.end());
      tell(way, all, out);
    }
  }

  bool tell(const std::vector<std::uint32_t>& way, std::size_t misfits, std::vector<Pattern>& out) const {
    const double chance = chanceOf(way, misfits);
    if (chance > kFalseExchanges || favour(way) < kFavoured) return false;
    out.push_back(pattern(way, chance));
    return true;
  }

  // The exchanges that chance would give among so many misfits: the ways there are, times the share of
  // designs that fit each unit's readings at least as well as the next unit's does.
  [[nodiscard]] double chanceOf(const std::vector<std::uint32_t>& way, std::size_t misfits) const {
    const auto m = static_cast<double>(misfits);
    const auto length = static_cast<double>(way.size());
    double ways = neighbours(way) ? m : std::pow(m, length) / length;
    for (std::size_t i = 0; i < way.size(); ++i) {
      const std::uint32_t a = way[i], next = way[(i + 1) % way.size()];
      const auto told = between(a, next);
      std::size_t fitting = 0;
      for (std::uint32_t b = 0; b < m_profiles.size(); ++b) {
        const auto d = b == a ? std::nullopt : between(a, b);
        fitting += d && *d <= *told ? 1 : 0;  // the next unit itself, at least
      }
      ways *= static_cast<double>(fitting) / static_cast<double>(m_profiles.size() - 1);
    }
    return ways;
  }

  // ln of the likelihood of an exchange over that of each unit's own wrong factor.
  [[nodiscard]] double favour(const std::vector<std::uint32_t>& way) const {
    double out = 0;
    for (std::size_t i = 0; i < way.size(); ++i) {
      const Profile& readings = m_profiles[way[i]];
      const Profile& next = m_profiles[way[(i + 1) % way.size()]];
      out += deviance(readings, readings, m_search.project.criteria, kTroubledSpread) / 2 -
             deviance(readings, next, m_search.project.criteria, kSoundSpread) / 2;
    }
    return out;
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
