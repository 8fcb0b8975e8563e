#pragma once

#include <span>

#include "quantity/quantity.h"

// Duct traverses: where to read, and the flow from what was read.
namespace ductwright::air {

// Log-Tchebycheff positions along one side of a rectangular duct, as shares of the side from its wall
// (ISO 3966:2008; ASHRAE 111-2008), for 5, 6 or 7 lines; empty for any other number.
std::span<const double> tchebycheffPositions(int lines);

// Lines to use along a side: 5 below 30 in., 6 to 36 in., 7 above.
int tchebycheffLines(quantity::Length side);

// Log-linear positions along one diameter of a round duct, as shares of the diameter from its wall
// (ISO 3966:2008; ASHRAE 111-2008), for 6, 8 or 10 points; empty for any other number.
std::span<const double> logLinearPositions(int pointsPerDiameter);

// Points to use along a diameter: 6 to 10 in., 10 above.
int logLinearPoints(quantity::Length diameter);

// The mean of the velocities times the area. `velocities` must not be empty.
quantity::Airflow traverseFlow(std::span<const quantity::Velocity> velocities, quantity::Area area);

// The same from velocity pressures: the mean of the velocities, never the velocity of the mean.
quantity::Airflow traverseFlow(std::span<const quantity::Pressure> pressures, quantity::Density rho,
                               quantity::Area area);

}  // namespace ductwright::air
