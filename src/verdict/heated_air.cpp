#include "heated_air.h"

#include <algorithm>

#include "air/heat.h"

namespace ductwright::verdict {
namespace {

using enum fleet::ReadingQuantity;
using fleet::FlowBasis;
using fleet::UnitKind;

bool isFanPowered(const Unit& unit) { return unit.kind == UnitKind::seriesFan || unit.kind == UnitKind::parallelFan; }

std::span<const Counted> readingsOf(const StepReadings& step, ReadingQuantity q, Lacking lacking, Shortage& shortage) {
  const auto readings = step.of(q);
  if (readings.empty()) shortage = {lacking, step.onlyEarly(q)};
  return readings;
}

// The two flows of a mix as they were read: primary, and the induced flow, or the flow of which both are parts.
struct MixedFlows {
  Estimate primary, other;
  bool both = false;  // `other` is all of the air

  [[nodiscard]] double first() const { return std::max(0.0, primary.value); }
  [[nodiscard]] double induced() const { return std::max(0.0, both ? other.value - primary.value : other.value); }
};

std::optional<MixedFlows> mixedFlows(const Judging& j, const StepReadings& step, Shortage& shortage) {
  auto primary = primaryFlow(j, step, FlowBasis::actual, std::nullopt);
  if (!primary) {
    shortage = {Lacking::primaryFlow, step.onlyEarly(measuredFlow) || step.onlyEarly(reportedFlow)};
    return std::nullopt;
  }
  const bool series = j.unit().kind == UnitKind::seriesFan;
  if (auto fan = fanFlowOf(j, step, FlowBasis::actual)) return MixedFlows{std::move(*primary), std::move(*fan), series};
  // A parallel unit's outlets carry primary and fan, where the fan's air reaches them through the heater.
  const bool atDischarge = j.unit().heaterPosition == fleet::HeaterPosition::discharge;
  if (!series && atDischarge && !step.of(measuredFlow).empty()) {
    if (auto all = outletSum(j, step, FlowBasis::actual)) return MixedFlows{std::move(*primary), std::move(*all), true};
  }
  shortage = {Lacking::fanFlow, step.onlyEarly(fanFlow) || outletsEarly(step)};
  return std::nullopt;
}

std::optional<EnteringAir> mixedAir(const Judging& j, const StepReadings& step, Shortage& shortage) {
  const auto primary = readingsOf(step, primaryAirTemperature, Lacking::primaryAir, shortage);
  if (primary.empty()) return std::nullopt;
  const auto plenum = readingsOf(step, plenumAirTemperature, Lacking::plenumAir, shortage);
  if (plenum.empty()) return std::nullopt;
  const auto flows = mixedFlows(j, step, shortage);
  if (!flows) return std::nullopt;
  // Equal pressure and humidity: mass goes as flow over temperature.
  const double cold = *step.mean(primaryAirTemperature), warm = *step.mean(plenumAirTemperature);
  const double all = flows->first() / cold + flows->induced() / warm;
  if (!(all > 0)) {
    shortage = {Lacking::flow, false};
    return std::nullopt;
  }
  const double share = flows->first() / cold / all;
  EnteringAir out;
  out.mixed = true;
  out.temperature.add(share, primary);
  out.temperature.add(1 - share, plenum);
  // How the mix follows each flow read; one instrument's errors in both partly cancel.
  const double byInduced = -(cold - warm) * share / warm / all;
  const double byPrimary = (cold - warm) * (1 - share) / cold / all - (flows->both ? byInduced : 0);
  InstrumentErrors errors;
  errors.add(flows->primary.errors, byPrimary);
  errors.add(flows->other.errors, byInduced);
  out.mixing.fixed = errors.variance();
  out.mixing.scatter = flows->primary.scatter * byPrimary * byPrimary + flows->other.scatter * byInduced * byInduced;
  out.mixing.readings = std::max(flows->primary.readings, flows->other.readings);
  return out;
}

}  // namespace

std::optional<EnteringAir> enteringAir(const Judging& j, const StepReadings& step, Shortage& shortage) {
  auto readings = step.of(enteringAirTemperature);
  if (readings.empty() && isFanPowered(j.unit())) {
    auto mixed = mixedAir(j, step, shortage);
    if (!mixed && step.onlyEarly(enteringAirTemperature)) shortage = {Lacking::enteringAir, true};
    return mixed;
  }
  if (readings.empty()) readings = step.of(primaryAirTemperature);  // at the inlet of a unit without a fan
  if (readings.empty()) {
    shortage = {Lacking::enteringAir, step.onlyEarly(enteringAirTemperature) || step.onlyEarly(primaryAirTemperature)};
    return std::nullopt;
  }
  EnteringAir out;
  out.temperature.add(1, readings);
  return out;
}

Difference above(const EnteringAir& entering, std::span<const Counted> warmer, const JudgingContext& context) {
  TemperatureSum difference;
  difference.add(1, warmer);
  difference.add(-1, entering.temperature);
  Difference out{difference.value(), difference.spread(context)};
  out.spread += entering.mixing;
  return out;
}

std::optional<Estimate> warmedFlow(const Judging& j, const StepReadings& step, const EnteringAir& entering,
                                   Shortage& shortage) {
  HeaterFlow heater = heaterFlow(j, step, FlowBasis::actual, std::nullopt);
  if (!heater.flow) {
    shortage = {heater.lacking, heater.early};
    return std::nullopt;
  }
  const bool plenumInlet =
      j.unit().kind == UnitKind::parallelFan && j.unit().heaterPosition == fleet::HeaterPosition::plenumInlet;
  if (entering.mixed && plenumInlet) {
    if (const auto primary = primaryFlow(j, step, FlowBasis::actual, std::nullopt)) *heater.flow += *primary;
  }
  if (!(heater.flow->value > 0)) {
    shortage = {Lacking::flow, false};
    return std::nullopt;
  }
  return std::move(heater.flow);
}

}  // namespace ductwright::verdict
