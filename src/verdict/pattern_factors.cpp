#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "metrology/distribution.h"
#include "metrology/uncertainty.h"
#include "pattern_search.h"
#include "review_rules.h"
#include "robust.h"

// A constant factor between reported and measured flow that the units of one instrument, inlet size or air
// handler share.
namespace ductwright::verdict {
namespace {

enum class Split : std::uint8_t { instrument, inletSize, airHandler };
constexpr std::size_t kSplits = 3;
constexpr std::size_t kMostPatterns = 12;

// A median absolute deviation tells as much as this share of the values' standard deviation would.
constexpr double kMadEfficiency = 0.37;
// What is believed of the scatter between units, and between two readings of one unit, before any was seen:
// common practice, no source. It counts as so many values.
constexpr double kUsualScatter = 0.03, kUsualRepeat = 0.02, kBelief = 4;
constexpr double kSameSide = 0.75;  // of a group's units lie on its side
constexpr std::size_t kFewestPairs = 3;

// One unit as one instrument saw it: ln(reported ÷ measured), the median over its steps.
struct Observation {
  std::uint32_t unit = 0;
  std::array<std::uint32_t, kSplits> group{};  // of each split
  double y = 0, flow = 0;
};

struct Group {
  Split split = Split::instrument;
  std::string name;
  std::size_t size = 0;
  double middle = 0;  // median of its observations
};

struct Difference {
  std::uint32_t group = 0;
  double y = 0, deviations = 0;
  bool paired = false;
};

class Factors {
 public:
  Factors(const PatternSearch& search, const std::vector<bool>& starved) : m_search(search) {
    observe(starved);
    m_order.resize(m_seen.size());
    for (std::uint32_t i = 0; i < m_order.size(); ++i) m_order[i] = i;
    shareInstruments();
  }

  std::vector<Pattern> all() {
    std::vector<Pattern> out;
    while (out.size() < kMostPatterns) {
      const auto strongest = find();
      if (!strongest) break;
      out.push_back(pattern(*strongest));
      for (Observation& o : m_seen)
        if (belongs(o, strongest->group)) o.y -= strongest->y;
      m_told[strongest->group] = true;
    }
    return out;
  }

 private:
  static std::size_t at(Split s) { return static_cast<std::size_t>(s); }
  [[nodiscard]] bool belongs(const Observation& o, std::uint32_t group) const {
    return o.group[at(m_groups[group].split)] == group;
  }

  std::uint32_t groupNamed(Split split, const std::string& name) {
    const auto [it, isNew] =
        m_byName.emplace(std::pair{split, name}, static_cast<std::uint32_t>(m_groups.size()));
    if (isNew) m_groups.push_back({split, name, 0, 0});
    ++m_groups[it->second].size;
    return it->second;
  }

  // A unit that reported no flow counts with its design, unless it is starved.
  void observe(const std::vector<bool>& starved) {
    const auto& samples = m_search.samples;
    std::vector<std::pair<fleet::Word, std::vector<double>>> byInstrument;
    for (std::size_t from = 0, to = 0; from < samples.size(); from = to) {
      while (to < samples.size() && samples[to].unit == samples[from].unit) ++to;
      byInstrument.clear();
      double flow = 0;
      for (std::size_t i = from; i < to; ++i) {
        const FlowSample& s = samples[i];
        const double other = s.reported > 0 ? s.reported : starved[s.unit] ? 0 : s.design;
        if (other <= 0) continue;
        flow = std::max(flow, s.measured);
        auto it = std::find_if(byInstrument.begin(), byInstrument.end(),
                               [&](const auto& b) { return b.first == s.instrument; });
        if (it == byInstrument.end())
          it = byInstrument.emplace(byInstrument.end(), s.instrument, std::vector<double>{});
        it->second.push_back(std::log(other / s.measured));
      }
      for (auto& [instrument, ys] : byInstrument) add(samples[from].unit, instrument, medianOf(ys), flow);
    }
    m_told.resize(m_groups.size());
  }

