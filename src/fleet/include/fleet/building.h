#pragma once

#include <optional>
#include <string>
#include <vector>

#include "fleet/id.h"
#include "fleet/timestamp.h"
#include "fleet/vocabulary.h"
#include "fleet/word.h"
#include "quantity/quantity.h"

// What a building is made of, as the design documents describe it. Plain values; an empty optional is
// "not given". Names that join records (air handler, profile, sensor, segment) are the words of the schedule.
namespace ductwright::fleet {

using quantity::Airflow;
using quantity::Duration;
using quantity::FlowCoefficient;
using quantity::Length;
using quantity::Power;
using quantity::Pressure;
using quantity::Temperature;
using quantity::TemperatureDifference;
using quantity::WaterFlow;

struct Building {
  BuildingId id;
  std::string name;
  Length elevation;
};

struct AirHandler {
  AirHandlerId id;
  std::string name;
  std::optional<Airflow> designFlow;
  std::optional<bool> suppliesWarmAir;
  std::optional<Temperature> supplyAirTemperature;
  std::optional<Pressure> ductStaticPressure;
};

// One VAV terminal unit: a row of the schedule.
struct Unit {
  UnitId id;
  std::string tag;
  std::string building;
  std::string floor;
  std::string zone;
  std::string airHandler;
  UnitKind kind = UnitKind::coolingOnly;
  std::optional<Length> inletDiameter;
  std::optional<Airflow> coolingMax, coolingMin, heatingMax, heatingMin, reheat;
  std::optional<Airflow> unoccupied, standby, fan, hotMax, hotMin, ventilationMin;
  FlowBasis flowBasis = FlowBasis::actual;
  HeatKind heat = HeatKind::none;
  HeaterPosition heaterPosition = HeaterPosition::discharge;
  std::optional<Power> heaterPower;
  std::optional<int> heaterStages;
  std::optional<double> heatEnableRatio;
  std::optional<WaterFlow> coilWaterFlow;
  std::optional<Temperature> coilEnteringWater, designEnteringAir, designDischarge, dischargeLimit;
  std::optional<Temperature> zoneHeatingSetpoint, zoneCoolingSetpoint;
  std::optional<FlowCoefficient> flowCoefficient;
  std::optional<Duration> strokeTime;
  std::string profile;
  std::string roomSensor;
  std::string segment;
  std::optional<int> macAddress;
  std::optional<std::int64_t> deviceInstance;

  friend bool operator==(const Unit&, const Unit&) = default;
};

// What one type of controller can do, in the project's own words.
struct ControllerProfile {
  ProfileId id;
  std::string name;
  std::vector<UnitKind> kindsServed;
  std::vector<HeatKind> heatServed;  // empty: none
  std::optional<int> inlets;
  std::optional<bool> fan, exhaust, damperFeedback, dischargeSensor;
  Custody schedules = Custody::unknown, trends = Custody::unknown, alarms = Custody::unknown;
  std::string protocol;
  std::optional<Pressure> leastControllablePressure;
  std::optional<Duration> strokeTime;
  std::optional<double> unitLoad;
  std::string document;

  friend bool operator==(const ControllerProfile&, const ControllerProfile&) = default;
};

struct RoomSensor {
  RoomSensorId id;
  std::string name;
  std::optional<bool> display, adjustment, override_, motion, canSetUpController;

  friend bool operator==(const RoomSensor&, const RoomSensor&) = default;
};

struct NetworkSegment {
  SegmentId id;
  std::string name;
  std::optional<double> speed;  // bit/s
  std::optional<int> highestAddress;
  std::optional<double> loadLimit;

  friend bool operator==(const NetworkSegment&, const NetworkSegment&) = default;
};

// What an instrument is worth in one quantity. Limits are ±(share · reading + plus), in SI, taken as
// rectangular; a certificate that gives an expanded uncertainty U (SI) and its k replaces them.
struct Accuracy {
  std::string quantity;  // as written: a reading quantity, or "flow", "temperature", "power", "pressure" …
  double share = 0;      // of reading, 0.03 is 3 %
  double plus = 0;       // SI
  double resolution = 0; // SI, 0 when not given
  std::optional<double> expanded, coverage;
  std::optional<FlowBasis> flowBasis;

  friend bool operator==(const Accuracy&, const Accuracy&) = default;
};

struct Instrument {
  InstrumentId id;
  std::string serial;
  std::string description;
  std::vector<Accuracy> accuracies;
  std::optional<Day> calibratedOn, calibrationDue;

  // The accuracy for a quantity: its own name first, then its dimension's; null when it has none.
  [[nodiscard]] const Accuracy* accuracyFor(ReadingQuantity) const;
  friend bool operator==(const Instrument&, const Instrument&) = default;
};

// A setting read from a controller, to be compared with the schedule. `setting` is a schedule column.
struct FoundSetting {
  UnitId unit;
  std::string setting;
  std::string typed;            // as read
  std::optional<double> value;  // SI, when it is a quantity
  std::optional<Timestamp> readAt;

  friend bool operator==(const FoundSetting&, const FoundSetting&) = default;
};

}  // namespace ductwright::fleet
