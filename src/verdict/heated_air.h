#pragma once

#include "heater_air.h"
#include "temperature.h"

namespace ductwright::verdict {

// What a step is short of, and whether an early reading would have given it.
struct Shortage {
  Lacking lacking = Lacking::nothing;
  bool early = false;
};

// The air at a heater's entry: read, else in a fan-powered unit the mix of primary and plenum air by mass.
struct EnteringAir {
  TemperatureSum temperature;
  Spread mixing;         // what the flows' uncertainty adds to a mix
  bool mixed = false;

  [[nodiscard]] double kelvin() const { return temperature.value(); }
  // Of the temperature by itself, not in a difference.
  [[nodiscard]] Spread spread(const JudgingContext& context) const {
    Spread out = temperature.spread(context);
    out += mixing;
    return out;
  }
};
std::optional<EnteringAir> enteringAir(const Judging&, const StepReadings&, Shortage&);

// A difference from the entering air's temperature.
struct Difference {
  double kelvins = 0;
  Spread spread;
};
Difference above(const EnteringAir&, std::span<const Counted> warmer, const JudgingContext&);

// The air that is warmed, actual m³/s: the heater's; where the entry is a mix and the heater sits in the plenum
// inlet, all of the unit's, since the mix and the discharge are of all of it.
std::optional<Estimate> warmedFlow(const Judging&, const StepReadings&, const EnteringAir&, Shortage&);

}  // namespace ductwright::verdict
