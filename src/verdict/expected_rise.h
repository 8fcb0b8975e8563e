#pragma once

#include "heated_air.h"

namespace ductwright::verdict {

// Heat into the air, as measured or from the nameplate, W.
struct HeatInput {
  double watts = 0;
  Spread spread;
  ReadingQuantity weakest = ReadingQuantity::heaterPower;  // to be repeated first
};

// Air at a heater while it is proven.
struct HeatedAir {
  EnteringAir entering;
  Estimate flow;                    // of the air that is warmed
  quantity::CapacityRate capacity;  // of that flow
};

struct ExpectedRise {
  double kelvins = 0;
  Spread spread;
  std::optional<HeatInput> input;   // nothing where the coil's model gave the rise
};

// Electric: the power read, or nameplate × share of stages on, over the air's capacity rate. Hot water: from the
// water side; else, with the valve open and the entering water read, from the coil's model fitted to its scheduled
// point. Nothing otherwise, with what is lacking.
std::optional<ExpectedRise> expectedRise(const Judging&, const StepReadings&, const HeatedAir&, Shortage&);

}  // namespace ductwright::verdict
