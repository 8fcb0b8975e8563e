#include <algorithm>
#include <cmath>

#include "factor_groups.h"
#include "metrology/distribution.h"
#include "metrology/uncertainty.h"
#include "review_rules.h"
#include "robust.h"

// A constant factor between reported and measured flow that the units of one instrument, inlet size or air
// handler share. The strongest is told and taken away, then the next is looked for.
namespace ductwright::verdict {
namespace {

constexpr std::size_t kMostPatterns = 12;

// A median absolute deviation tells as much as this share of the values' standard deviation would.
constexpr double kMadEfficiency = 0.37;
// What is believed of the scatter between units, and between two readings of one unit, before any was seen:
// common practice, no source. It counts as so many values.
constexpr double kUsualScatter = 0.03, kUsualRepeat = 0.02, kBelief = 4;
constexpr double kSameSide = 0.75;  // of a group's units lie on its side
constexpr std::size_t kFewestPairs = 3;

// A standard deviation and its degrees of freedom.
struct Scatter {
  double s = 0, freedom = 0;
};

Scatter believed(double robust, double freedom, double usual) {
  freedom = std::max(0.0, freedom) * kMadEfficiency;
  return {std::sqrt((freedom * robust * robust + kBelief * usual * usual) / (freedom + kBelief)),
          freedom + kBelief};
}

// How far a group is from the rest, as a logarithm, and what chance would give.
struct Difference {
  std::uint32_t group = 0;
  double y = 0, error = 0;
  bool paired = false;
  [[nodiscard]] double deviations() const { return std::abs(y) / error; }
};

class Factors {
 public:
  Factors(const PatternSearch& search, const std::vector<bool>& starved)
      : m_search(search), m_groups(search, starved), m_told(m_groups.groups().size()) {}

  std::vector<Pattern> all() {
    std::vector<Pattern> out;
    while (out.size() < kMostPatterns) {
      const auto strongest = find();
      if (!strongest) break;
      out.push_back(pattern(*strongest));
      m_told[strongest->group] = true;
      m_groups.take(strongest->group, strongest->y);
      m_groups.sort();
    }
    return out;
  }

 private:
  [[nodiscard]] const FactorGroup& at(std::uint32_t group) const { return m_groups.groups()[group]; }
  [[nodiscard]] const std::vector<Observation>& seen() const { return m_groups.seen(); }

  [[nodiscard]] std::optional<Difference> find() const {
    if (seen().size() < 2 * kFewest) return std::nullopt;
    std::optional<Difference> best;
    const auto offer = [&](const std::optional<Difference>& d) {
      if (d && (!best || d->deviations() > best->deviations() * (1 + 1e-9))) best = d;
    };
    for (const Split split : {Split::instrument, Split::inletSize, Split::airHandler}) {
      const Scatter scatter = scatterOf(split);
      for (std::uint32_t g = 0; g < m_told.size(); ++g) {
        if (at(g).split != split || m_told[g] || at(g).name.empty()) continue;
        offer(against(g, scatter));
        if (split == Split::instrument) offer(inPairs(g));
      }
    }
    return best;
  }

  // Between units, about their groups' own medians.
  [[nodiscard]] Scatter scatterOf(Split split) const {
    const auto n = static_cast<double>(seen().size()), k = static_cast<double>(m_groups.countOf(split));
    const double robust = kNormalMad * m_groups.medianDistance(split) * std::sqrt(n / std::max(1.0, n - k));
    return believed(robust, n - k, kUsualScatter);
  }

  // A group against the rest.
  [[nodiscard]] std::optional<Difference> against(std::uint32_t group, const Scatter& scatter) const {
    const std::size_t n = at(group).size, rest = seen().size() - n;
    if (n < kFewest || rest < kFewest) return std::nullopt;
    const double outside = m_groups.restMiddle(group), y = at(group).middle - outside;
    if (std::abs(at(group).middle) < std::abs(outside)) return std::nullopt;  // the rest is what is off
    const double error =
        kMedianSpread * scatter.s * std::sqrt(1.0 / static_cast<double>(n) + 1.0 / static_cast<double>(rest));
    const Difference out{group, y, error, false};
    if (!significant(out, scatter.freedom) || !mostOnOneSide(group, outside, y)) return std::nullopt;
    return beyondInstruments(out, m_groups.instrumentDoubt(group)) ? std::optional(out) : std::nullopt;
  }

  // What an instrument read at the units that others read too, less what they read: what differs between
  // units drops out.
  struct Pairs {
    std::vector<double> apart;
    double othersDoubt = 0;  // the largest
  };
  [[nodiscard]] Pairs pairsOf(std::uint32_t instrument) const {
    Pairs out;
    for (std::size_t from = 0, to = 0; from < seen().size(); from = to) {
      const Observation* mine = nullptr;
      std::vector<double> theirs;
      for (; to < seen().size() && seen()[to].unit == seen()[from].unit; ++to) {
        const Observation& o = seen()[to];
        if (m_groups.belongs(o, instrument)) {
          mine = &o;
        } else {
          theirs.push_back(o.y);
        }
      }
      if (!mine || theirs.empty()) continue;
      out.apart.push_back(mine->y - medianOf(theirs));
      for (std::size_t i = from; i < to; ++i)
        if (&seen()[i] != mine)
          out.othersDoubt =
              std::max(out.othersDoubt, m_groups.relativeDoubt(m_groups.instrumentOf(seen()[i])));
    }
    return out;
  }

