#pragma once

#include "air/moist_air.h"
#include "quantity/quantity.h"

// Heat carried by air and water, and the temperatures that follow from it.
namespace ductwright::air {

using quantity::Airflow;
using quantity::CapacityRate;
using quantity::Power;
using quantity::TemperatureDifference;
using quantity::WaterFlow;

inline constexpr double kWaterHeatCapacity = 4.115e6;  // ρ c, J/(m³·K)

// Heat that an airstream takes up a kelvin: (ρ Q / (1 + W)) (1006 + 1860 W), ρ at the temperature `at`
// where the flow is stated.
constexpr CapacityRate airCapacity(const SiteAir& air, Temperature at, Airflow flow) {
  const double w = air.humidityRatio;
  return CapacityRate::fromSi(density(air, at).si() * flow.si() / (1 + w) * (1006.0 + 1860.0 * w));
}

constexpr CapacityRate waterCapacity(WaterFlow flow) {
  return CapacityRate::fromSi(kWaterHeatCapacity * flow.si());
}

constexpr Power heat(CapacityRate stream, TemperatureDifference warmer) {
  return Power::fromSi(stream.si() * warmer.si());
}

// The rise of a stream that takes up a power. The stream's capacity rate must not be zero.
constexpr TemperatureDifference rise(Power power, CapacityRate stream) {
  return TemperatureDifference::fromSi(power.si() / stream.si());
}

// The airflow, at the density of `at`, that a power warms by a rise: the heat balance solved for the flow.
constexpr Airflow impliedFlow(const SiteAir& air, Temperature at, Power power, TemperatureDifference warmer) {
  return Airflow::fromSi(power.si() / (airCapacity(air, at, Airflow::fromSi(1)).si() * warmer.si()));
}

// A stream of air: a flow at its own temperature.
struct Stream {
  Airflow flow;
  Temperature temperature;
};

// The temperature of two streams of equal humidity, mixed by mass. Together they must flow.
constexpr Temperature mixed(const SiteAir& air, const Stream& a, const Stream& b) {
  const double ma = density(air, a.temperature).si() * a.flow.si();
  const double mb = density(air, b.temperature).si() * b.flow.si();
  return a.temperature + (b.temperature - a.temperature) * (mb / (ma + mb));
}

}  // namespace ductwright::air
