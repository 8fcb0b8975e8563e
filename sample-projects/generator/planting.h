#pragma once

#include <string>
#include <vector>

#include "fault.h"

// Which unit gets which fault.
namespace ductwright::sample {

struct Plan {
  std::vector<const Fault*> fault;     // by unit; null: none
  std::vector<std::size_t> exchanged;  // two neighbours that got each other's program, or none
  std::vector<PlantedFinding> findings;
};

// Draws units for every fault, no unit twice, and changes the schedule where the fault is the schedule's.
Plan plantFaults(std::vector<fleet::Unit>& units, Random random);

}  // namespace ductwright::sample
