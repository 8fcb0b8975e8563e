#include "schedule_fault.h"

#include <utility>

namespace ductwright::sample {
namespace {

using namespace fleet;

bool staged(const Unit& unit) {
  return unit.kind == UnitKind::reheat && unit.heat == HeatKind::electricStaged;
}
bool water(const Unit& unit) {
  return unit.kind == UnitKind::reheat && unit.heat == HeatKind::hotWater;
}
bool cooling(const Unit& unit) {
  return unit.kind == UnitKind::coolingOnly;
}
bool anyStaged(const Unit& unit) {
  return unit.heat == HeatKind::electricStaged;
}
bool plainSensor(const Unit& unit) {
  return unit.kind != UnitKind::exhaust && unit.roomSensor == "sensor A";
}
bool notFirstOnSegment(const Unit& unit) {
  return unit.macAddress > 1;
}
bool eightInch(const Unit& unit) {
  return cooling(unit) && quantity::inInches(*unit.inletDiameter) < 9;
}

}  // namespace

const std::vector<ScheduleFault>& scheduleFaults() {
  static const std::vector<ScheduleFault> faults{
      {"reheat flow missing", "reheat-flow-missing", staged, [](Unit& u) { u.reheat.reset(); }},
      {"reheat flow below the cooling minimum", "reheat-flow-low", water,
       [](Unit& u) { u.reheat = *u.coolingMin * 0.6; }},
      {"heater too strong for its air", "heater-rise", staged,
       [](Unit& u) { u.heaterPower = *u.heaterPower * 1.35; }},
      {"minimum below what the controller can hold", "least-controllable-flow", cooling,
       [](Unit& u) {
         u.coolingMin = quantity::cfm(35);
         u.ventilationMin = quantity::cfm(30);
         if (u.standby) u.standby = u.ventilationMin;
       }},
      {"inlet too small", "inlet-velocity-high", eightInch,
       [](Unit& u) {
         u.coolingMax = quantity::cfm(560);
         u.inletDiameter = quantity::inches(6);
         u.flowCoefficient = *u.flowCoefficient * (36.0 / 64);
       }},
      {"ventilation not covered at minimum", "ventilation", cooling,
       [](Unit& u) { u.ventilationMin = *u.coolingMin * 1.3; }},
      {"heating minimum above heating maximum", "flow-order", water,
       [](Unit& u) { std::swap(u.heatingMin, u.heatingMax); }},
      {"setpoints exchanged", "setpoint-order", plainSensor,
       [](Unit& u) { std::swap(u.zoneHeatingSetpoint, u.zoneCoolingSetpoint); }},
      {"duplicate network address", "mac-duplicate", notFirstOnSegment,
       [](Unit& u) { u.macAddress = *u.macAddress - 1; }},
      {"controller without heat at a heated unit", "profile-lacks", anyStaged,
       [](Unit& u) { u.profile = "single duct, cooling"; }},
      {"standby flow without motion sensor", "sensor-motion", plainSensor,
       [](Unit& u) { u.standby = u.ventilationMin; }},
      {"discharge limit with staged heat", "discharge-limit-heat", anyStaged,
       [](Unit& u) { u.dischargeLimit = quantity::fahrenheit(90); }},
  };
  return faults;
}

}  // namespace ductwright::sample
