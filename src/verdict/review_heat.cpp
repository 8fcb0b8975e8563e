#include <algorithm>
#include <cmath>

#include "air/coil.h"
#include "air/heat.h"
#include "review_rules.h"

// Heaters and coils against their flow, and the discharge temperature against its limit.
namespace ductwright::verdict {
namespace {

using fleet::HeaterPosition;
using fleet::HeatKind;
using fleet::UnitKind;
using quantity::Airflow;
using quantity::Temperature;
using quantity::TemperatureDifference;

bool heated(const Unit& u) {
  return u.heat != HeatKind::none && u.kind != UnitKind::exhaust && u.kind != UnitKind::coolingOnly;
}

// Primary air while heating: electric heat runs at the reheat flow, a coil up to the heating maximum.
std::optional<Airflow> primaryInHeating(const Unit& u) {
  const auto order = electric(u) ? std::array{u.reheat, u.heatingMax, u.heatingMin}
                                 : std::array{u.heatingMax, u.reheat, u.heatingMin};
  if (!hasFan(u))
    for (const auto& flow : order)
      if (above(flow, 0)) return flow;
  if (hasFan(u))
    for (const auto& flow : {u.heatingMax, u.heatingMin, u.coolingMin})
      if (above(flow, 0)) return flow;
  return std::nullopt;
}

// The air that passes the heater at full heat, and its temperature where it enters.
struct HeaterAir {
  Airflow flow;
  Temperature entering;
  [[nodiscard]] quantity::CapacityRate capacity(const Review& review) const {
    return air::airCapacity(review.air, entering, flow);
  }
};

Temperature supplyAir(const Review& review, const Unit& u) {
  const auto* handler = review.airHandler(u);
  return handler && handler->supplyAirTemperature && handler->suppliesWarmAir != true
             ? *handler->supplyAirTemperature
             : review.limits.supplyAir;
}

std::optional<HeaterAir> heaterAir(const Review& review, const Unit& u) {
  const auto primary = primaryInHeating(u);
  const Temperature cold = supplyAir(review, u);
  if (!hasFan(u))
    return primary ? std::optional(HeaterAir{*primary, u.designEnteringAir.value_or(cold)}) : std::nullopt;
  if (!above(u.fan, 0)) return std::nullopt;
  const Temperature plenum = review.limits.plenumAir;
  if (u.kind == UnitKind::parallelFan && u.heaterPosition == HeaterPosition::plenumInlet)
    return HeaterAir{*u.fan, u.designEnteringAir.value_or(plenum)};
  const Airflow p = primary.value_or(Airflow{});
  const bool series = u.kind == UnitKind::seriesFan;
  const Airflow total = series ? *u.fan : *u.fan + p;
  const Airflow induced = series ? std::max(*u.fan - p, Airflow{}) : *u.fan;
  return HeaterAir{total, u.designEnteringAir.value_or(
                              air::mixed(review.air, {total - induced, cold}, {induced, plenum}))};
}

// The flow from which the lockout lets heat on, where a reheat flow is scheduled.
std::optional<Airflow> thresholdFlow(const Review& review, const Unit& u) {
  const double ratio = u.heatEnableRatio.value_or(review.project.criteria.heatEnableRatio);
  return above(u.reheat, 0) && ratio > 0 ? std::optional(*u.reheat * ratio) : std::nullopt;
}

std::optional<Temperature> dischargeLimit(const Review& review, const Unit& u) {
  if (u.dischargeLimit) return u.dischargeLimit;
  if (u.zoneHeatingSetpoint) return *u.zoneHeatingSetpoint + review.project.criteria.limitAboveSetpoint;
  return std::nullopt;
}

void heaterData(Review& review, const Unit& u) {
  if (!electric(u)) return;
  const bool stages = u.heat == HeatKind::electricStaged && u.heaterStages.value_or(0) < 1;
  const bool power = !u.heaterPower || u.heaterPower->si() <= 0;
  if (!stages && !power) return;
  Finding& f = review.find(
      Rule::heaterData, u,
      power ? "The electric heater's power is not given: its rise cannot be expected."
            : "The number of heater stages is not given.",
      "heat " + std::string(name(u.heat)) + (u.heaterPower ? ", " + review.text(*u.heaterPower) : ""));
  if (!power) f.severity = fleet::Severity::minor;
}

void reheatFlow(Review& review, const Unit& u) {
  const bool heatingMin = above(u.heatingMin, 0);
  if (!u.reheat) {
    const bool covered = electric(u) ? false : hasFan(u) || above(u.heatingMax, 0) || heatingMin;
    if (covered) return;
    Finding& f = review.find(
        Rule::reheatFlowMissing, u,
        !electric(u) ? "A heated unit has neither reheat flow nor heating flow."
        : heatingMin
            ? "Electric heat without a reheat flow: the lockout would be proven against the heating min."
            : "Electric heat without a reheat flow: its airflow lockout cannot be proven.",
        listed(review, {{"cooling max", u.coolingMax},
                        {"cooling min", u.coolingMin},
                        {"heating max", u.heatingMax},
                        {"heating min", u.heatingMin}}));
    if (electric(u) && !heatingMin) f.severity = fleet::Severity::major;
    return;
  }
  const bool zero = u.reheat->si() <= 0;
  const bool low = u.coolingMin && *u.reheat < *u.coolingMin * (1 - review.limits.flowRounding);
  if (!zero && !low) return;
  review.find(Rule::reheatFlowLow, u,
              zero ? "The reheat flow is zero." : "The reheat flow is less than the cooling minimum.",
              listed(review, {{"reheat", u.reheat}, {"cooling min", u.coolingMin}}));
}

void enableRatio(Review& review, const Unit& u) {
  if (!u.heatEnableRatio) return;
  const double r = *u.heatEnableRatio;
  const bool outOfRange = r < 0 || r > 1;
  if (!outOfRange && !(r == 0 && electric(u))) return;
  review.find(Rule::heatEnableRatio, u,
              outOfRange ? "The heat enable ratio is a share of the reheat flow, between 0 and 1."
                         : "Electric heat without an airflow lockout.",
              "heat enable ratio " + plain(r, 2));
}

// Returns true where the heater has too little air, so that its rise is not told a second time.
bool heaterMinimumFlow(Review& review, const Unit& u, const HeaterAir& heater) {
  const TemperatureDifference most = review.limits.greatestHeaterRise;
  const Airflow needed = air::impliedFlow(review.air, heater.entering, *u.heaterPower, most);
  Airflow least = heater.flow;
  if (const auto threshold = thresholdFlow(review, u); threshold && !hasFan(u))
    least = std::min(least, *threshold);
  if (least >= needed) return false;
  const bool atThreshold = heater.flow >= needed;
  review.find(Rule::heaterMinimumFlow, u,
              atThreshold ? "The lockout lets heat on at less air than the heater needs."
                          : "The flow while heating is too low for the heater.",
              review.text(*u.heaterPower) + " in " + review.text(least) + ", needs " + review.text(needed) +
                  " (rise at most " + review.text(most) + ")");
  return true;
}

// Returns true where full heat passes the limit.
bool heaterRise(Review& review, const Unit& u, const HeaterAir& heater) {
  const auto limit = dischargeLimit(review, u);
  if (!limit) return false;
  const TemperatureDifference rise = air::rise(*u.heaterPower, heater.capacity(review));
  const Temperature discharge = heater.entering + rise;
  if (discharge <= *limit + review.limits.temperatureRounding) return false;
  const TemperatureDifference allowed = *limit - heater.entering;
  Finding& f = review.find(
      Rule::heaterRise, u, "At full power the heater warms its air past the discharge limit.",
      review.text(*u.heaterPower) + " in " + review.text(heater.flow) + ": " + review.text(rise) + " from " +
          review.text(heater.entering) + " to " + review.text(discharge) + ", limit " + review.text(*limit) +
          (allowed.si() > 0 ? "; needs " + review.text(air::impliedFlow(review.air, heater.entering,
                                                                        *u.heaterPower, allowed))
                            : ""));
  if (u.heat == HeatKind::electricModulating) f.severity = fleet::Severity::minor;
  return true;
}

// Returns true where the scheduled discharge temperature passes the limit.
bool dischargeOverLimit(Review& review, const Unit& u) {
  const auto limit = dischargeLimit(review, u);
  if (!limit || !u.designDischarge || *u.designDischarge <= *limit + review.limits.temperatureRounding)
    return false;
  review.find(Rule::dischargeOverLimit, u, "The design discharge temperature is above the limit.",
              "design " + review.text(*u.designDischarge) + ", limit " + review.text(*limit));
  return true;
}

void dischargeDesign(Review& review, const Unit& u, const HeaterAir& heater) {
  if (!u.designDischarge || !u.designEnteringAir) return;
  const auto& criteria = review.project.criteria;
  const TemperatureDifference rise = air::rise(*u.heaterPower, heater.capacity(review));
  const TemperatureDifference design = *u.designDischarge - *u.designEnteringAir;
  const double allowed = std::max(criteria.riseShare * std::abs(rise.si()), criteria.riseFloor.si());
  if (std::abs((rise - design).si()) <= allowed) return;
  review.find(Rule::dischargeDesign, u, "Heater power and flow do not give the design discharge temperature.",
              review.text(*u.heaterPower) + " in " + review.text(heater.flow) + " gives " +
                  review.text(rise) + ", the schedule " + review.text(design) + " (" +
                  review.text(*u.designEnteringAir) + " to " + review.text(*u.designDischarge) + ")");
}

void coil(Review& review, const Unit& u) {
  std::vector<std::string> missing;
  if (!u.coilEnteringWater) missing.emplace_back("entering water temperature");
  if (!u.coilWaterFlow || u.coilWaterFlow->si() <= 0) missing.emplace_back("water flow");
  if (!u.designDischarge) missing.emplace_back("design discharge temperature");
  if (!missing.empty()) {
    review.find(
        Rule::coilData, u,
        "The coil's rise can only be proven from the water side: its schedule lacks " + joined(missing) + ".",
        "");
    return;
  }
  const auto heater = heaterAir(review, u);
  if (!heater) return;
  const air::CoilPoint point{.air = heater->capacity(review),
                             .water = air::waterCapacity(*u.coilWaterFlow),
                             .enteringAir = heater->entering,
                             .dischargeAir = *u.designDischarge,
                             .enteringWater = *u.coilEnteringWater};
  if (air::fittedConductance(point)) return;
  const TemperatureDifference rise = *u.designDischarge - heater->entering;
  const auto duty = air::heat(point.air, rise);
  review.find(
      Rule::coilImpossible, u, "No coil can warm this air with this water.",
      review.text(heater->flow) + " from " + review.text(heater->entering) + " to " +
          review.text(*u.designDischarge) + " takes " + review.text(duty) + "; " +
          quantity::write(u.coilWaterFlow->si(), quantity::Dimension::waterFlow, review.project.system) +
          " at " + review.text(*u.coilEnteringWater) + " would leave at " +
          review.text(*u.coilEnteringWater - air::rise(duty, point.water)));
}

void dischargeLimitRange(Review& review, const Unit& u) {
  if (!u.dischargeLimit || !u.zoneHeatingSetpoint) return;
  const TemperatureDifference over = *u.dischargeLimit - *u.zoneHeatingSetpoint;
  const bool cold = over.si() <= 0;
  const bool hot = over > review.project.criteria.limitAboveSetpoint + review.limits.temperatureRounding;
  if (!cold && !hot) return;
  Finding& f = review.find(
      Rule::dischargeLimitRange, u,
      cold ? "The discharge limit is not above the heating setpoint: the unit cannot heat."
           : "The discharge limit is far above the heating setpoint: warm air stays at the ceiling.",
      "limit " + review.text(*u.dischargeLimit) + ", heating setpoint " +
          review.text(*u.zoneHeatingSetpoint));
  if (hot) f.severity = fleet::Severity::minor;
}

void setpointOrder(Review& review, const Unit& u) {
  if (!u.zoneHeatingSetpoint || !u.zoneCoolingSetpoint || *u.zoneHeatingSetpoint < *u.zoneCoolingSetpoint)
    return;
  review.find(
      Rule::setpointOrder, u, "The heating setpoint is not below the cooling setpoint.",
      "heating " + review.text(*u.zoneHeatingSetpoint) + ", cooling " + review.text(*u.zoneCoolingSetpoint));
}

void dischargeControl(Review& review, const Unit& u) {
  if (u.dischargeLimit && u.heat == HeatKind::electricStaged)
    review.find(
        Rule::dischargeLimitHeat, u,
        "The discharge temperature is limited, but staged heat cannot modulate to hold it.",
        "limit " + review.text(*u.dischargeLimit) + ", " + std::string(name(u.heat)) +
            (u.heaterStages ? ", " + counted(static_cast<std::size_t>(std::max(0, *u.heaterStages)), "stage")
                            : ""));
  const auto* profile = review.profile(u);
  if (!profile || profile->dischargeSensor == true || !needsDischargeSensor(review, u)) return;
  Finding& f = review.find(
      Rule::dischargeLimitSensor, u,
      u.dischargeLimit ? "The discharge temperature is limited, but the controller has no discharge sensor."
                       : "The heat modulates, but the controller has no discharge sensor.",
      "profile " + profile->name + ", " + std::string(name(u.heat)) +
          (u.dischargeLimit ? ", limit " + review.text(*u.dischargeLimit) : ""));
  if (!u.dischargeLimit) f.severity = fleet::Severity::moderate;
}

}  // namespace

bool needsDischargeSensor(const Review& review, const Unit& u) {
  if (!heated(u)) return false;
  return review.limits.frontEnd.dischargeSensor || u.dischargeLimit || u.heat != HeatKind::electricStaged;
}

void reviewHeat(Review& review, const Unit& u) {
  if (!heated(u)) return;
  heaterData(review, u);
  reheatFlow(review, u);
  enableRatio(review, u);
  if (u.heat == HeatKind::hotWater) coil(review, u);
}

void reviewDischarge(Review& review, const Unit& u) {
  setpointOrder(review, u);
  if (!heated(u)) return;
  dischargeLimitRange(review, u);
  if (!dischargeLimit(review, u))
    review.find(Rule::dischargeLimitMissing, u,
                "Neither a discharge limit nor a heating setpoint: the limit cannot be checked.", "");
  dischargeControl(review, u);
  const auto heater = heaterAir(review, u);
  const bool power = heater && u.heaterPower && u.heaterPower->si() > 0;
  if (power && electric(u)) {
    if (heaterMinimumFlow(review, u, *heater)) return;
    if (heaterRise(review, u, *heater)) return;
  }
  if (dischargeOverLimit(review, u)) return;
  if (power) dischargeDesign(review, u, *heater);
}

}  // namespace ductwright::verdict
