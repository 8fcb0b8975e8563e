#include <algorithm>
#include <cmath>
#include <map>

#include "schedule.h"

namespace ductwright::sample {

using namespace fleet;

// An air handler moves all its boxes' maxima at once: no diversity.
std::vector<AirHandler> airHandlersFor(const std::vector<Unit>& units) {
  std::vector<AirHandler> out;
  for (const Unit& unit : units) {
    auto known =
        std::find_if(out.begin(), out.end(), [&](const AirHandler& a) { return a.name == unit.airHandler; });
    if (known == out.end()) {
      AirHandler fresh;
      fresh.name = unit.airHandler;
      fresh.designFlow = Airflow{};
      fresh.suppliesWarmAir = false;
      if (unit.kind != UnitKind::exhaust) {
        fresh.supplyAirTemperature = quantity::fahrenheit(55);
        fresh.ductStaticPressure = quantity::inchesOfWater(1.25);
      }
      known = out.insert(out.end(), fresh);
    }
    known->designFlow = *known->designFlow + *unit.coolingMax;
  }
  for (AirHandler& a : out)
    a.designFlow = quantity::cfm(100 * std::ceil(quantity::inCfm(*a.designFlow) / 100));
  return out;
}

std::vector<NetworkSegment> segmentsFor(const std::vector<Unit>& units) {
  std::vector<NetworkSegment> out;
  for (const Unit& unit : units) {
    if (!out.empty() && out.back().name == unit.segment) continue;
    NetworkSegment segment;
    segment.name = unit.segment;
    segment.speed = 38'400;
    segment.highestAddress = 127;
    segment.loadLimit = 32;
    out.push_back(segment);
  }
  return out;
}

namespace {

ControllerProfile profile(std::string name, std::vector<UnitKind> kinds, std::vector<HeatKind> heat) {
  ControllerProfile out;
  out.name = std::move(name);
  out.kindsServed = std::move(kinds);
  out.heatServed = std::move(heat);
  out.inlets = 1;
  out.fan = out.exhaust = out.dischargeSensor = false;
  out.damperFeedback = true;
  out.schedules = out.trends = Custody::frontEnd;
  out.alarms = Custody::controller;
  out.protocol = "BACnet MS/TP";
  out.leastControllablePressure = quantity::inchesOfWater(0.006);
  out.strokeTime = quantity::seconds(90);
  out.unitLoad = 0.25;
  out.document = "invented for this sample";
  return out;
}

RoomSensor sensor(std::string name, bool motion) {
  RoomSensor out;
  out.name = std::move(name);
  out.display = out.adjustment = out.override_ = out.canSetUpController = true;
  out.motion = motion;
  return out;
}

}  // namespace

std::vector<ControllerProfile> controllerProfiles() {
  const std::vector<HeatKind> everyHeat{HeatKind::hotWater, HeatKind::electricStaged,
                                        HeatKind::electricModulating};
  std::vector<ControllerProfile> out{
      profile("single duct, cooling", {UnitKind::coolingOnly}, {}),
      profile("single duct, heating", {UnitKind::coolingOnly, UnitKind::reheat}, everyHeat),
      profile("fan-powered", {UnitKind::reheat, UnitKind::parallelFan, UnitKind::seriesFan}, everyHeat),
      profile("dual duct", {UnitKind::dualDuct}, {}),
      profile("exhaust", {UnitKind::exhaust}, {}),
  };
  out[1].dischargeSensor = out[2].dischargeSensor = out[3].dischargeSensor = true;
  out[2].fan = true;
  out[3].inlets = 2;
  out[4].exhaust = true;
  return out;
}

std::vector<RoomSensor> roomSensors() {
  return {sensor("sensor A", false), sensor("sensor B", true)};
}

}  // namespace ductwright::sample
