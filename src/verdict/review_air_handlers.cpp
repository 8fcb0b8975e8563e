#include <algorithm>
#include <unordered_map>

#include "review_rules.h"

// Units against their air handler: warm supply air, entering air, and all of them at once.
namespace ductwright::verdict {
namespace {

using fleet::HeatKind;
using fleet::UnitKind;

void warmAir(Review& review, const Unit& u, const fleet::AirHandler& handler) {
  if (!handler.suppliesWarmAir || u.kind == UnitKind::exhaust || u.kind == UnitKind::dualDuct) return;
  const bool heatingMax = above(u.heatingMax, 0);
  if (*handler.suppliesWarmAir) {
    const bool heatsItself =
        u.heat != HeatKind::none && (heatingMax || above(u.reheat, 0) || above(u.heatingMin, 0));
    if (heatsItself || (heatingMax && u.heatingMin)) return;
    review.find(Rule::warmAir, u,
                "The air handler supplies warm air, but the unit has no heating " +
                    std::string(heatingMax ? "min" : "max") + " to pass it by.",
                "air handler " + handler.name + "; " +
                    listed(review, {{"cooling max", u.coolingMax},
                                    {"cooling min", u.coolingMin},
                                    {"heating max", u.heatingMax},
                                    {"heating min", u.heatingMin}}));
    return;
  }
  if (u.heat != HeatKind::none || !heatingMax || !u.coolingMin ||
      *u.heatingMax <= *u.coolingMin * (1 + review.limits.flowRounding))
    return;
  review
      .find(Rule::warmAir, u, "The unit opens to heat, but neither it nor its air handler has warm air.",
            "air handler " + handler.name + "; " +
                listed(review, {{"heating max", u.heatingMax}, {"cooling min", u.coolingMin}}))
      .severity = fleet::Severity::minor;
}

void enteringAir(Review& review, const Unit& u, const fleet::AirHandler& handler) {
  if (u.kind != UnitKind::reheat || !u.designEnteringAir || !handler.supplyAirTemperature ||
      handler.suppliesWarmAir == true)
    return;
  const auto warmer = *u.designEnteringAir - *handler.supplyAirTemperature;
  if (warmer <= review.limits.enteringAir && warmer >= -review.limits.temperatureRounding) return;
  review.find(Rule::enteringAir, u,
              "The design entering air does not follow from the air handler's supply air.",
              "entering " + review.text(*u.designEnteringAir) + ", supply air " +
                  review.text(*handler.supplyAirTemperature) + " at " + handler.name);
}

// A flow beyond belief is told at its unit and counts for nothing here.
quantity::Airflow believed(const std::optional<quantity::Airflow>& flow) {
  return flow && flow->si() >= 0 && *flow <= kGreatestFlow ? *flow : quantity::Airflow{};
}

void loadFinding(Review& review, const AirHandlerLoad& load) {
  if (!load.designFlow || load.maxima.si() <= 0) return;
  const auto& limits = review.limits;
  const std::string sums = counted(load.units, "unit") + ", sum of maxima " + review.text(load.maxima) +
                           ", of minima " + review.text(load.minima) + "; design flow " +
                           review.text(*load.designFlow) + ", diversity " + plain(*load.diversity(), 2);
  if (load.minima > *load.designFlow * (1 + limits.flowRounding)) {
    review
        .find(Rule::diversity, load.airHandler,
              "The units' minima alone are more than the air handler's flow.", sums)
        .severity = fleet::Severity::major;
  } else if (*load.diversity() < limits.leastDiversity) {
    review.find(Rule::diversity, load.airHandler, "The units' maxima are far above the air handler's flow.",
                sums + ", at least " + plain(limits.leastDiversity, 2));
  } else if (*load.diversity() > limits.greatestDiversity) {
    review.find(Rule::diversity, load.airHandler,
                "The air handler's flow is above its units' maxima: units seem to be missing.",
                sums + ", at most " + plain(limits.greatestDiversity, 2));
  }
}

}  // namespace

std::vector<AirHandlerLoad> airHandlerLoads(const Snapshot& project) {
  std::vector<AirHandlerLoad> loads;
  std::unordered_map<std::string_view, std::size_t> at;
  for (const auto& record : project.units) {
    const Unit& u = record->unit;
    if (u.kind == UnitKind::exhaust || u.airHandler.empty()) continue;
    const auto [it, isNew] = at.emplace(u.airHandler, loads.size());
    if (isNew) {
      const auto* handler = project.airHandler(u.airHandler);
      loads.push_back({.airHandler = u.airHandler,
                       .units = 0,
                       .maxima = {},
                       .minima = {},
                       .designFlow = handler ? handler->designFlow : std::nullopt});
    }
    AirHandlerLoad& load = loads[it->second];
    ++load.units;
    load.maxima = load.maxima + believed(u.coolingMax);
    load.minima = load.minima + believed(u.coolingMin);
  }
  return loads;
}

void reviewAirHandler(Review& review, const Unit& u) {
  const auto* handler = review.airHandler(u);
  if (handler) {
    warmAir(review, u, *handler);
    enteringAir(review, u, *handler);
  } else if (!review.project.airHandlers.empty() && u.kind != UnitKind::exhaust) {
    review.find(Rule::airHandlerUnknown, u,
                u.airHandler.empty() ? "The unit names no air handler."
                                     : "The unit names an air handler that the project does not know.",
                u.airHandler.empty() ? "" : "air handler " + u.airHandler);
  }
}

void reviewDiversity(Review& review) {
  for (const AirHandlerLoad& load : airHandlerLoads(review.project)) loadFinding(review, load);
}

}  // namespace ductwright::verdict
