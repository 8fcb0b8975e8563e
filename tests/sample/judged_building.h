#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "sample/sample_building.h"
#include "verdict/judge.h"

namespace ductwright::sample {

inline constexpr std::uint64_t kSeeds = 100;

struct JudgedBuilding {
  std::uint64_t seed;
  SampleBuilding building;
  verdict::FleetVerdict verdicts;

  [[nodiscard]] const verdict::UnitVerdict& of(const std::string& tag) const {
    std::size_t i = 0;
    while (building.project.units.at(i)->unit.tag != tag) ++i;
    return *verdicts.units[i];
  }
};

inline std::vector<JudgedBuilding> judgedBuildings(bool faults) {
  std::vector<JudgedBuilding> out;
  for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
    SampleBuilding building = makeBuilding(seed, {.faults = faults});
    verdict::FleetVerdict verdicts = verdict::judgeFleet(building.project);
    out.push_back({seed, std::move(building), std::move(verdicts)});
  }
  return out;
}

// A hundred buildings with what is planted in them, and a hundred without a fault.
inline const std::vector<JudgedBuilding>& faultyBuildings() {
  static const auto buildings = judgedBuildings(true);
  return buildings;
}
inline const std::vector<JudgedBuilding>& soundBuildings() {
  static const auto buildings = judgedBuildings(false);
  return buildings;
}

}  // namespace ductwright::sample
