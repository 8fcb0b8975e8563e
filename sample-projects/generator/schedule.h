#pragma once

#include <vector>

#include "fleet/building.h"
#include "random.h"

// The invented building as its design documents describe it.
namespace ductwright::sample {

inline constexpr const char* kBuilding = "Fernhollow House, Marrowdale (invented)";
inline constexpr double kElevationFeet = 5150;

// A sound schedule of so many units, floor by floor; every kind occurs in any eighteen of them.
std::vector<fleet::Unit> schedule(int units, Random& random);

std::vector<fleet::AirHandler> airHandlersFor(const std::vector<fleet::Unit>& units);
std::vector<fleet::NetworkSegment> segmentsFor(const std::vector<fleet::Unit>& units);
std::vector<fleet::ControllerProfile> controllerProfiles();
std::vector<fleet::RoomSensor> roomSensors();

}  // namespace ductwright::sample
