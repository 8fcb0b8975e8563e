#pragma once

#include <string>
#include <vector>

#include "verdict/verdict.h"

namespace ductwright::verdict {

// One finding of the desk review: what is wrong with the schedule before anyone goes on site.
struct Finding {
  std::string rule;     // stable key, "flow-order"
  std::string unit;     // tag, or the air handler, profile or segment it is about
  UnitId unitId;        // null when it is not about one unit
  fleet::Severity severity = fleet::Severity::moderate;
  std::string finding;  // one sentence
  std::string evidence; // the numbers, in the project's units
  fleet::Party party = fleet::Party::designEngineer;
};

// Every rule over the whole project, in schedule order, then the rules that are about the fleet.
std::vector<Finding> deskReview(const Snapshot& project);

// Which of the project's controller profiles would serve, least capable first.
struct ProfileNeed {
  UnitId unit;
  std::string tag, scheduled;
  bool scheduledServes = false;
  std::vector<std::string> lacking;  // what the scheduled profile lacks, in words
  std::vector<std::string> serve;    // names of profiles that serve
};
std::vector<ProfileNeed> profileNeeds(const Snapshot& project);

struct ProfileQuantity {
  std::string profile;
  int scheduled = 0;  // units that name it
  int leastCapable = 0;  // units for which it is the least capable profile that serves
};
std::vector<ProfileQuantity> profileQuantities(const Snapshot& project);

}  // namespace ductwright::verdict
