#pragma once

#include <vector>

#include "coil.h"
#include "fleet/building.h"
#include "inlet.h"
#include "random.h"
#include "site.h"

// What really hangs above the ceiling, whatever the schedule says. SI.
namespace ductwright::sample {

struct Heater {
  double power = 0;  // of all elements
  int stages = 0;
  int deadStages = 0;   // do not warm although they are switched on
  bool welded = false;  // the first contactor never opens
  bool works = true;    // answers a call
  bool lockout = true;  // the controller holds the heat back at low flow
  double enableRatio = 0.75;
  double switchFlow = 0;    // the heater's own airflow switch closes above this; 0: bridged
  bool limited = true;      // the controller limits the discharge temperature
  double dischargeAim = 0;  // K: where it holds it
  Coil coil;
  double water = 0;  // m³/s, valve open
  double enteringWater = 0;
  double leak = 0;  // of `water`, valve shut
};

struct PhysicalUnit {
  fleet::Unit settings;  // what the controller holds: the schedule, where nobody erred
  Inlet cold, hot;       // hot: of a dual-duct unit
  double stroke = 90;
  double supply = 0, hotSupply = 0, plenum = 0;  // K, of the air that enters
  double fanFlow = 0;
  double fanPower = 0;
  Heater heater;
  double ductGain = 0;               // K between heater and thermometer
  std::vector<double> outletShares;  // of the discharge; the rest leaks
  double holding = 0.006;            // how closely the controller holds a flow
};

// The unit as a balancer leaves it, who calibrated it with an instrument that is off by `balancerShare`.
PhysicalUnit physicalUnit(const fleet::Unit& design, const Site& site, double balancerShare, Random random);

// The flow that the controller wants through the heater before it lets heat on, on the schedule's basis.
double heaterSetpoint(const fleet::Unit& settings);

// The air that the heater meets.
struct HeaterAir {
  Stream entering;     // before fan and heater
  double fanRise = 0;  // K
  double primary = 0;  // m³/s of supply air, whether or not the heater meets it
};
// With `primary` m³/s of supply air; `fan` is the fan's share of its flow, 0 when it stands.
HeaterAir heaterAir(const PhysicalUnit& unit, const Site& site, double primary, double fan);

}  // namespace ductwright::sample
