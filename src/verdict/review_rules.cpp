#include "review_rules.h"

#include <array>

namespace ductwright::verdict {
namespace {

using enum fleet::Severity;
using enum fleet::Party;

constexpr std::string_view kCommon = "common practice, no source";
constexpr std::string_view kLogic = "the schedule contradicts itself";
constexpr std::string_view kBacnet = "ASHRAE 135, from memory";

// In the order of `Rule`.
constexpr auto kRules = std::to_array<ReviewRule>({
    {"absurd-value", "A value that no unit of this kind can have", major, designEngineer, kCommon},
    {"flow-missing", "A flow that the unit's kind needs is not scheduled", major, designEngineer, kLogic},
    {"flow-order", "Order of the flow setpoints", major, designEngineer, kLogic},
    {"kind-conflict", "Data that do not belong to the unit's kind", moderate, designEngineer, kLogic},
    {"ventilation", "Ventilation minimum covered by every occupied flow", major, designEngineer,
     "ASHRAE 62.1: the ventilation flow is a minimum"},
    {"minimum-high", "Minimum flow above half the maximum with reheat", moderate, designEngineer,
     "ASHRAE 90.1-2013, 6.5.2.1, exception 2: half of peak"},
    {"inlet-missing", "Inlet size not given", minor, designEngineer, kCommon},
    {"inlet-velocity-high", "Inlet velocity at maximum against size", moderate, designEngineer,
     "design maximum 1800 to 2500 fpm, usable 400 to 2000 fpm, from memory"},
    {"inlet-velocity-low", "Inlet velocity at maximum and minimum against size", minor, designEngineer,
     "MIL-HDBK-1003/3, appendix C: accurate down to about 400 fpm"},
    {"least-controllable-flow", "Least flow against what the controller can sense", moderate, designEngineer,
     "velocity pressure against the controller's least controllable pressure, else the criteria's"},
    {"series-fan-flow", "Primary maximum against the series fan's flow", major, designEngineer,
     "primary air above the fan's flow spills into the plenum: common practice, no source"},

    {"heater-data", "Power and stages of electric heat given", moderate, designEngineer, kCommon},
    {"reheat-flow-missing", "A heated unit without reheat flow", moderate, designEngineer,
     "the lockout is proven against the reheat flow"},
    {"reheat-flow-low", "Reheat flow zero or below the cooling minimum", major, designEngineer, kLogic},
    {"heat-enable-ratio", "Share of the reheat flow at which heat is let on", major, designEngineer,
     "electric heat needs airflow first (NFPA 70, article 424, part VI, from memory)"},
    {"heater-minimum-flow", "Minimum airflow that the heater needs", major, designEngineer, kCommon},
    {"heater-rise", "Heater power against flow: discharge over the limit", moderate, designEngineer,
     "the unit's limit, else 20 °F over the heating setpoint (ASHRAE 90.1, Guideline 36)"},
    {"discharge-over-limit", "Design discharge temperature against the limit", moderate, designEngineer,
     "the unit's limit, else 20 °F over the heating setpoint (ASHRAE 90.1, Guideline 36)"},
    {"discharge-design", "Design discharge temperature against power and flow", minor, designEngineer,
     "sensible heat balance; the tolerance of the rise check"},
    {"discharge-limit", "Discharge limit against the zone's heating setpoint", moderate, designEngineer,
     "at most 20 °F over the space (ASHRAE 90.1, Guideline 36); above the setpoint to heat at all"},
    {"discharge-limit-missing", "Neither discharge limit nor heating setpoint", minor, designEngineer,
     "the limit check needs one of them"},
    {"setpoint-order", "Heating setpoint below the cooling setpoint", major, designEngineer, kLogic},
    {"coil-data", "Data from which a coil's rise is predicted", minor, designEngineer,
     "effectiveness-NTU needs the scheduled point"},
    {"coil-impossible", "Coil duty that no coil could give", major, designEngineer,
     "effectiveness-NTU, cross-flow, both unmixed"},
    {"discharge-limit-heat", "Discharge limit with heat that cannot modulate", moderate, designEngineer,
     kCommon},
    {"discharge-limit-sensor", "Discharge limit or heat control without a discharge sensor", major,
     controlsContractor, "Guideline 36: the heating loop controls the discharge temperature"},

    {"air-handler-unknown", "Air handler named and known", moderate, designEngineer, kLogic},
    {"warm-air", "Warm supply air against heating min and max", moderate, designEngineer, kCommon},
    {"entering-air", "Design entering air against the air handler's supply air", minor, designEngineer,
     kCommon},
    {"diversity", "Box maxima and minima against the air handler's flow", moderate, designEngineer, kCommon},

    {"profile-unknown", "Controller profile named and known", moderate, controlsContractor, kLogic},
    {"profile-lacks", "The unit's needs against its controller's profile", major, controlsContractor,
     "functions cannot be added later: common practice, no source"},
    {"stroke-time", "Stroke time of schedule and profile", minor, controlsContractor, kLogic},
    {"setup-means", "A means of set-up on site for each controller", minor, controlsContractor, kCommon},
    {"protocol", "Protocol against what the front end requires", major, controlsContractor, kCommon},
    {"front-end-points", "Schedules, trends and alarms against what the front end requires", moderate,
     controlsContractor, kCommon},
    {"damper-feedback", "Damper feedback, which tells a starved unit from a wrong setpoint", minor,
     controlsContractor, kCommon},

    {"sensor-missing", "Room sensor named", moderate, designEngineer, kLogic},
    {"sensor-unknown", "Room sensor known", moderate, controlsContractor, kLogic},
    {"sensor-motion", "Motion sensing for the standby flow", moderate, controlsContractor,
     "occupied standby needs an occupancy sensor (Guideline 36)"},
    {"sensor-override", "Override for the unoccupied flow", minor, controlsContractor, kCommon},
    {"sensor-adjustment", "Adjustment where the schedule gives no setpoint", minor, controlsContractor,
     kCommon},
    {"sensor-display", "Display where the setpoint can be adjusted", minor, controlsContractor, kCommon},

    {"duplicate-tag", "Unit tags are unique", major, designEngineer, kLogic},
    {"segment-unknown", "Network segment known", moderate, controlsContractor, kLogic},
    {"mac-range", "Network address within range", major, controlsContractor, kBacnet},
    {"mac-duplicate", "Network address unique on its segment", major, controlsContractor, kBacnet},
    {"mac-missing", "Network address given", minor, controlsContractor, kCommon},
    {"instance-range", "Device instance within range", major, controlsContractor, kBacnet},
    {"instance-duplicate", "Device instance unique", major, controlsContractor, kBacnet},
    {"instance-missing", "Device instance given", minor, controlsContractor, kCommon},
    {"segment-limits", "Speed and highest address of a segment", moderate, controlsContractor, kBacnet},
    {"segment-load", "Loads on a segment", major, controlsContractor, "EIA-485: 32 unit loads, from memory"},

    {"size-outlier", "Outliers among units of one kind and size", minor, designEngineer,
     "median and median absolute deviation: common practice, no source"},
    {"coefficient-outlier", "Flow coefficient against inlet size", moderate, controlsContractor,
     "K = 4005 A/√F (Advanced VAV System Design Guide, from memory); the median of its size"},
    {"setting-differs", "Settings as found against the schedule", moderate, controlsContractor,
     "exact or within rounding: common practice, no source"},
});
static_assert(kRules.size() == static_cast<std::size_t>(Rule::count));

template <class Records>
auto byName(const Records& records) {
  std::unordered_map<std::string_view, const typename Records::value_type*> out;
  for (const auto& record : records) out.emplace(record.name, &record);
  return out;
}

template <class Map>
auto foundIn(const Map& map, const std::string& name) -> typename Map::mapped_type {
  const auto it = map.find(name);
  return it == map.end() ? nullptr : it->second;
}

}  // namespace

std::span<const ReviewRule> reviewRules() {
  return kRules;
}
const ReviewRule& ruleOf(Rule rule) {
  return kRules[static_cast<std::size_t>(rule)];
}

Review::Review(const Snapshot& p, const ReviewLimits& l)
    : project(p),
      limits(l),
      air(air::siteAir(p.elevation, p.criteria.humidityRatio)),
      m_airHandlers(byName(p.airHandlers)),
      m_profiles(byName(p.profiles)),
      m_roomSensors(byName(p.roomSensors)),
      m_segments(byName(p.segments)) {
  for (const auto& record : p.units) {
    const Unit& u = record->unit;
    m_given.inlets = m_given.inlets || u.inletDiameter;
    m_given.profiles = m_given.profiles || !u.profile.empty();
    m_given.roomSensors = m_given.roomSensors || !u.roomSensor.empty();
    m_given.macs = m_given.macs || u.macAddress;
    m_given.instances = m_given.instances || u.deviceInstance;
  }
}

const fleet::AirHandler* Review::airHandler(const Unit& u) const {
  return foundIn(m_airHandlers, u.airHandler);
}
const fleet::ControllerProfile* Review::profile(const Unit& u) const {
  return foundIn(m_profiles, u.profile);
}
const fleet::RoomSensor* Review::roomSensor(const Unit& u) const {
  return foundIn(m_roomSensors, u.roomSensor);
}
const fleet::NetworkSegment* Review::segment(const Unit& u) const {
  return foundIn(m_segments, u.segment);
}

Finding& Review::find(Rule rule, const Unit& unit, std::string finding, std::string evidence) {
  Finding& out = find(rule, unit.tag, std::move(finding), std::move(evidence));
  out.unitId = unit.id;
  return out;
}

Finding& Review::find(Rule rule, std::string subject, std::string finding, std::string evidence) {
  const ReviewRule& r = ruleOf(rule);
  return m_findings.emplace_back(Finding{.rule = std::string(r.key),
                                         .unit = std::move(subject),
                                         .unitId = {},
                                         .severity = r.severity,
                                         .finding = std::move(finding),
                                         .evidence = std::move(evidence),
                                         .party = r.party});
}

std::string Review::text(quantity::Airflow v) const {
  return write(v.si(), quantity::Dimension::airflow, project.system);
}
std::string Review::text(quantity::Velocity v) const {
  return write(v.si(), quantity::Dimension::velocity, project.system);
}
std::string Review::text(quantity::Pressure v) const {
  return write(v.si(), quantity::Dimension::pressure, project.system);
}
std::string Review::text(quantity::Temperature v) const {
  return write(v.si(), quantity::Dimension::temperature, project.system);
}
std::string Review::text(quantity::TemperatureDifference v) const {
  return write(v.si(), quantity::Dimension::temperatureDifference, project.system);
}
std::string Review::text(quantity::Power v) const {
  return write(v.si(), quantity::Dimension::power, project.system);
}
std::string Review::text(quantity::Length v) const {
  return write(v.si(), quantity::Dimension::length, project.system);
}
std::string Review::text(quantity::FlowCoefficient v) const {
  return write(v.si(), quantity::Dimension::flowCoefficient, project.system);
}
std::string Review::text(quantity::Duration v) const {
  return write(v.si(), quantity::Dimension::duration, project.system);
}

std::string listed(const Review& review, std::initializer_list<NamedFlow> flows) {
  std::string out;
  for (const NamedFlow& f : flows) {
    if (!f.flow) continue;
    if (!out.empty()) out += ", ";
    out.append(f.name).append(" ").append(review.text(*f.flow));
  }
  return out;
}

std::string plain(double value, int decimals) {
  return quantity::writeNumber(value, quantity::Unit{quantity::Dimension::number, "", "", 1, 0, decimals});
}

std::string counted(std::size_t count, std::string_view noun) {
  return std::to_string(count).append(" ").append(noun).append(count == 1 ? "" : "s");
}

std::string ended(std::string sentence) {
  if (!sentence.ends_with('.')) sentence += '.';
  return sentence;
}

std::string joined(const std::vector<std::string>& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 == words.size() ? " and " : ", ";
    out += words[i];
  }
  return out;
}

}  // namespace ductwright::verdict
