#pragma once

#include <optional>
#include <string>
#include <vector>

#include "flow_samples.h"
#include "verdict/patterns.h"

// What the searches for patterns share.
namespace ductwright::verdict {

// A false pattern in a thousand sound fleets, over everything that one search compares.
inline constexpr double kFalsePatterns = 1e-3;
// A factor nearer to 1 than half of the usual tolerance of a flow is not told.
inline constexpr double kLeastFactor = 1.05;
// Instruments explain a difference up to this many of their combined standard uncertainties (rectangular
// limits of two, added, are at 2.4).
inline constexpr double kInstrumentCoverage = 2.5;
// Fewer units than this have nothing in common.
inline constexpr std::size_t kFewest = 4;

struct PatternSearch {
  const Snapshot& project;
  const JudgingContext& context;
  const FleetVerdict& verdicts;
  const std::vector<FlowSample>& samples;

  [[nodiscard]] const Unit& unit(std::uint32_t at) const { return project.units[at]->unit; }
};

// "1-1, 1-2, 1-3 and 14 more".
std::string someTags(const PatternSearch&, const std::vector<std::uint32_t>& units);
std::vector<UnitId> idsOf(const PatternSearch&, const std::vector<std::uint32_t>& units);
// Standard deviations of a one-sided chance, at most 38 (below 1e-300).
double deviationsOf(double chance);
// The chance of at least `hits` in `tries`, each with chance p.
double chanceOfAtLeast(std::size_t hits, std::size_t tries, double p);

std::vector<Pattern> exchangedUnits(const PatternSearch&);
// `starved` receives the units of the air handlers found low.
std::vector<Pattern> starvedAirHandlers(const PatternSearch&, std::vector<bool>& starved);
// A constant factor by instrument, inlet size or air handler, the strongest first and then taken away.
std::vector<Pattern> constantFactors(const PatternSearch&, const std::vector<bool>& starved);
std::vector<Pattern> tooPerfectReadings(const PatternSearch&);

}  // namespace ductwright::verdict
