#pragma once

// One inlet of a box: duct, damper, velocity-pressure sensor, and the controller that holds a flow with them.
// SI: m³/s, Pa, s; damper positions from 0 (shut) to 1 (open).
namespace ductwright::sample {

struct Inlet {
  double coefficient = 0;     // true: m³/s at 1 Pa and standard density
  double loaded = 0;          // the coefficient in the controller
  double zero = 0;            // Pa that the sensor shows without flow
  double pressure = 200;      // static pressure before the box
  double openResistance = 0;  // Pa/(m³/s)² of damper and all behind it, damper open
  double authority = 0.4;     // the open damper's share of that
  double density = 1.2;       // of the air that flows
  double assumed = 1.2;       // density in the controller's calculation
  double basis = 1;  // 1: the controller shows actual flow; density ratio where it shows standard flow

  [[nodiscard]] double signal(double flow) const;    // Pa at the sensor's ports
  [[nodiscard]] double reported(double flow) const;  // what the controller makes of it
  // The flow at which the controller reports `setpoint`, or what the open damper passes.
  [[nodiscard]] double flowAt(double setpoint) const;
  [[nodiscard]] double openFlow() const;
  [[nodiscard]] double damperFor(double flow) const;
  [[nodiscard]] double flowThrough(double damper) const;
  // Flow `waited` seconds after a command from one flow to another, the actuator needing `stroke` for its
  // way.
  [[nodiscard]] double onTheWay(double from, double to, double waited, double stroke) const;
};

}  // namespace ductwright::sample
