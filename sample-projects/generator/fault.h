#pragma once

#include <functional>
#include <string>
#include <vector>

#include "conduct.h"
#include "physical_unit.h"
#include "sample/sample_building.h"

// The faults that can be planted at one unit.
namespace ductwright::sample {

struct Expectation {
  verdict::Criterion criterion;
  verdict::Outcome outcome;
  std::string because = {};
};

struct Fault {
  std::string name;
  int units = 1;  // how many get it
  std::function<bool(const fleet::Unit&)> suits;
  std::function<void(PhysicalUnit&, Conduct&, Random&)> plant;
  std::vector<Expectation> expected;
  std::string shows;
};

const std::vector<Fault>& airflowFaults();
const std::vector<Fault>& heatFaults();

}  // namespace ductwright::sample
