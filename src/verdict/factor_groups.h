#pragma once

#include <array>
#include <map>
#include <string>
#include <vector>

#include "pattern_search.h"

// The fleet's ratios of reported to measured flow, and the ways in which units may have a factor in common.
namespace ductwright::verdict {

enum class Split : std::uint8_t { instrument, inletSize, airHandler };
inline constexpr std::size_t kSplits = 3;

// One unit as one instrument saw it: ln(reported ÷ measured), the median over its steps.
struct Observation {
  std::uint32_t unit = 0;
  std::array<std::uint32_t, kSplits> group{};  // of each split
  double y = 0, flow = 0;                      // flow: the greatest that was measured
};

struct FactorGroup {
  Split split = Split::instrument;
  std::string name;  // empty: no instrument named, no size given
  std::size_t size = 0;
  double middle = 0;  // median of its observations, after `sort`
};

class FactorGroups {
 public:
  // A unit that reported no flow counts with its design, unless it is starved.
  FactorGroups(const PatternSearch& search, const std::vector<bool>& starved);

  [[nodiscard]] const std::vector<Observation>& seen() const { return m_seen; }  // a unit's stand together
  [[nodiscard]] const std::vector<FactorGroup>& groups() const { return m_groups; }
  [[nodiscard]] bool belongs(const Observation& o, std::uint32_t group) const {
    return o.group[static_cast<std::size_t>(m_groups[group].split)] == group;
  }
  [[nodiscard]] std::uint32_t instrumentOf(const Observation& o) const {
    return o.group[static_cast<std::size_t>(Split::instrument)];
  }

  // Puts the observations in order and finds each group's median; needed after construction and `take`.
  void sort();
  // Takes a factor that was told away from its group.
  void take(std::uint32_t group, double y);

  // The median of all observations outside a group.
  [[nodiscard]] double restMiddle(std::uint32_t group) const;
  // The median distance of observations from the median of their group of a split, and how many groups there
  // are.
  [[nodiscard]] double medianDistance(Split) const;
  [[nodiscard]] std::size_t countOf(Split) const;

  // The relative standard uncertainty of an instrument's flows.
  [[nodiscard]] double relativeDoubt(std::uint32_t instrument) const { return m_doubts[instrument]; }
  // That of the difference between a group and the rest, which the systematic errors of the instruments
  // leave: √Σ (share in the group − share in the rest)² u².
  [[nodiscard]] double instrumentDoubt(std::uint32_t group) const;

 private:
  std::uint32_t groupNamed(Split split, const std::string& name);
  void add(std::uint32_t unit, fleet::Word instrument, double y, double flow);
  void observe(const std::vector<bool>& starved);
  void doubtInstruments();

  const PatternSearch& m_search;
  std::vector<Observation> m_seen;
  std::vector<std::uint32_t> m_order;  // of m_seen, by y
  std::vector<FactorGroup> m_groups;
  std::vector<fleet::Word> m_instruments;                 // by group
  std::vector<std::map<std::uint32_t, double>> m_shares;  // by group: observations by instrument
  std::vector<double> m_doubts;                           // by group, of instruments
  std::map<std::pair<Split, std::string>, std::uint32_t> m_byName;
};

}  // namespace ductwright::verdict
