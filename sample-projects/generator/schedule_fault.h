#pragma once

#include <functional>
#include <string>
#include <vector>

#include "fleet/building.h"

namespace ductwright::sample {

// A fault of the schedule itself.
struct ScheduleFault {
  std::string name;
  std::string rule;  // the desk review's rule that must find it
  std::function<bool(const fleet::Unit&)> suits;
  std::function<void(fleet::Unit&)> plant;
};

const std::vector<ScheduleFault>& scheduleFaults();

}  // namespace ductwright::sample
