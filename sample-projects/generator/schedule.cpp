#include "schedule.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "coil.h"
#include "site.h"

namespace ductwright::sample {
namespace {

using namespace fleet;
using quantity::cfm;
using quantity::fahrenheit;
using quantity::inCfm;

constexpr int kUnitsOnFloor = 18;
constexpr double kSupply = 55, kPlenum = 75;  // °F, of the design

struct Type {
  UnitKind kind;
  HeatKind heat;
  HeaterPosition position;
  int inches;
};

constexpr auto discharge = HeaterPosition::discharge;
constexpr auto plenumInlet = HeaterPosition::plenumInlet;
constexpr std::array<Type, kUnitsOnFloor> kFloor{{
    {UnitKind::coolingOnly, HeatKind::none, discharge, 12},
    {UnitKind::coolingOnly, HeatKind::none, discharge, 12},
    {UnitKind::reheat, HeatKind::hotWater, discharge, 8},
    {UnitKind::reheat, HeatKind::hotWater, discharge, 10},
    {UnitKind::reheat, HeatKind::electricStaged, discharge, 8},
    {UnitKind::reheat, HeatKind::electricModulating, discharge, 10},
    {UnitKind::parallelFan, HeatKind::electricStaged, discharge, 10},
    {UnitKind::seriesFan, HeatKind::hotWater, discharge, 10},
    {UnitKind::dualDuct, HeatKind::none, discharge, 10},
    {UnitKind::reheat, HeatKind::electricStaged, discharge, 10},
    {UnitKind::reheat, HeatKind::hotWater, discharge, 6},
    {UnitKind::coolingOnly, HeatKind::none, discharge, 8},
    {UnitKind::parallelFan, HeatKind::electricStaged, plenumInlet, 8},
    {UnitKind::reheat, HeatKind::electricModulating, discharge, 8},
    {UnitKind::reheat, HeatKind::hotWater, discharge, 12},
    {UnitKind::seriesFan, HeatKind::electricModulating, discharge, 8},
    {UnitKind::reheat, HeatKind::electricStaged, discharge, 12},
    {UnitKind::exhaust, HeatKind::none, discharge, 8},
}};

Airflow toFive(double flowInCfm) {
  return cfm(5 * std::round(flowInCfm / 5));
}

// Largest cooling flow of an inlet, about 1,600 feet a minute.
double largestFlow(int inches) {
  switch (inches) {
    case 6:
      return 300;
    case 8:
      return 560;
    case 10:
      return 880;
    default:
      return 1260;
  }
}

// Coefficient of an averaging flow cross that amplifies 2.3 times, at standard density, cfm at 1 in. w.g.
double crossCoefficient(int inches) {
  const double area = quantity::circle(quantity::inches(inches)).si() / (quantity::kFoot * quantity::kFoot);
  return 4005 * area / std::sqrt(2.3);
}

Site designAir() {
  return {.pressure = standardPressure(quantity::feet(kElevationFeet).si())};
}

double mixedFahrenheit(double primary, double fan) {
  return (primary * kSupply + fan * kPlenum) / (primary + fan);
}

// The air that the heater warms, at design.
struct HeaterDesign {
  double flow = 0;  // cfm
  double entering = kSupply;
  double rise = 30;  // Fahrenheit degrees
};

HeaterDesign heaterDesign(const Unit& unit, const Type& type) {
  const double least = inCfm(*unit.coolingMin);
  const double fan = unit.fan ? inCfm(*unit.fan) : 0;
  if (type.kind == UnitKind::seriesFan) return {fan, mixedFahrenheit(least, fan - least), 18};
  if (type.kind == UnitKind::parallelFan && type.position == plenumInlet) return {fan, kPlenum, 12.5};
  if (type.kind == UnitKind::parallelFan) return {least + fan, mixedFahrenheit(least, fan), 18};
  return {inCfm(*unit.heatingMax), kSupply, type.heat == HeatKind::hotWater ? 33.0 : 30.0};
}

void giveFlows(Unit& unit, const Type& type, double largest) {
  unit.coolingMax = toFive(largest);
  // Below 400 feet a minute a flow cross has little to go by; ventilation and standby ask a tenth less.
  const double slow =
      450 * quantity::circle(quantity::inches(type.inches)).si() / (quantity::kFoot * quantity::kFoot);
  const double least = 5 * std::ceil(std::max(0.25 * largest, slow) / 5);
  unit.coolingMin = cfm(least);
  if (type.kind == UnitKind::exhaust) return;
  unit.ventilationMin = toFive(0.9 * least);
  if (type.kind == UnitKind::dualDuct) {
    unit.hotMax = toFive(0.6 * largest);
    unit.hotMin = toFive(1.05 * least);
  }
  if (type.kind == UnitKind::parallelFan) unit.fan = toFive(0.55 * largest);
  if (type.kind == UnitKind::seriesFan) unit.fan = toFive(1.2 * largest);
  if (type.heat == HeatKind::none) return;
  const bool fanPowered = unit.fan.has_value();
  unit.heatingMax = fanPowered ? *unit.coolingMin : toFive(std::max(0.45 * largest, 1.3 * least));
  const bool water = type.heat == HeatKind::hotWater;
  unit.heatingMin = water || fanPowered ? *unit.coolingMin : *unit.heatingMax;
  unit.reheat = *unit.heatingMin;
}

void giveHeat(Unit& unit, const Type& type) {
  unit.heat = type.heat;
  unit.heaterPosition = type.position;
  unit.zoneHeatingSetpoint = fahrenheit(70);
  if (type.heat == HeatKind::none) return;
  const HeaterDesign design = heaterDesign(unit, type);
  const Temperature entering = fahrenheit(std::round(design.entering * 10) / 10);
  const double rise = design.rise * quantity::kFahrenheitDegree;
  const double toActual =
      unit.flowBasis == FlowBasis::standard ? kStandardDensity / designAir().density(entering.si()) : 1;
  const double air = designAir().capacityRate(toActual * cfm(design.flow).si(), entering.si());
  unit.designEnteringAir = entering;
  if (type.heat == HeatKind::hotWater) {
    unit.coilWaterFlow = quantity::gallonsPerMinute(
        std::ceil(air * rise / (kWaterHeat * 30 * quantity::kFahrenheitDegree) / quantity::kGpm * 10) / 10);
    unit.coilEnteringWater = fahrenheit(140);
    unit.designDischarge = entering + TemperatureDifference::fromSi(rise);
  } else {
    const double power = std::floor(air * rise / 250) * 250;
    unit.heaterPower = Power::fromSi(power);
    unit.heaterStages = type.heat == HeatKind::electricStaged ? 2 : 1;
    unit.heatEnableRatio = 0.75;
    unit.designDischarge =
        fahrenheit(std::round(inFahrenheit(entering + TemperatureDifference::fromSi(power / air)) * 10) / 10);
  }
  if (type.heat != HeatKind::electricStaged) unit.dischargeLimit = fahrenheit(90);
}

std::string profileFor(const Type& type) {
  switch (type.kind) {
    case UnitKind::coolingOnly:
      return "single duct, cooling";
    case UnitKind::reheat:
      return "single duct, heating";
    case UnitKind::parallelFan:
    case UnitKind::seriesFan:
      return "fan-powered";
    case UnitKind::dualDuct:
      return "dual duct";
    case UnitKind::exhaust:
      return "exhaust";
  }
  return {};
}

void giveControls(Unit& unit, const Type& type, int number, int onFloor) {
  unit.profile = profileFor(type);
  unit.strokeTime = quantity::seconds(90);
  unit.segment = "S" + unit.floor;
  unit.macAddress = onFloor;
  unit.deviceInstance = 120'000 + number;
  unit.roomSensor = type.kind == UnitKind::exhaust ? "sensor A" : number % 3 == 0 ? "sensor B" : "sensor A";
  if (unit.roomSensor == "sensor B") unit.standby = *unit.ventilationMin;
}

std::string airHandlerOf(int floor, UnitKind kind) {
  const std::string number = std::to_string((floor + 1) / 2);
  return (kind == UnitKind::exhaust ? "EF-" : "AHU-") + number;
}

}  // namespace

std::vector<Unit> schedule(int units, Random& random) {
  std::vector<Unit> out;
  for (int i = 0; i < units; ++i) {
    const Type& type = kFloor[static_cast<std::size_t>(i % kUnitsOnFloor)];
    const int floor = i / kUnitsOnFloor + 1;
    const int onFloor = i % kUnitsOnFloor + 1;
    Unit unit;
    unit.tag = std::to_string(floor) + (onFloor < 10 ? "-0" : "-") + std::to_string(onFloor);
    unit.building = kBuilding;
    unit.floor = std::to_string(floor);
    unit.zone = "room " + std::to_string(floor * 100 + onFloor);
    unit.airHandler = airHandlerOf(floor, type.kind);
    unit.kind = type.kind;
    if (onFloor == 3 || onFloor == 12) unit.flowBasis = FlowBasis::standard;
    unit.inletDiameter = quantity::inches(type.inches);
    unit.flowCoefficient = quantity::FlowCoefficient::fromSi(
        toSi(std::round(crossCoefficient(type.inches)),
             unitFor(quantity::Dimension::flowCoefficient, quantity::System::ip)));
    // Neighbours of one size differ, as rooms do.
    const double share = i % 2 == 0 ? random.uniform(0.62, 0.74) : random.uniform(0.88, 1.0);
    giveFlows(unit, type, share * largestFlow(type.inches));
    if (type.kind != UnitKind::exhaust) {
      giveHeat(unit, type);
      unit.zoneCoolingSetpoint = fahrenheit(74);
    }
    giveControls(unit, type, i + 1, onFloor);
    out.push_back(std::move(unit));
  }
  return out;
}

}  // namespace ductwright::sample