  void add(std::uint32_t unit, fleet::Word instrument, double y, double flow) {
    const Unit& u = m_search.unit(unit);
    const std::string size =
        u.inletDiameter
            ? quantity::write(u.inletDiameter->si(), quantity::Dimension::length, m_search.project.system)
            : std::string();
    Observation o{unit, {}, y, flow};
    o.group[at(Split::instrument)] = groupNamed(Split::instrument, instrument.text());
    o.group[at(Split::inletSize)] = groupNamed(Split::inletSize, size);
    o.group[at(Split::airHandler)] = groupNamed(Split::airHandler, u.airHandler);
    if (m_instruments.size() < m_groups.size()) m_instruments.resize(m_groups.size());
    m_instruments[o.group[at(Split::instrument)]] = instrument;
    m_seen.push_back(o);
  }

  // How much of each group was seen with each instrument.
  void shareInstruments() {
    m_shares.resize(m_groups.size());
    for (const Observation& o : m_seen)
      for (const std::uint32_t g : o.group) m_shares[g][o.group[at(Split::instrument)]] += 1;
  }

  // The relative standard uncertainty of the difference between a group and the rest that the systematic
  // errors of their instruments leave: √Σ (share in the group − share in the rest)² u².
  [[nodiscard]] double instrumentDoubt(std::uint32_t group) const {
    const auto n = static_cast<double>(m_groups[group].size), rest = static_cast<double>(m_seen.size()) - n;
    double variance = 0;
    for (std::uint32_t i = 0; i < m_groups.size(); ++i) {
      if (m_groups[i].split != Split::instrument) continue;
      const auto it = m_shares[group].find(i);
      const double inside = it == m_shares[group].end() ? 0 : it->second;
      const double outside = static_cast<double>(m_groups[i].size) - inside;
      const double u = (inside / n - outside / rest) * relativeDoubt(i);
      variance += u * u;
    }
    return std::sqrt(variance);
  }

  [[nodiscard]] double relativeDoubt(std::uint32_t instrument) const {
    const auto known = m_doubts.find(instrument);
    if (known != m_doubts.end()) return known->second;
    std::vector<double> flows;
    for (const Observation& o : m_seen)
      if (belongs(o, instrument)) flows.push_back(o.flow);
    const double flow = medianOf(flows);
    const KnownInstrument* described = m_search.context.instrument(m_instruments[instrument]);
    constexpr auto q = fleet::ReadingQuantity::measuredFlow;
    const Worth& worth = described && described->worth[static_cast<std::size_t>(q)].known
                             ? described->worth[static_cast<std::size_t>(q)]
                             : m_search.context.unnamed(q);
    return m_doubts[instrument] = worth.share + (flow > 0 ? worth.plus / flow : 0);
  }

  // Standard deviation about the groups' own medians, and its degrees of freedom.
  struct Scatter {
    double s = 0, freedom = 0;
  };
  static Scatter believed(double mad, double freedom, double usual) {
    freedom = std::max(0.0, freedom) * kMadEfficiency;
    return {std::sqrt((freedom * mad * mad + kBelief * usual * usual) / (freedom + kBelief)),
            freedom + kBelief};
  }

  void sortObservations() {
    std::sort(m_order.begin(), m_order.end(), [&](auto a, auto b) { return m_seen[a].y < m_seen[b].y; });
    std::vector<std::size_t> passed(m_groups.size());
    for (const std::uint32_t i : m_order)
      for (const std::uint32_t g : m_seen[i].group)
        if (++passed[g] == (m_groups[g].size + 1) / 2) m_groups[g].middle = m_seen[i].y;
  }

  [[nodiscard]] Scatter scatterOf(Split split) const {
    std::vector<double> off;
    off.reserve(m_seen.size());
    std::size_t groups = 0;
    for (const Observation& o : m_seen) off.push_back(std::abs(o.y - m_groups[o.group[at(split)]].middle));
    for (const Group& g : m_groups) groups += g.split == split && g.size > 0 ? 1 : 0;
    const auto n = static_cast<double>(off.size()), k = static_cast<double>(groups);
    const double mad = kNormalMad * medianOf(off) * std::sqrt(n / std::max(1.0, n - k));
    return believed(mad, n - k, kUsualScatter);
  }

