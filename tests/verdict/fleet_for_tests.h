#pragma once

#include <memory>
#include <string>

#include "fleet/record.h"

// A small building that is sound in every respect: an invented school. Tests change one thing in it.
namespace ductwright::verdict {

struct FleetForTests {
  fleet::Snapshot project;

  // A copy of a unit's record that may be changed.
  template <class Change>
  void change(std::string_view tag, Change&& change) {
    for (auto& record : project.units)
      if (record->unit.tag == tag) {
        auto copy = std::make_shared<fleet::UnitRecord>(*record);
        change(*copy);
        record = std::move(copy);
        return;
      }
  }
  template <class Change>
  void changeUnit(std::string_view tag, Change&& change) {
    this->change(tag, [&](fleet::UnitRecord& r) { change(r.unit); });
  }
};

template <class Record>
fleet::Id<Record> idForTests(std::uint8_t kind, std::uint32_t n) {
  fleet::Id<Record> id;
  id.uuid.bytes[0] = kind;
  for (int i = 0; i < 4; ++i)
    id.uuid.bytes[static_cast<std::size_t>(15 - i)] = static_cast<std::uint8_t>(n >> (8 * i));
  return id;
}

inline fleet::ControllerProfile profileForTests(std::string name, std::vector<fleet::UnitKind> kinds,
                                                std::vector<fleet::HeatKind> heat) {
  fleet::ControllerProfile p;
  p.name = std::move(name);
  p.kindsServed = std::move(kinds);
  p.heatServed = std::move(heat);
  p.inlets = 1;
  p.fan = p.exhaust = false;
  p.damperFeedback = true;
  p.dischargeSensor = true;
  p.schedules = p.trends = fleet::Custody::frontEnd;
  p.alarms = fleet::Custody::controller;
  p.protocol = "BACnet MS/TP";
  p.leastControllablePressure = quantity::inchesOfWater(0.01);
  p.strokeTime = quantity::seconds(90);
  p.unitLoad = 0.25;
  return p;
}

// A single-duct unit with hot-water reheat that no rule finds fault with.
inline fleet::Unit unitForTests(std::uint32_t n, std::string tag) {
  using namespace quantity;
  fleet::Unit u;
  u.id = idForTests<fleet::Unit>(1, n);
  u.tag = std::move(tag);
  u.building = "School";
  u.floor = "1";
  u.zone = "Room " + std::to_string(100 + n);
  u.airHandler = "AH-1";
  u.kind = fleet::UnitKind::reheat;
  u.inletDiameter = inches(8);
  u.coolingMax = cfm(600);
  u.coolingMin = cfm(180);
  u.heatingMax = cfm(300);
  u.heatingMin = cfm(180);
  u.reheat = cfm(300);
  u.unoccupied = cfm(0);
  u.ventilationMin = cfm(150);
  u.heat = fleet::HeatKind::hotWater;
  u.coilEnteringWater = fahrenheit(160);
  u.coilWaterFlow = gallonsPerMinute(1);
  u.designEnteringAir = fahrenheit(56);
  u.designDischarge = fahrenheit(88);
  u.dischargeLimit = fahrenheit(90);
  u.zoneHeatingSetpoint = fahrenheit(70);
  u.zoneCoolingSetpoint = fahrenheit(74);
  u.flowCoefficient = FlowCoefficient::fromSi(toSi(922, unitFor(Dimension::flowCoefficient, System::ip)));
  u.strokeTime = seconds(90);
  u.profile = "HW";
  u.roomSensor = "Wall";
  u.segment = "Trunk 1";
  u.macAddress = static_cast<int>(n);
  u.deviceInstance = 100000 + n;
  return u;
}

inline void add(FleetForTests& fleet, fleet::Unit unit) {
  auto record = std::make_shared<fleet::UnitRecord>();
  record->unit = std::move(unit);
  fleet.project.units.push_back(std::move(record));
}

// "1-1": reheat with hot water · "1-2": staged electric · "1-3": cooling only · "1-4": parallel fan,
// modulating electric · "1-5": series fan, hot water · "1-6": dual duct · "E-1": exhaust.
inline FleetForTests soundFleet() {
  using namespace quantity;
  using fleet::HeatKind;
  using fleet::UnitKind;
  FleetForTests f;
  f.project.projectName = "School (invented)";
  f.project.airHandlers.push_back({.id = {},
                                   .name = "AH-1",
                                   .designFlow = cfm(3000),
                                   .suppliesWarmAir = false,
                                   .supplyAirTemperature = fahrenheit(55),
                                   .ductStaticPressure = {}});
  f.project.profiles = {
      profileForTests("HW", {UnitKind::coolingOnly, UnitKind::reheat}, {HeatKind::hotWater}),
      profileForTests("EL", {UnitKind::coolingOnly, UnitKind::reheat}, {HeatKind::electricStaged}),
      profileForTests("FAN", {UnitKind::reheat, UnitKind::parallelFan, UnitKind::seriesFan},
                      {HeatKind::hotWater, HeatKind::electricModulating, HeatKind::electricStaged}),
      profileForTests("DD", {UnitKind::dualDuct}, {}), profileForTests("EX", {UnitKind::exhaust}, {})};
  f.project.profiles[2].fan = true;
  f.project.profiles[3].inlets = 2;
  f.project.profiles[4].exhaust = true;
  f.project.roomSensors.push_back({.id = {},
                                   .name = "Wall",
                                   .display = true,
                                   .adjustment = true,
                                   .override_ = true,
                                   .motion = true,
                                   .canSetUpController = true});
  f.project.segments.push_back(
      {.id = {}, .name = "Trunk 1", .speed = 76800, .highestAddress = 127, .loadLimit = 32});

  add(f, unitForTests(1, "1-1"));

  fleet::Unit electricUnit = unitForTests(2, "1-2");
  electricUnit.heat = HeatKind::electricStaged;
  electricUnit.coilEnteringWater.reset();
  electricUnit.coilWaterFlow.reset();
  electricUnit.dischargeLimit.reset();
  electricUnit.heaterPower = kilowatts(3);
  electricUnit.heaterStages = 2;
  electricUnit.heatEnableRatio = 0.75;
  electricUnit.profile = "EL";
  add(f, electricUnit);

  fleet::Unit cooling = unitForTests(3, "1-3");
  cooling.kind = UnitKind::coolingOnly;
  cooling.heat = HeatKind::none;
  cooling.heatingMax.reset();
  cooling.heatingMin.reset();
  cooling.reheat.reset();
  cooling.coilEnteringWater.reset();
  cooling.coilWaterFlow.reset();
  cooling.dischargeLimit.reset();
  cooling.designDischarge.reset();
  add(f, cooling);

  fleet::Unit parallel = electricUnit;
  parallel.id = idForTests<fleet::Unit>(1, 4);
  parallel.tag = "1-4";
  parallel.kind = UnitKind::parallelFan;
  parallel.heat = HeatKind::electricModulating;
  parallel.heaterStages.reset();
  parallel.dischargeLimit = fahrenheit(90);
  parallel.fan = cfm(300);
  parallel.heatingMax = cfm(180);
  parallel.designEnteringAir = fahrenheit(67);
  parallel.designDischarge = fahrenheit(86.5);
  parallel.profile = "FAN";
  parallel.macAddress = 4;
  parallel.deviceInstance = 100004;
  add(f, parallel);

  fleet::Unit series = unitForTests(5, "1-5");
  series.kind = UnitKind::seriesFan;
  series.fan = cfm(700);
  series.heatingMax = cfm(180);
  series.designEnteringAir.reset();
  series.designDischarge = fahrenheit(85);
  series.coilWaterFlow = gallonsPerMinute(1.5);
  series.profile = "FAN";
  add(f, series);

  fleet::Unit dual = cooling;
  dual.id = idForTests<fleet::Unit>(1, 6);
  dual.tag = "1-6";
  dual.kind = UnitKind::dualDuct;
  dual.hotMax = cfm(400);
  dual.hotMin = cfm(0);
  dual.profile = "DD";
  dual.macAddress = 6;
  dual.deviceInstance = 100006;
  add(f, dual);

  fleet::Unit exhaust = cooling;
  exhaust.id = idForTests<fleet::Unit>(1, 7);
  exhaust.tag = "E-1";
  exhaust.kind = UnitKind::exhaust;
  exhaust.airHandler.clear();
  exhaust.ventilationMin.reset();
  exhaust.profile = "EX";
  exhaust.macAddress = 7;
  exhaust.deviceInstance = 100007;
  add(f, exhaust);
  return f;
}

}  // namespace ductwright::verdict
