#include "canonical.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <set>

namespace ductwright::project {
namespace {

using namespace fleet;

class Lines {
 public:
  void put(std::string_view key, std::string_view value) {
    m_text += key;
    m_text += ' ';
    for (const char c : value) {
      if (c == '\n') m_text += "\\n";
      else if (c == '\\') m_text += "\\\\";
      else m_text += c;
    }
    m_text += '\n';
  }
  void put(std::string_view key, double value) {
    std::array<char, 32> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value).ptr;
    put(key, std::string_view(buffer.data(), static_cast<std::size_t>(end - buffer.data())));
  }
  template <class T>
    requires requires(const T& t) { t.si(); }
  void put(std::string_view key, const T& value) {
    put(key, value.si());
  }
  template <class T>
    requires requires(const T& t) { t.text(); }
  void put(std::string_view key, const T& value) {
    put(key, std::string_view(value.text()));
  }
  template <class T>
  void put(std::string_view key, const std::optional<T>& value) {
    if (value) put(key, *value);
  }
  void put(std::string_view key, int value) { put(key, static_cast<double>(value)); }
  void put(std::string_view key, std::int64_t value) { put(key, std::string_view(std::to_string(value))); }
  [[nodiscard]] std::string take() { return std::move(m_text); }

 private:
  std::string m_text;
};

void putUnit(Lines& out, const Unit& u) {
  out.put("unit.tag", u.tag);
  out.put("unit.building", u.building);
  out.put("unit.floor", u.floor);
  out.put("unit.zone", u.zone);
  out.put("unit.air_handler", u.airHandler);
  out.put("unit.kind", name(u.kind));
  out.put("unit.inlet_diameter", u.inletDiameter);
  out.put("unit.cooling_max", u.coolingMax);
  out.put("unit.cooling_min", u.coolingMin);
  out.put("unit.heating_max", u.heatingMax);
  out.put("unit.heating_min", u.heatingMin);
  out.put("unit.reheat", u.reheat);
  out.put("unit.unoccupied", u.unoccupied);
  out.put("unit.standby", u.standby);
  out.put("unit.fan", u.fan);
  out.put("unit.hot_max", u.hotMax);
  out.put("unit.hot_min", u.hotMin);
  out.put("unit.ventilation_min", u.ventilationMin);
  out.put("unit.flow_basis", name(u.flowBasis));
  out.put("unit.heat", name(u.heat));
  out.put("unit.heater_position", name(u.heaterPosition));
  out.put("unit.heater_power", u.heaterPower);
  out.put("unit.heater_stages", u.heaterStages);
  out.put("unit.heat_enable_ratio", u.heatEnableRatio);
  out.put("unit.coil_water_flow", u.coilWaterFlow);
  out.put("unit.coil_entering_water", u.coilEnteringWater);
  out.put("unit.design_entering_air", u.designEnteringAir);
  out.put("unit.design_discharge", u.designDischarge);
  out.put("unit.discharge_limit", u.dischargeLimit);
  out.put("unit.zone_heating_setpoint", u.zoneHeatingSetpoint);
  out.put("unit.zone_cooling_setpoint", u.zoneCoolingSetpoint);
  out.put("unit.flow_coefficient", u.flowCoefficient);
  out.put("unit.stroke_time", u.strokeTime);
  out.put("unit.profile", u.profile);
  out.put("unit.room_sensor", u.roomSensor);
  out.put("unit.segment", u.segment);
  out.put("unit.mac_address", u.macAddress);
  out.put("unit.device_instance", u.deviceInstance);
}

void putCriteria(Lines& out, const Criteria& c) {
  out.put("criteria.version", c.version);
  out.put("criteria.rule", c.rule == DecisionRule::simple ? "simple" : "guarded");
  const std::pair<std::string_view, double> numbers[] = {
      {"capability_ratio", c.capabilityRatio},
      {"capability_low", c.capabilityLow},
      {"capability_high", c.capabilityHigh},
      {"guard_low", c.guardLow},
      {"guard_high", c.guardHigh},
      {"close_low", c.closeLow},
      {"close_high", c.closeHigh},
      {"flow_low", c.flowLow},
      {"flow_high", c.flowHigh},
      {"flow_floor", c.flowFloor.si()},
      {"reported_share", c.reportedShare},
      {"reported_floor", c.reportedFloor.si()},
      {"heat_enable_ratio", c.heatEnableRatio},
      {"lockout_flow_tolerance", c.lockoutFlowTolerance},
      {"lockout_reported_share", c.lockoutReportedShare},
      {"rise_share", c.riseShare},
      {"rise_floor", c.riseFloor.si()},
      {"limit_above_setpoint", c.limitAboveSetpoint.si()},
      {"ventilation_note", c.ventilationNote.si()},
      {"cold_when_off", c.coldWhenOff.si()},
      {"nameplate_share", c.nameplateShare},
      {"coil_model_share", c.coilModelShare},
      {"default_flow_share", c.defaultFlowShare},
      {"default_power_share", c.defaultPowerShare},
      {"default_temperature", c.defaultTemperature.si()},
      {"same_instrument", c.sameInstrument.si()},
      {"humidity_ratio", c.humidityRatio},
      {"stroke_unknown", c.strokeUnknown.si()},
      {"settle", c.settle.si()},
      {"lockout_wait", c.lockoutWait.si()},
      {"heat_on_wait", c.heatOnWait.si()},
      {"heat_off_water_wait", c.heatOffWaterWait.si()},
      {"heat_off_electric_wait", c.heatOffElectricWait.si()},
      {"least_controllable", c.leastControllable.si()},
      {"starved_damper", c.starvedDamper},
      {"valve_open", c.valveOpen},
      {"largest_correction", c.largestCorrection},
  };
  for (const auto& [key, value] : numbers) out.put("criteria." + std::string(key), value);
}

void putInstrument(Lines& out, const Instrument& i) {
  out.put("instrument.serial", i.serial);
  out.put("instrument.description", i.description);
  out.put("instrument.calibrated_on", i.calibratedOn);
  out.put("instrument.calibration_due", i.calibrationDue);
  for (const Accuracy& a : i.accuracies) {
    out.put("accuracy.quantity", a.quantity);
    out.put("accuracy.share", a.share);
    out.put("accuracy.plus", a.plus);
    out.put("accuracy.resolution", a.resolution);
    out.put("accuracy.expanded", a.expanded);
    out.put("accuracy.coverage", a.coverage);
    if (a.flowBasis) out.put("accuracy.flow_basis", name(*a.flowBasis));
  }
}

void putReading(Lines& out, const Reading& r) {
  out.put("reading.key", r.key.batch.uuid.text() + "/" + std::to_string(r.key.ordinal));
  out.put("reading.procedure", name(r.procedure));
  out.put("reading.run", r.run);
  out.put("reading.step", stepName(r.procedure, r.step));
  out.put("reading.quantity", name(r.quantity));
  out.put("reading.value", r.value);
  out.put("reading.typed", r.typed);
  if (!r.outlet.empty()) out.put("reading.outlet", r.outlet);
  if (!r.instrument.empty()) out.put("reading.instrument", r.instrument);
  out.put("reading.taken_at", r.takenAt);
  if (!r.takenBy.empty()) out.put("reading.taken_by", r.takenBy);
  if (r.waited) out.put("reading.waited", static_cast<double>(*r.waited));
  if (!r.note.empty()) out.put("reading.note", r.note);
  if (r.withdrawn) out.put("reading.withdrawn", "yes");
}

void putVerdict(Lines& out, const verdict::UnitVerdict& v) {
  out.put("verdict.result", verdict::name(v.outcome));
  out.put("verdict.score", v.score);
  for (std::size_t i = 0; i < verdict::kCriteria; ++i) {
    const auto& c = v.criteria[i];
    out.put("criterion.name", verdict::name(static_cast<verdict::Criterion>(i)));
    out.put("criterion.result", verdict::name(c.outcome));
    out.put("criterion.score", c.score);
  }
  for (const verdict::Check& c : v.checks) {
    out.put("check.name", verdict::name(c.kind));
    out.put("check.step", stepName(c.procedure, c.step));
    out.put("check.result", verdict::name(c.outcome));
    if (const std::string why = verdict::because(c); !why.empty()) out.put("check.because", why);
    for (const auto& [key, value] : {std::pair{"check.measured", c.measured}, {"check.expected", c.expected},
                                     {"check.low", c.low}, {"check.high", c.high}, {"check.u", c.u},
                                     {"check.conformity", c.conformity}})
      if (value == value) out.put(key, value);
  }
}

}  // namespace

