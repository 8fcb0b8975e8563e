#pragma once

// A hot-water coil as a cross-flow heat exchanger whose conductance follows the flows on both sides.
// SI: W/K, m³/s, K.
namespace ductwright::sample {

inline constexpr double kWaterHeat = 4.115e6;  // J/(m³·K)

struct Coil {
  double designAir = 0;    // capacity rate
  double designWater = 0;  // m³/s
  double conductance = 0;  // UA at the design point

  // Heat into air of capacity rate `air` at `entering` from `water` at `enteringWater`.
  [[nodiscard]] double heat(double air, double entering, double water, double enteringWater) const;
  // The water flow that warms the air by `rise`; at most `most`.
  [[nodiscard]] double waterFor(double air, double entering, double rise, double most,
                                double enteringWater) const;
};

// The coil that warms `air` from `entering` by `rise` with `water` at `enteringWater`.
Coil coilFor(double air, double entering, double rise, double water, double enteringWater);

}  // namespace ductwright::sample
