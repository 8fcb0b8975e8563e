#pragma once

#include <optional>
#include <set>
#include <string>

#include "fleet/vocabulary.h"

namespace ductwright::sample {

// How an agent goes about one unit. As it stands: waits as needed, takes every step, reads every instrument.
struct Conduct {
  bool visits = true;
  std::set<fleet::AirflowStep> skips;
  std::optional<fleet::AirflowStep> hurries;  // reads while the damper still moves
  bool hurriesHeatOff = false;
  bool skipsTrip = false;
  bool skipsHeatOff = false;
  bool metersPower = true;
  bool metersWater = true;  // flow and leaving temperature
  bool readsEnteringWater = true;
  std::string flowInstrument;    // instead of the right one
  std::string outletInstrument;  // at the outlets, instead of own hood
  bool copiesDesign = false;     // somebody else wrote down what the schedule says
  double displayFactor = 1;      // a reported flow is written down in the wrong unit
  bool balancesAgain = false;    // after lockout and rise
  bool abandonsBalance = false;  // begins a second one and leaves it
};

}  // namespace ductwright::sample
