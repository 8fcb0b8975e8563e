#include "review_rules.h"

// Room sensors against the sequence that the schedule implies.
namespace ductwright::verdict {
namespace {

using quantity::Airflow;

void needs(Review& review, Rule rule, const Unit& u, const fleet::RoomSensor& sensor, std::string finding,
           std::string why) {
  review.find(rule, u, std::move(finding), "room sensor " + sensor.name + "; " + why);
}

}  // namespace

void reviewRoomSensor(Review& review, const Unit& u) {
  const auto* sensor = review.roomSensor(u);
  if (!sensor) {
    if (!u.roomSensor.empty() && !review.project.roomSensors.empty())
      review.find(Rule::sensorUnknown, u, "The unit names a room sensor that the project does not know.",
                  "room sensor " + u.roomSensor);
    if (u.roomSensor.empty() && review.given().roomSensors && u.kind != fleet::UnitKind::exhaust)
      review.find(Rule::sensorMissing, u, "The unit names no room sensor.",
                  "zone " + (u.zone.empty() ? "not given" : u.zone));
    return;
  }
  const auto below = [&](const std::optional<Airflow>& flow) {
    return flow && u.coolingMin && *flow < *u.coolingMin;
  };
  if (below(u.standby) && !sensor->motion.value_or(false))
    needs(review, Rule::sensorMotion, u, *sensor,
          "The unit has a standby flow, but its room sensor senses no motion.",
          listed(review, {{"standby", u.standby}, {"cooling min", u.coolingMin}}));
  if (below(u.unoccupied) && !sensor->override_.value_or(false))
    needs(review, Rule::sensorOverride, u, *sensor,
          "The unit has an unoccupied flow, but nobody can override it in the room.",
          listed(review, {{"unoccupied", u.unoccupied}, {"cooling min", u.coolingMin}}));
  if (!u.zoneHeatingSetpoint && !u.zoneCoolingSetpoint && !sensor->adjustment.value_or(false))
    needs(review, Rule::sensorAdjustment, u, *sensor,
          "No setpoint is scheduled and the room sensor cannot set one.", "no adjustment");
  if (sensor->adjustment.value_or(false) && !sensor->display.value_or(false))
    needs(review, Rule::sensorDisplay, u, *sensor, "The setpoint can be adjusted in the room, but not seen.",
          "no display");
}

}  // namespace ductwright::verdict
