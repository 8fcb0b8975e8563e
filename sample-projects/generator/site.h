#pragma once

#include "random.h"

// The air at the building. All numbers are SI: Pa, K, m³/s, kg/m³, W/K.
namespace ductwright::sample {

inline constexpr double kStandardDensity = 1.204;

// The weather of the day: real pressure and moisture differ a little from what a calculation assumes.
struct Site {
  double pressure = 101325;
  double humidity = 0.008;  // kg of water a kg of dry air

  [[nodiscard]] double density(double temperature) const;
  // Heat that warms a flow of air at `temperature` by one kelvin.
  [[nodiscard]] double capacityRate(double flow, double temperature) const;
};

// Standard atmosphere at an elevation in metres (U.S. Standard Atmosphere 1976, troposphere; from memory).
double standardPressure(double elevation);
Site siteAt(double elevation, Random& random);

// Two streams of air, mixed by mass.
struct Stream {
  double flow = 0;
  double temperature = 288.15;
};
Stream mixed(const Site&, const Stream&, const Stream&);

}  // namespace ductwright::sample
