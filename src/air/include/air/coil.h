#pragma once

#include <optional>

#include "quantity/quantity.h"

// A hot-water coil as a cross-flow heat exchanger with both streams unmixed (effectiveness-NTU).
namespace ductwright::air {

// Share of the greatest possible exchange: 1 − exp((NTU^0.22 / Cr)(exp(−Cr NTU^0.78) − 1)), the usual
// approximation of the unmixed cross-flow series; 1 − exp(−NTU) at Cr = 0. `ratio` is Cr = Cmin / Cmax.
double crossFlowEffectiveness(double ntu, double ratio);

// The NTU of an effectiveness; nothing outside 0 to 1, or where no NTU below 100 reaches it.
std::optional<double> crossFlowNtu(double effectiveness, double ratio);

// A coil's scheduled point.
struct CoilPoint {
  quantity::CapacityRate air, water;
  quantity::Temperature enteringAir, dischargeAir, enteringWater;
};

// The conductance UA with which the coil meets its scheduled point; nothing where no coil could.
std::optional<quantity::CapacityRate> fittedConductance(const CoilPoint& point);

// What enters a coil.
struct CoilEntering {
  quantity::CapacityRate air, water;
  quantity::Temperature enteringAir, enteringWater;
};

// The air's temperature after a coil of conductance `ua`. The air must flow.
quantity::Temperature coilDischarge(quantity::CapacityRate ua, const CoilEntering& entering);

}  // namespace ductwright::air
