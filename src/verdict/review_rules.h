#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "air/moist_air.h"
#include "verdict/review.h"

// What the families of rules share: the project seen from one unit, and the list that they write to.
namespace ductwright::verdict {

enum class Rule : std::uint8_t {
  // flows and size
  absurdValue,
  flowMissing,
  flowOrder,
  kindConflict,
  ventilation,
  minimumHigh,
  inletMissing,
  inletVelocityHigh,
  inletVelocityLow,
  leastControllable,
  seriesFanFlow,
  // heat
  heaterData,
  reheatFlowMissing,
  reheatFlowLow,
  heatEnableRatio,
  heaterMinimumFlow,
  heaterRise,
  dischargeOverLimit,
  dischargeDesign,
  dischargeLimitRange,
  dischargeLimitMissing,
  setpointOrder,
  coilData,
  coilImpossible,
  dischargeLimitHeat,
  dischargeLimitSensor,
  // air handlers
  airHandlerUnknown,
  warmAir,
  enteringAir,
  diversity,
  // controllers
  profileUnknown,
  profileLacks,
  strokeTime,
  setupMeans,
  protocol,
  frontEndPoints,
  damperFeedback,
  // room sensors
  sensorMissing,
  sensorUnknown,
  sensorMotion,
  sensorOverride,
  sensorAdjustment,
  sensorDisplay,
  // tags and network
  duplicateTag,
  segmentUnknown,
  macRange,
  macDuplicate,
  macMissing,
  instanceRange,
  instanceDuplicate,
  instanceMissing,
  segmentLimits,
  segmentLoad,
  // fleet-wide
  sizeOutlier,
  coefficientOutlier,
  settingDiffers,
  count
};

const ReviewRule& ruleOf(Rule);

class Review {
 public:
  Review(const Snapshot& project, const ReviewLimits& limits);

  const Snapshot& project;
  const ReviewLimits& limits;
  const air::SiteAir air;

  [[nodiscard]] const fleet::AirHandler* airHandler(const Unit&) const;
  [[nodiscard]] const fleet::ControllerProfile* profile(const Unit&) const;
  [[nodiscard]] const fleet::RoomSensor* roomSensor(const Unit&) const;
  [[nodiscard]] const fleet::NetworkSegment* segment(const Unit&) const;
  // What at least one unit of the schedule gives: where none does, its absence is no finding.
  struct Given {
    bool inlets = false, profiles = false, roomSensors = false, macs = false, instances = false;
  };
  [[nodiscard]] const Given& given() const { return m_given; }

  // A finding about a unit, or about something else by name; the caller may change its severity or party.
  Finding& find(Rule, const Unit&, std::string finding, std::string evidence);
  Finding& find(Rule, std::string subject, std::string finding, std::string evidence);
  std::vector<Finding> take() { return std::move(m_findings); }

  // "450 cfm", "1,203 fpm": a quantity in the project's units.
  [[nodiscard]] std::string text(quantity::Airflow) const;
  [[nodiscard]] std::string text(quantity::Velocity) const;
  [[nodiscard]] std::string text(quantity::Pressure) const;
  [[nodiscard]] std::string text(quantity::Temperature) const;
  [[nodiscard]] std::string text(quantity::TemperatureDifference) const;
  [[nodiscard]] std::string text(quantity::Power) const;
  [[nodiscard]] std::string text(quantity::Length) const;
  [[nodiscard]] std::string text(quantity::FlowCoefficient) const;
  [[nodiscard]] std::string text(quantity::Duration) const;

 private:
  template <class Record>
  using ByName = std::unordered_map<std::string_view, const Record*>;
  ByName<fleet::AirHandler> m_airHandlers;
  ByName<fleet::ControllerProfile> m_profiles;
  ByName<fleet::RoomSensor> m_roomSensors;
  ByName<fleet::NetworkSegment> m_segments;
  Given m_given;
  std::vector<Finding> m_findings;
};

// No terminal unit passes more: common practice, no source.
inline constexpr quantity::Airflow kGreatestFlow = quantity::cfm(20000);

// A scheduled flow with the name of its column.
struct NamedFlow {
  std::string_view name;
  std::optional<quantity::Airflow> flow;
};
constexpr bool above(const std::optional<quantity::Airflow>& flow, double si) {
  return flow && flow->si() > si;
}
// "cooling max 450 cfm, cooling min 120 cfm": those that are given.
std::string listed(const Review&, std::initializer_list<NamedFlow>);
// "2.5": a bare number with at most so many decimals.
std::string plain(double value, int decimals);
// "2 units", "1 unit".
std::string counted(std::size_t count, std::string_view noun);
// With a full stop at its end; "0.4 in. w.g." has one.
std::string ended(std::string sentence);
// "a, b and c".
std::string joined(const std::vector<std::string>& words);

// The unit's kind has a fan, or a heater of its own.
constexpr bool hasFan(const Unit& u) {
  return u.kind == fleet::UnitKind::parallelFan || u.kind == fleet::UnitKind::seriesFan;
}
constexpr bool electric(const Unit& u) {
  return u.heat == fleet::HeatKind::electricStaged || u.heat == fleet::HeatKind::electricModulating;
}

inline constexpr std::string_view kDischargeSensor = "a discharge sensor";
// The unit's heat control or its front end reads a discharge temperature.
bool needsDischargeSensor(const Review&, const Unit&);

// Returns true where a value is beyond belief: rules that would reckon with it say nothing then.
bool reviewAbsurdValues(Review&, const Unit&);
void reviewFlows(Review&, const Unit&);
void reviewInlet(Review&, const Unit&);
void reviewHeat(Review&, const Unit&);
void reviewDischarge(Review&, const Unit&);
void reviewAirHandler(Review&, const Unit&);
void reviewController(Review&, const Unit&, const ProfileNeed&);
void reviewRoomSensor(Review&, const Unit&);

void reviewDiversity(Review&);
void reviewProfiles(Review&);
void reviewTags(Review&);
void reviewNetwork(Review&);
void reviewOutliers(Review&);
void reviewSettings(Review&);

}  // namespace ductwright::verdict
