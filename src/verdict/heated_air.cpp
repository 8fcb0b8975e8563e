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

// The two flows of a mix as they were read: primary, and the fan's, of which primary is a part in a series unit.
struct MixedFlows {
  Estimate primary, fan;
  bool series = false;

  [[nodiscard]] double first() const { return std::max(0.0, primary.value); }
  [[nodiscard]] double induced() const { return std::max(0.0, series ? fan.value - primary.value : fan.value); }
};

std::optional<MixedFlows> mixedFlows(const Judging& j, const StepReadings& step, Shortage& shortage) {
  auto primary = primaryFlow(j, step, FlowBasis::actual, std::nullopt);
  if (!primary) {
    shortage = {Lacking::primaryFlow, step.onlyEarly(measuredFlow) || step.onlyEarly(reportedFlow)};
    return std::nullopt;
  }
  const bool series = j.unit().kind == UnitKind::seriesFan;
  auto fan = fanFlowOf(j, step, FlowBasis::actual);
  if (!fan && series) fan = outletSum(j, step, FlowBasis::actual);
  if (!fan) {
    shortage = {Lacking::fanFlow, step.onlyEarly(fanFlow) || (series && outletsEarly(step))};
    return std::nullopt;
  }
  return MixedFlows{std::move(*primary), std::move(*fan), series};
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
  const double share = all > 0 ? flows->first() / cold / all : 1;
  EnteringAir out;
  out.mixed = true;
  out.temperature.add(share, primary);
  out.temperature.add(1 - share, plenum);
  if (!(flows->induced() > 0)) return out;
  // How the mix follows each flow read; one instrument's errors in both partly cancel.
  const double byInduced = -(cold - warm) * share / warm / all;
  const double byPrimary = (cold - warm) * (1 - share) / cold / all - (flows->series ? byInduced : 0);
  InstrumentErrors errors;
  errors.add(flows->primary.errors, byPrimary);
  errors.add(flows->fan.errors, byInduced);
  out.mixing.fixed = errors.variance();
  out.mixing.scatter = flows->primary.scatter * byPrimary * byPrimary + flows->fan.scatter * byInduced * byInduced;
  out.mixing.readings = std::max(flows->primary.readings, flows->fan.readings);
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
