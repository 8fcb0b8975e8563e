#include "factor_groups.h"

#include <algorithm>
#include <cmath>

#include "robust.h"

namespace ductwright::verdict {
namespace {

constexpr std::size_t at(Split s) {
  return static_cast<std::size_t>(s);
}

}  // namespace

FactorGroups::FactorGroups(const PatternSearch& search, const std::vector<bool>& starved) : m_search(search) {
  observe(starved);
  m_order.resize(m_seen.size());
  for (std::uint32_t i = 0; i < m_order.size(); ++i) m_order[i] = i;
  doubtInstruments();
  sort();
}

std::uint32_t FactorGroups::groupNamed(Split split, const std::string& name) {
  const auto [it, isNew] =
      m_byName.emplace(std::pair{split, name}, static_cast<std::uint32_t>(m_groups.size()));
  if (isNew) m_groups.push_back({split, name, 0, 0});
  ++m_groups[it->second].size;
  return it->second;
}

void FactorGroups::add(std::uint32_t unit, fleet::Word instrument, double y, double flow) {
  const Unit& u = m_search.unit(unit);
  const std::string size =
      u.inletDiameter
          ? quantity::write(u.inletDiameter->si(), quantity::Dimension::length, m_search.project.system)
          : "";
  Observation o{unit, {}, y, flow};
  o.group[at(Split::instrument)] = groupNamed(Split::instrument, instrument.text());
  o.group[at(Split::inletSize)] = groupNamed(Split::inletSize, size);
  o.group[at(Split::airHandler)] = groupNamed(Split::airHandler, u.airHandler);
  m_instruments.resize(m_groups.size());
  m_instruments[instrumentOf(o)] = instrument;
  m_seen.push_back(o);
}

void FactorGroups::observe(const std::vector<bool>& starved) {
  const auto& samples = m_search.samples;
  std::vector<std::pair<fleet::Word, std::vector<double>>> byInstrument;
  for (std::size_t from = 0, to = 0; from < samples.size(); from = to) {
    byInstrument.clear();
    double flow = 0;
    for (; to < samples.size() && samples[to].unit == samples[from].unit; ++to) {
      const FlowSample& s = samples[to];
      const double other = s.reported > 0 ? s.reported : starved[s.unit] ? 0 : s.design;
      if (other <= 0) continue;
      flow = std::max(flow, s.measured);
      auto it = std::find_if(byInstrument.begin(), byInstrument.end(),
                             [&](const auto& b) { return b.first == s.instrument; });
      if (it == byInstrument.end()) it = byInstrument.insert(byInstrument.end(), {s.instrument, {}});
      it->second.push_back(std::log(other / s.measured));
    }
    for (auto& [instrument, ys] : byInstrument) add(samples[from].unit, instrument, medianOf(ys), flow);
  }
}

void FactorGroups::doubtInstruments() {
  m_shares.resize(m_groups.size());
  m_doubts.resize(m_groups.size());
  std::vector<std::vector<double>> flows(m_groups.size());
  for (const Observation& o : m_seen) {
    for (const std::uint32_t g : o.group) m_shares[g][instrumentOf(o)] += 1;
    flows[instrumentOf(o)].push_back(o.flow);
  }
  constexpr auto q = fleet::ReadingQuantity::measuredFlow;
  for (std::uint32_t g = 0; g < m_groups.size(); ++g) {
    if (m_groups[g].split != Split::instrument) continue;
    const KnownInstrument* described = m_search.context.instrument(m_instruments[g]);
    const bool known = described && described->worth[static_cast<std::size_t>(q)].known;
    const Worth& worth = known ? described->worth[static_cast<std::size_t>(q)] : m_search.context.unnamed(q);
    const double flow = medianOf(flows[g]);
    m_doubts[g] = worth.share + (flow > 0 ? worth.plus / flow : 0);
  }
}

double FactorGroups::instrumentDoubt(std::uint32_t group) const {
  const auto n = static_cast<double>(m_groups[group].size), rest = static_cast<double>(m_seen.size()) - n;
  double variance = 0;
  for (std::uint32_t i = 0; i < m_groups.size(); ++i) {
    if (m_groups[i].split != Split::instrument) continue;
    const auto it = m_shares[group].find(i);
    const double inside = it == m_shares[group].end() ? 0 : it->second;
    const double outside = static_cast<double>(m_groups[i].size) - inside;
    const double u = (inside / n - outside / rest) * m_doubts[i];
    variance += u * u;
  }
  return std::sqrt(variance);
}

void FactorGroups::sort() {
  std::sort(m_order.begin(), m_order.end(), [&](auto a, auto b) { return m_seen[a].y < m_seen[b].y; });
  std::vector<std::size_t> passed(m_groups.size());
  for (const std::uint32_t i : m_order)
    for (const std::uint32_t g : m_seen[i].group)
      if (++passed[g] == (m_groups[g].size + 1) / 2) m_groups[g].middle = m_seen[i].y;
}

void FactorGroups::take(std::uint32_t group, double y) {
  for (Observation& o : m_seen)
    if (belongs(o, group)) o.y -= y;
}

double FactorGroups::restMiddle(std::uint32_t group) const {
  const std::size_t half = (m_seen.size() - m_groups[group].size + 1) / 2;
  std::size_t passed = 0;
  for (const std::uint32_t i : m_order)
    if (!belongs(m_seen[i], group) && ++passed == half) return m_seen[i].y;
  return 0;
}

double FactorGroups::medianDistance(Split split) const {
  std::vector<double> off;
  off.reserve(m_seen.size());
  for (const Observation& o : m_seen) off.push_back(std::abs(o.y - m_groups[o.group[at(split)]].middle));
  return medianOf(off);
}

std::size_t FactorGroups::countOf(Split split) const {
  return static_cast<std::size_t>(std::count_if(m_groups.begin(), m_groups.end(),
                                                [&](const FactorGroup& g) { return g.split == split; }));
}

}  // namespace ductwright::verdict