  // The median of all observations outside a group.
  [[nodiscard]] double restMiddle(std::uint32_t group) const {
    const std::size_t half = (m_seen.size() - m_groups[group].size + 1) / 2;
    std::size_t passed = 0;
    for (const std::uint32_t i : m_order)
      if (!belongs(m_seen[i], group) && ++passed == half) return m_seen[i].y;
    return 0;
  }

  [[nodiscard]] bool mostOnOneSide(std::uint32_t group, double from, double y) const {
    std::size_t same = 0;
    for (const Observation& o : m_seen)
      if (belongs(o, group) && (o.y - from) * y > 0) ++same;
    return static_cast<double>(same) >= kSameSide * static_cast<double>(m_groups[group].size);
  }

  // More than chance and what the instruments are allowed could give together.
  static bool beyondInstruments(double y, double error, double doubt) {
    return std::abs(y) >= kInstrumentCoverage * doubt + metrology::kCoverage * error;
  }

  // The deviations that chance does not reach, for a scatter of so many degrees of freedom.
  [[nodiscard]] double needed(double freedom) const {
    const double chance = kFalsePatterns / 2 / static_cast<double>(m_groups.size());
    return metrology::studentQuantile(1 - chance, freedom);
  }

  [[nodiscard]] std::optional<Difference> find() {
    if (m_seen.size() < 2 * kFewest) return std::nullopt;
    sortObservations();
    std::optional<Difference> best;
    const auto offer = [&](const std::optional<Difference>& d) {
      if (d && (!best || std::abs(d->deviations) > std::abs(best->deviations) * (1 + 1e-9))) best = d;
    };
    for (const Split split : {Split::instrument, Split::inletSize, Split::airHandler}) {
      const Scatter scatter = scatterOf(split);
      for (std::uint32_t g = 0; g < m_groups.size(); ++g) {
        if (m_groups[g].split != split || m_told[g] || m_groups[g].name.empty()) continue;
        offer(against(g, scatter));
        if (split == Split::instrument) offer(inPairs(g));
      }
    }
    return best;
  }

  // A group against the rest.
  [[nodiscard]] std::optional<Difference> against(std::uint32_t group, const Scatter& scatter) const {
    const std::size_t n = m_groups[group].size, rest = m_seen.size() - n;
    if (n < kFewest || rest < kFewest) return std::nullopt;
    const double outside = restMiddle(group), y = m_groups[group].middle - outside;
    if (std::abs(y) < std::log(kLeastFactor) || std::abs(m_groups[group].middle) < std::abs(outside))
      return std::nullopt;
    const double error =
        kMedianSpread * scatter.s * std::sqrt(1.0 / static_cast<double>(n) + 1.0 / static_cast<double>(rest));
    const Difference out{group, y, y / error, false};
    if (std::abs(out.deviations) < needed(scatter.freedom) || !mostOnOneSide(group, outside, y))
      return std::nullopt;
    return beyondInstruments(y, error, instrumentDoubt(group)) ? std::optional(out) : std::nullopt;
  }

