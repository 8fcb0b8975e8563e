#pragma once

#include <string_view>

#include "fleet/record.h"
#include "store/writer.h"

// Each record's columns, once: a visitor of these writes, reads or names them. The order is free; the names
// are the table's. `v.moment` is a time in two columns, the moment and the offset at which it was written
// down.
namespace ductwright::store {

template <class V, class T>
void fields(V& v, T& info) requires std::same_as<std::remove_const_t<T>, ProjectInfo> {
  v("name", info.name);
  v("system", info.system);
  v("elevation", info.elevation);
}

template <class V, class T>
void fields(V& v, T& building) requires std::same_as<std::remove_const_t<T>, fleet::Building> {
  v("name", building.name);
  v("elevation", building.elevation);
}

template <class V, class T>
void fields(V& v, T& a) requires std::same_as<std::remove_const_t<T>, fleet::AirHandler> {
  v("name", a.name);
  v("design_flow", a.designFlow);
  v("supplies_warm_air", a.suppliesWarmAir);
  v("supply_air_temperature", a.supplyAirTemperature);
  v("duct_static_pressure", a.ductStaticPressure);
}

template <class V, class T>
void fields(V& v, T& u) requires std::same_as<std::remove_const_t<T>, fleet::Unit> {
  v("tag", u.tag);
  v("building", u.building);
  v("floor", u.floor);
  v("zone", u.zone);
  v("air_handler", u.airHandler);
  v("kind", u.kind);
  v("inlet_diameter", u.inletDiameter);
  v("cooling_max", u.coolingMax);
  v("cooling_min", u.coolingMin);
  v("heating_max", u.heatingMax);
  v("heating_min", u.heatingMin);
  v("reheat", u.reheat);
  v("unoccupied", u.unoccupied);
  v("standby", u.standby);
  v("fan", u.fan);
  v("hot_max", u.hotMax);
  v("hot_min", u.hotMin);
  v("ventilation_min", u.ventilationMin);
  v("flow_basis", u.flowBasis);
  v("heat", u.heat);
  v("heater_position", u.heaterPosition);
  v("heater_power", u.heaterPower);
  v("heater_stages", u.heaterStages);
  v("heat_enable_ratio", u.heatEnableRatio);
  v("coil_water_flow", u.coilWaterFlow);
  v("coil_entering_water", u.coilEnteringWater);
  v("design_entering_air", u.designEnteringAir);
  v("design_discharge", u.designDischarge);
  v("discharge_limit", u.dischargeLimit);
  v("zone_heating_setpoint", u.zoneHeatingSetpoint);
  v("zone_cooling_setpoint", u.zoneCoolingSetpoint);
  v("flow_coefficient", u.flowCoefficient);
  v("stroke_time", u.strokeTime);
  v("profile", u.profile);
  v("room_sensor", u.roomSensor);
  v("segment", u.segment);
  v("mac_address", u.macAddress);
  v("device_instance", u.deviceInstance);
}

template <class V, class T>
void fields(V& v, T& p) requires std::same_as<std::remove_const_t<T>, fleet::ControllerProfile> {
  v("name", p.name);
  v("kinds_served", p.kindsServed);
  v("heat_served", p.heatServed);
  v("inlets", p.inlets);
  v("fan", p.fan);
  v("exhaust", p.exhaust);
  v("damper_feedback", p.damperFeedback);
  v("discharge_sensor", p.dischargeSensor);
  v("schedules", p.schedules);
  v("trends", p.trends);
  v("alarms", p.alarms);
  v("protocol", p.protocol);
  v("least_controllable_pressure", p.leastControllablePressure);
  v("stroke_time", p.strokeTime);
  v("unit_load", p.unitLoad);
  v("document", p.document);
}

template <class V, class T>
void fields(V& v, T& s) requires std::same_as<std::remove_const_t<T>, fleet::RoomSensor> {
  v("name", s.name);
  v("display", s.display);
  v("adjustment", s.adjustment);
  v("override", s.override_);
  v("motion", s.motion);
  v("can_set_up_controller", s.canSetUpController);
}

template <class V, class T>
void fields(V& v, T& s) requires std::same_as<std::remove_const_t<T>, fleet::NetworkSegment> {
  v("name", s.name);
  v("speed", s.speed);
  v("highest_address", s.highestAddress);
  v("load_limit", s.loadLimit);
}

template <class V, class T>
void fields(V& v, T& i) requires std::same_as<std::remove_const_t<T>, fleet::Instrument> {
  v("serial", i.serial);
  v("description", i.description);
  v("calibrated_on", i.calibratedOn);
  v("calibration_due", i.calibrationDue);
}

template <class V, class T>
void fields(V& v, T& a) requires std::same_as<std::remove_const_t<T>, fleet::Accuracy> {
  v("quantity", a.quantity);
  v("share", a.share);
  v("plus", a.plus);
  v("resolution", a.resolution);
  v("expanded", a.expanded);
  v("coverage", a.coverage);
  v("flow_basis", a.flowBasis);
}

template <class V, class T>
void fields(V& v, T& c) requires std::same_as<std::remove_const_t<T>, fleet::Criteria> {
  v("rule", c.rule);
  v("capability_ratio", c.capabilityRatio);
  v("capability_low", c.capabilityLow);
  v("capability_high", c.capabilityHigh);
  v("guard_low", c.guardLow);
  v("guard_high", c.guardHigh);
  v("close_low", c.closeLow);
  v("close_high", c.closeHigh);
  v("flow_low", c.flowLow);
  v("flow_high", c.flowHigh);
  v("flow_floor", c.flowFloor);
  v("reported_share", c.reportedShare);
  v("reported_floor", c.reportedFloor);
  v("heat_enable_ratio", c.heatEnableRatio);
  v("lockout_flow_tolerance", c.lockoutFlowTolerance);
  v("lockout_reported_share", c.lockoutReportedShare);
  v("rise_share", c.riseShare);
  v("rise_floor", c.riseFloor);
  v("limit_above_setpoint", c.limitAboveSetpoint);
  v("ventilation_note", c.ventilationNote);
  v("cold_when_off", c.coldWhenOff);
  v("nameplate_share", c.nameplateShare);
  v("coil_model_share", c.coilModelShare);
  v("default_flow_share", c.defaultFlowShare);
  v("default_power_share", c.defaultPowerShare);
  v("default_temperature", c.defaultTemperature);
  v("same_instrument", c.sameInstrument);
  v("humidity_ratio", c.humidityRatio);
  v("stroke_unknown", c.strokeUnknown);
  v("settle", c.settle);
  v("lockout_wait", c.lockoutWait);
  v("heat_on_wait", c.heatOnWait);
  v("heat_off_water_wait", c.heatOffWaterWait);
  v("heat_off_electric_wait", c.heatOffElectricWait);
  v("least_controllable", c.leastControllable);
  v("starved_damper", c.starvedDamper);
  v("valve_open", c.valveOpen);
  v("largest_correction", c.largestCorrection);
}

template <class V, class T>
void fields(V& v, T& run) requires std::same_as<std::remove_const_t<T>, fleet::Run> {
  v("procedure", run.procedure);
  v("number", run.number);
  v.moment("started_at", "started_offset", run.startedAt);
  v("started_by", run.startedBy);
  v("reason", run.reason);
}

template <class V, class T>
void fields(V& v, T& s) requires std::same_as<std::remove_const_t<T>, fleet::FoundSetting> {
  v("typed", s.typed);
  v("value", s.value);
  v.moment("read_at", "read_offset", s.readAt);
}

template <class V, class T>
void fields(V& v, T& d) requires std::same_as<std::remove_const_t<T>, fleet::Deficiency> {
  v("number", d.number);
  v("cause", d.cause);
  v("party", d.party);
  v("severity", d.severity);
  v("title", d.title);
  v("evidence", d.evidence);
  v("closes", d.closes);
}

template <class V, class T>
void fields(V& v, T& m) requires std::same_as<std::remove_const_t<T>, fleet::DeficiencyMove> {
  v("to_state", m.to);
  v.moment("at", "at_offset", m.at);
  v("by", m.by);
  v("role", m.role);
  v("note", m.note);
}

template <class V, class T>
void fields(V& v, T& s) requires std::same_as<std::remove_const_t<T>, fleet::SignOff> {
  v("person", s.person);
  v("role", s.role);
  v("meaning", s.meaning);
  v.moment("at", "at_offset", s.at);
  v("digest", s.digest);
  v("broken_because", s.brokenBecause);
  v.moment("broken_at", "broken_offset", s.brokenAt);
  v("broken_by", s.brokenBy);
}

}  // namespace ductwright::store
