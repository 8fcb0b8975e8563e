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

// The two flows of a mix, and what they were read from.
struct MixedFlows {
  double primary = 0, induced = 0;
  Estimate first, other;              // primary; the induced flow, or the flow of which it is a part
  bool byDifference = false;          // induced = all − primary
};

std::optional<MixedFlows> mixedFlows(const Judging& j, const StepReadings& step, Shortage& shortage) {
  const auto primary = primaryFlow(j, step, FlowBasis::actual, std::nullopt);
  if (!primary) {
    shortage = {Lacking::primaryFlow, step.onlyEarly(measuredFlow) || step.onlyEarly(reportedFlow)};
    return std::nullopt;
  }
  MixedFlows out;
  out.primary = std::max(0.0, primary->value);
  out.first = *primary;
  if (j.unit().kind == UnitKind::parallelFan) {
    if (const auto fan = fanFlowOf(j, step, FlowBasis::actual)) {
      out.induced = std::max(0.0, fan->value);
      out.other = *fan;
      return out;
    }
  }
  const HeaterFlow all = heaterFlow(j, step, FlowBasis::actual, std::nullopt);
  if (!all.flow) {
    shortage = {all.lacking, all.early};
    return std::nullopt;
  }
  out.byDifference = true;
  out.induced = std::max(0.0, all.flow->value - primary->value);
  out.other = *all.flow;
  return out;
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
  const double all = flows->primary / cold + flows->induced / warm;
  if (!(all > 0)) {
    shortage = {Lacking::flow, false};
    return std::nullopt;
  }
  const double share = flows->primary / cold / all;
  EnteringAir out;
  out.mixed = true;
  out.temperature.add(share, primary);
  out.temperature.add(1 - share, plenum);
  const double perPrimary = (1 - share) / cold / all, perInduced = -share / warm / all;
  const double byPrimary = flows->byDifference ? perPrimary - perInduced : perPrimary;
  const double toFirst = (cold - warm) * byPrimary, toOther = (cold - warm) * perInduced;
  InstrumentErrors errors;
  errors.add(flows->first.errors, toFirst);
  errors.add(flows->other.errors, toOther);
  out.mixing.fixed = errors.variance();
  out.mixing.scatter = flows->first.scatter * toFirst * toFirst + flows->other.scatter * toOther * toOther;
  out.mixing.readings = std::max(flows->first.readings, flows->other.readings);
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
