#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "fleet/record.h"
#include "verdict/verdict.h"

// An invented building: its design, what really hangs above the ceilings, and what two agents read there.
namespace ductwright::sample {

struct Options {
  int units = 90;
  int days = 6;        // of the visit; the agents are as many as it takes, two at least
  bool faults = true;  // plant faults in the building and in its schedule
};

// What a planted fault must come to.
struct Planted {
  std::string unit;
  std::string fault;
  verdict::Criterion criterion;
  verdict::Outcome expected;
  std::string because;  // as the interchange writes it; empty: any
  std::string shows;    // how a person sees it
};

// A fault of the schedule that the desk review must find.
struct PlantedFinding {
  std::string unit;
  std::string fault;
  std::string rule;  // key of the desk review's rule
};

struct SampleBuilding {
  fleet::Snapshot project;
  std::vector<Planted> planted;
  std::vector<PlantedFinding> findings;

  [[nodiscard]] bool sound(const std::string& unit) const;  // nothing is planted there
};

// The same seed and options give the same building, to the last digit.
SampleBuilding makeBuilding(std::uint64_t seed, const Options& options = {});

}  // namespace ductwright::sample