std::string canonicalText(const UnitRecord& record, const verdict::UnitVerdict& verdict, const Snapshot& project) {
  Lines out;
  out.put("ductwright-signed", kCanonicalFormat);
  out.put("project", project.projectName);
  out.put("elevation", project.elevation);
  putUnit(out, record.unit);
  putCriteria(out, project.criteria);
  if (const auto* profile = project.profile(record.unit.profile)) {
    out.put("profile.stroke_time", profile->strokeTime);
    out.put("profile.least_controllable_pressure", profile->leastControllablePressure);
  }
  if (const auto* airHandler = project.airHandler(record.unit.airHandler))
    out.put("air_handler.supply_air_temperature", airHandler->supplyAirTemperature);

  std::set<std::string> serials;
  for (const Reading& r : record.readings) serials.insert(r.instrument.text());
  for (const std::string& serial : serials)
    if (const auto* instrument = project.instrument(serial)) putInstrument(out, *instrument);

  std::vector<const Reading*> readings;
  readings.reserve(record.readings.size());
  for (const Reading& r : record.readings) readings.push_back(&r);
  std::sort(readings.begin(), readings.end(), [](const auto* a, const auto* b) { return a->key < b->key; });
  for (const Reading* r : readings) putReading(out, *r);
  putVerdict(out, verdict);
  return out.take();
}

}  // namespace ductwright::project
