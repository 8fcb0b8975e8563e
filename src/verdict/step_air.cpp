#include "step_air.h"

#include <algorithm>

#include "air/flow_basis.h"

namespace ductwright::verdict {
namespace {

using enum fleet::ReadingQuantity;
using fleet::FlowBasis;
using quantity::Temperature;

// Where nothing was read or scheduled: cooled supply air; an exhaust unit draws room air. Common practice.
constexpr Temperature kUsualSupply = quantity::fahrenheit(55);
constexpr Temperature kUsualRoom = quantity::fahrenheit(70);

FlowBasis basisOf(const Counted& c) {
  const bool standard = c.instrument && c.instrument->worth[static_cast<std::size_t>(c.quantity())].standardBasis;
  return standard ? FlowBasis::standard : FlowBasis::actual;
}

Estimate meanOn(const Judging& j, const StepReadings& step, std::span<const Counted> readings, Place place,
                FlowBasis basis) {
  return meanOf(readings, j.context, [&](const Counted& c) { return toBasis(j, step, c, place, basis); });
}

}  // namespace

Temperature airTemperature(const Judging& j, const StepReadings& step, Place place) {
  if (place == Place::discharge) {
    if (const auto t = step.mean(dischargeAirTemperature)) return Temperature::fromSi(*t);
  }
  const bool exhaust = j.unit().kind == fleet::UnitKind::exhaust;
  for (const ReadingQuantity q : {enteringAirTemperature, primaryAirTemperature, supplyAirTemperature})
    if (const auto t = step.mean(q)) return Temperature::fromSi(*t);
  if (exhaust) {
    if (const auto t = step.mean(zoneTemperature)) return Temperature::fromSi(*t);
  }
  if (j.unit().designEnteringAir) return *j.unit().designEnteringAir;
  if (exhaust) return kUsualRoom;
  if (const auto* handler = j.context.airHandler(j.unit().airHandler); handler && handler->supplyAirTemperature)
    return *handler->supplyAirTemperature;
  return kUsualSupply;
}

double toBasis(const Judging& j, const StepReadings& step, const Counted& c, Place place, FlowBasis basis) {
  if (basisOf(c) == basis) return 1;
  const double standardShare = air::density(j.context.air(), airTemperature(j, step, place)) / air::kStandardDensity;
  return basis == FlowBasis::standard ? standardShare : 1 / standardShare;
}

std::optional<Estimate> flowOf(const Judging& j, const StepReadings& step, ReadingQuantity q, Place place,
                               FlowBasis basis) {
  const auto readings = step.of(q);
  if (readings.empty()) return std::nullopt;
  return meanOn(j, step, readings, place, basis);
}

bool outletsEarly(const StepReadings& step) {
  const auto readings = step.of(outletFlow), early = step.earlyOf(outletFlow);
  return std::any_of(early.begin(), early.end(), [&](const Counted& e) {
    return std::none_of(readings.begin(), readings.end(),
                        [&](const Counted& c) { return c.reading->outlet == e.reading->outlet; });
  });
}

std::optional<Estimate> outletSum(const Judging& j, const StepReadings& step, FlowBasis basis) {
  if (outletsEarly(step)) return std::nullopt;
  const auto readings = step.of(outletFlow);
  std::optional<Estimate> sum;
  for (std::size_t at = 0; at < readings.size();) {
    std::size_t end = at + 1;
    while (end < readings.size() && readings[end].reading->outlet == readings[at].reading->outlet) ++end;
    const Estimate mean = meanOn(j, step, readings.subspan(at, end - at), Place::discharge, basis);
    if (sum) {
      *sum += mean;
    } else {
      sum = mean;
    }
    at = end;
  }
  return sum;
}

}  // namespace ductwright::verdict