  [[nodiscard]] std::optional<Difference> inPairs(std::uint32_t instrument) const {
    const Pairs pairs = pairsOf(instrument);
    if (pairs.apart.size() < kFewestPairs) return std::nullopt;
    const double y = median(pairs.apart);
    const auto n = static_cast<double>(pairs.apart.size());
    const Scatter scatter =
        believed(robustDeviation(pairs.apart, y) * std::sqrt(n / (n - 1)), n - 1, kUsualRepeat);
    const Difference out{instrument, y, kMedianSpread * scatter.s / std::sqrt(n), true};
    const double outside = m_groups.restMiddle(instrument);
    if (std::abs(outside + y) < std::abs(outside)) return std::nullopt;  // the others are what is off
    const double doubt = std::hypot(m_groups.relativeDoubt(instrument), pairs.othersDoubt);
    return significant(out, scatter.freedom) && beyondInstruments(out, doubt) ? std::optional(out)
                                                                              : std::nullopt;
  }

  // Neither small nor what chance would give in one of a thousand searches.
  [[nodiscard]] bool significant(const Difference& d, double freedom) const {
    const double chance = kFalsePatterns / 2 / static_cast<double>(m_told.size());
    return std::abs(d.y) >= std::log(kLeastFactor) &&
           d.deviations() >= metrology::studentQuantile(1 - chance, freedom);
  }

  // More than chance and what the instruments are allowed could give together.
  static bool beyondInstruments(const Difference& d, double doubt) {
    return std::abs(d.y) >= kInstrumentCoverage * doubt + metrology::kCoverage * d.error;
  }

  [[nodiscard]] bool mostOnOneSide(std::uint32_t group, double from, double y) const {
    const auto same = std::count_if(seen().begin(), seen().end(), [&](const Observation& o) {
      return m_groups.belongs(o, group) && (o.y - from) * y > 0;
    });
    return static_cast<double>(same) >= kSameSide * static_cast<double>(at(group).size);
  }

  // Where other groups have the same members, the readings cannot tell which is the cause.
  [[nodiscard]] std::string alsoAllOf(std::uint32_t group) const {
    std::vector<std::string> same;
    for (std::uint32_t g = 0; g < m_told.size(); ++g) {
      if (g == group || at(g).size != at(group).size || at(g).name.empty()) continue;
      if (std::all_of(seen().begin(), seen().end(), [&](const Observation& o) {
            return m_groups.belongs(o, g) == m_groups.belongs(o, group);
          }))
        same.push_back(called(g));
    }
    return same.empty() ? ""
                        : " The same units are all those of " + joined(same) + ": either may be the cause.";
  }

  [[nodiscard]] std::string called(std::uint32_t group) const {
    switch (at(group).split) {
      case Split::instrument:
        return "instrument " + at(group).name;
      case Split::inletSize:
        return "the " + at(group).name + " inlets";
      case Split::airHandler:
        break;
    }
    return "air handler " + at(group).name;
  }

  [[nodiscard]] Pattern pattern(const Difference& d) const {
    const FactorGroup& group = at(d.group);
    std::vector<std::uint32_t> units;
    for (const Observation& o : seen())
      if (m_groups.belongs(o, d.group) && (units.empty() || units.back() != o.unit)) units.push_back(o.unit);
    const bool instrument = group.split == Split::instrument;
    const double factor = std::exp(instrument ? -d.y : d.y);
    const std::string times = plain(factor, 2) + " times ", many = counted(units.size(), "unit");
    Pattern out;
    out.kind = instrument                        ? PatternKind::instrumentDisagrees
               : group.split == Split::inletSize ? PatternKind::inletSizeFactor
                                                 : PatternKind::airHandlerFactor;
    out.subject = group.name;
    out.units = idsOf(m_search, units);
    out.factor = factor;
    out.strength = d.deviations();
    out.party = instrument ? fleet::Party::balancer : fleet::Party::controlsContractor;
    if (instrument) {
      out.sentence = "Instrument " + group.name + " reads " + times + "what the other instruments read" +
                     (d.paired ? " at the same units" : "") + " (" + many +
                     "). Compare it with another before its readings are used.";
    } else {
      out.sentence = "At " + called(d.group) + " the controllers report " + times +
                     "the flow of the others, " + many + ". One coefficient is wrong for all of them.";
    }
    out.sentence += alsoAllOf(d.group);
    return out;
  }

  const PatternSearch& m_search;
  FactorGroups m_groups;
  std::vector<bool> m_told;  // by group
};

}  // namespace

std::vector<Pattern> constantFactors(const PatternSearch& search, const std::vector<bool>& starved) {
  return Factors(search, starved).all();
}

}  // namespace ductwright::verdict
