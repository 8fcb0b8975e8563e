#include "expected_rise.h"

#include <algorithm>
#include <cmath>

#include "air/coil.h"
#include "air/flow_basis.h"
#include "air/heat.h"
#include "metrology/uncertainty.h"

namespace ductwright::verdict {
namespace {

using enum fleet::ReadingQuantity;
using fleet::HeatKind;
using fleet::UnitKind;
using quantity::Airflow;
using quantity::CapacityRate;
using quantity::Temperature;

double square(double x) { return x * x; }

TemperatureSum sumOf(std::span<const Counted> readings) {
  TemperatureSum sum;
  sum.add(1, readings);
  return sum;
}

// The share of a heater that is on: its stages; of a modulating one its signal; else all, since the call is full.
double shareOn(const Unit& unit, const StepReadings& step) {
  if (const auto stages = step.mean(stagesOn)) {
    return *stages / std::max(1, unit.heaterStages.value_or(1));
  }
  if (unit.heat == HeatKind::electricModulating) {
    if (const auto signal = step.mean(heatSignal)) return *signal;
  }
  return 1;
}

std::optional<HeatInput> electricInput(const Judging& j, const StepReadings& step, Shortage& shortage) {
  if (const auto power = step.estimate(heaterPower)) return HeatInput{power->value, power->spread(), heaterPower};
  if (!j.unit().heaterPower) {
    shortage = {Lacking::heaterPower, step.onlyEarly(heaterPower)};
    return std::nullopt;
  }
  HeatInput out;
  out.watts = j.unit().heaterPower->si() * shareOn(j.unit(), step);
  out.spread.fixed = square(metrology::rectangular(j.criteria().nameplateShare * out.watts));
  return out;
}

std::optional<HeatInput> waterInput(const Judging& j, const StepReadings& step) {
  const auto entering = step.of(enteringWaterTemperature), leaving = step.of(leavingWaterTemperature);
  const auto flow = step.estimate(waterFlow);
  if (entering.empty() || leaving.empty() || !flow) return std::nullopt;
  TemperatureSum cooling;
  cooling.add(1, entering);
  cooling.add(-1, leaving);
  HeatInput out;
  out.watts = air::kWaterHeatCapacity * flow->value * cooling.value();
  const Spread byFlow = flow->spread().times(air::kWaterHeatCapacity * cooling.value());
  const Spread byCooling = cooling.spread(j.context).times(air::kWaterHeatCapacity * flow->value);
  out.weakest = byFlow.variance() > byCooling.variance() ? waterFlow : leavingWaterTemperature;
  out.spread = byFlow;
  out.spread += byCooling;
  return out;
}

ExpectedRise riseFrom(const HeatInput& input, const HeatedAir& heated) {
  ExpectedRise out;
  out.kelvins = input.watts / heated.capacity.si();
  out.spread = input.spread.times(1 / heated.capacity.si());
  out.spread += heated.flow.spread().times(out.kelvins / heated.flow.value);
  out.input = input;
  return out;
}

// The air that the schedule sends through the heater at heating max, else at reheat flow.
std::optional<Airflow> scheduledHeaterFlow(const Unit& unit) {
  const auto given = [](const std::optional<Airflow>& flow) { return flow && flow->si() > 0; };
  const auto& box = given(unit.heatingMax) ? unit.heatingMax : unit.reheat;
  const bool fanOnly = unit.kind == UnitKind::seriesFan || (unit.kind == UnitKind::parallelFan &&
                                                            unit.heaterPosition == fleet::HeaterPosition::plenumInlet);
  if (fanOnly) return given(unit.fan) ? unit.fan : std::nullopt;
  if (!given(box)) return std::nullopt;
  if (unit.kind != UnitKind::parallelFan) return box;
  return given(unit.fan) ? std::optional(*box + *unit.fan) : std::nullopt;
}

std::optional<CapacityRate> fitted(const Judging& j) {
  const Unit& unit = j.unit();
  const auto scheduled = scheduledHeaterFlow(unit);
  if (!scheduled || !unit.designEnteringAir || !unit.designDischarge || !unit.coilEnteringWater || !unit.coilWaterFlow)
    return std::nullopt;
  Airflow flow = *scheduled;
  if (unit.flowBasis == fleet::FlowBasis::standard)
    flow = air::toActual(flow, air::density(j.context.air(), *unit.designEnteringAir));
  return air::fittedConductance({air::airCapacity(j.context.air(), *unit.designEnteringAir, flow),
                                 air::waterCapacity(*unit.coilWaterFlow), *unit.designEnteringAir, *unit.designDischarge,
                                 *unit.coilEnteringWater});
}

std::optional<ExpectedRise> coilRise(const Judging& j, const StepReadings& step, const HeatedAir& heated,
                                     Shortage& shortage) {
  const auto valve = step.mean(valvePosition);
  if (!valve || *valve < j.criteria().valveOpen) {
    shortage = {Lacking::valveOpen, step.onlyEarly(valvePosition)};
    return std::nullopt;
  }
  const auto water = step.of(enteringWaterTemperature);
  if (water.empty()) {
    shortage = {Lacking::enteringWater, step.onlyEarly(enteringWaterTemperature)};
    return std::nullopt;
  }
  const auto conductance = fitted(j);
  if (!conductance) {
    shortage = {Lacking::coilPoint, false};
    return std::nullopt;
  }
  const auto waterRate = step.estimate(waterFlow);
  const double scheduledWater = waterRate ? waterRate->value : j.unit().coilWaterFlow->si();
  const TemperatureSum hot = sumOf(water);
  const Temperature entering = Temperature::fromSi(heated.entering.kelvin());
  const auto riseAt = [&](double airShare, double waterShare) {
    const air::CoilEntering in{heated.capacity * airShare,
                               air::waterCapacity(quantity::WaterFlow::fromSi(scheduledWater * waterShare)), entering,
                               Temperature::fromSi(hot.value())};
    return (air::coilDischarge(*conductance, in) - entering).si();
  };
  constexpr double kStep = 1e-3;
  ExpectedRise out;
  out.kelvins = riseAt(1, 1);
  out.spread.fixed = square(metrology::rectangular(j.criteria().coilModelShare * out.kelvins));
  if (const double hotter = hot.value() - entering.si(); hotter != 0) {  // the rise is a share of this difference
    out.spread += hot.spread(j.context).times(out.kelvins / hotter);
    out.spread += heated.entering.spread(j.context).times(out.kelvins / hotter);
  }
  const double byAir = (riseAt(1 + kStep, 1) - riseAt(1 - kStep, 1)) / (2 * kStep);
  out.spread += heated.flow.spread().times(byAir / heated.flow.value);
  if (waterRate && waterRate->value > 0) {
    const double byWater = (riseAt(1, 1 + kStep) - riseAt(1, 1 - kStep)) / (2 * kStep);
    out.spread += waterRate->spread().times(byWater / waterRate->value);
  }
  return out;
}

}  // namespace

std::optional<ExpectedRise> expectedRise(const Judging& j, const StepReadings& step, const HeatedAir& heated,
                                         Shortage& shortage) {
  if (j.unit().heat != HeatKind::hotWater) {
    const auto input = electricInput(j, step, shortage);
    return input ? std::optional(riseFrom(*input, heated)) : std::nullopt;
  }
  if (const auto input = waterInput(j, step)) return riseFrom(*input, heated);
  return coilRise(j, step, heated, shortage);
}

}  // namespace ductwright::verdict