  // An instrument against the others at the units that both saw: what differs between units drops out.
  [[nodiscard]] std::optional<Difference> inPairs(std::uint32_t group) const {
    std::vector<double> apart;
    double others = 0;
    for (std::size_t from = 0, to = 0; from < m_seen.size(); from = to) {
      const Observation* mine = nullptr;
      std::vector<double> theirs;
      for (; to < m_seen.size() && m_seen[to].unit == m_seen[from].unit; ++to) {
        if (belongs(m_seen[to], group)) {
          mine = &m_seen[to];
        } else {
          theirs.push_back(m_seen[to].y);
          others = std::max(others, relativeDoubt(m_seen[to].group[at(Split::instrument)]));
        }
      }
      if (mine && !theirs.empty()) apart.push_back(mine->y - medianOf(theirs));
    }
    if (apart.size() < kFewestPairs) return std::nullopt;
    const double y = median(apart);
    const auto n = static_cast<double>(apart.size());
    const Scatter scatter = believed(robustDeviation(apart, y) * std::sqrt(n / (n - 1)), n - 1, kUsualRepeat);
    const double error = kMedianSpread * scatter.s / std::sqrt(n);
    const Difference out{group, y, y / error, true};
    const double outside =
        restMiddle(group);  // which of the two is wrong: the one that is further from the reported flows
    const bool told = std::abs(y) >= std::log(kLeastFactor) &&
                      std::abs(out.deviations) >= needed(scatter.freedom) &&
                      beyondInstruments(y, error, std::hypot(relativeDoubt(group), others)) &&
                      std::abs(outside + y) >= std::abs(outside);
    return told ? std::optional(out) : std::nullopt;
  }

  [[nodiscard]] std::string alsoAll(std::uint32_t group) const {
    std::vector<std::string> same;
    for (std::uint32_t g = 0; g < m_groups.size(); ++g) {
      if (g == group || m_groups[g].size != m_groups[group].size || m_groups[g].name.empty()) continue;
      const bool equal = std::all_of(m_seen.begin(), m_seen.end(), [&](const Observation& o) {
        return belongs(o, g) == belongs(o, group);
      });
      if (equal) same.push_back(called(g));
    }
    return same.empty() ? "" : " The same units are all of " + joined(same) + ": one of them is the cause.";
  }

  [[nodiscard]] std::string called(std::uint32_t group) const {
    switch (m_groups[group].split) {
      case Split::instrument:
        return "instrument " + m_groups[group].name;
      case Split::inletSize:
        return "the " + m_groups[group].name + " inlets";
      case Split::airHandler:
        break;
    }
    return "air handler " + m_groups[group].name;
  }

  [[nodiscard]] Pattern pattern(const Difference& d) const {
    const Group& group = m_groups[d.group];
    std::vector<std::uint32_t> units;
    for (const Observation& o : m_seen)
      if (belongs(o, d.group) && (units.empty() || units.back() != o.unit)) units.push_back(o.unit);
    const bool instrument = group.split == Split::instrument;
    Pattern out{.kind = instrument                        ? PatternKind::instrumentDisagrees
                        : group.split == Split::inletSize ? PatternKind::inletSizeFactor
                                                          : PatternKind::airHandlerFactor,
                .subject = group.name,
                .units = idsOf(m_search, units),
                .factor = std::exp(instrument ? -d.y : d.y),
                .strength = std::abs(d.deviations),
                .sentence = {},
                .party = instrument ? fleet::Party::balancer : fleet::Party::controlsContractor};
    const std::string times = plain(out.factor, 2) + " times ";
    out.sentence = instrument
                       ? "Instrument " + group.name + " reads " + times + "what the other instruments read" +
                             (d.paired ? " at the same units" : "") + " (" + counted(units.size(), "unit") +
                             "). Compare it with another before its readings are used."
                       : "At " + called(d.group) + " the controllers report " + times +
                             "the flow of the others, " + counted(units.size(), "unit") +
                             ". One coefficient is wrong for all of them.";
    out.sentence += alsoAll(d.group);
    return out;
  }

  const PatternSearch& m_search;
  std::vector<Observation> m_seen;
  std::vector<std::uint32_t> m_order;  // of m_seen, by y
  std::vector<Group> m_groups;
  std::vector<bool> m_told;
  std::vector<fleet::Word> m_instruments;                 // by group
  std::vector<std::map<std::uint32_t, double>> m_shares;  // by group: observations by instrument
  mutable std::map<std::uint32_t, double> m_doubts;
  std::map<std::pair<Split, std::string>, std::uint32_t> m_byName;
};

}  // namespace

std::vector<Pattern> constantFactors(const PatternSearch& search, const std::vector<bool>& starved) {
  return Factors(search, starved).all();
}

}  // namespace ductwright::verdict
