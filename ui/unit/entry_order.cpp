#include "ui/unit/entry_order.h"

#include <algorithm>
#include <set>

namespace ductwright::ui {
namespace {

using fleet::AirflowStep;
using fleet::HeatKind;
using fleet::Procedure;
using fleet::ReadingQuantity;
using fleet::RiseStep;
using fleet::UnitKind;
using enum fleet::ReadingQuantity;

std::vector<ReadingQuantity> usualQuantities(const fleet::UnitRecord& record, Procedure procedure, int step) {
  const bool electric = record.unit.heat == HeatKind::electricStaged || record.unit.heat == HeatKind::electricModulating;
  switch (procedure) {
    case Procedure::airflow:
      if (step == code(AirflowStep::fan)) return {fanFlow};
      return {measuredFlow, reportedFlow};
    case Procedure::reheatLockout: return {reportedFlow, heatCall, heatOn};
    case Procedure::dischargeRise: break;
  }
  if (step == code(RiseStep::heatOff)) return {enteringAirTemperature, dischargeAirTemperature};
  if (electric) return {enteringAirTemperature, dischargeAirTemperature, measuredFlow, heaterPower};
  return {enteringAirTemperature, dischargeAirTemperature, measuredFlow, enteringWaterTemperature, valvePosition};
}

int highestPoint(const fleet::UnitRecord& record) {
  int highest = 0;
  const int run = record.currentRun(Procedure::reheatLockout).value_or(1);
  for (const fleet::Reading& reading : record.readings)
    if (reading.procedure == Procedure::reheatLockout && reading.run == run) highest = std::max(highest, reading.step);
  return highest;
}

}  // namespace

std::optional<quantity::Airflow> scheduledFlow(const fleet::Unit& unit, AirflowStep step) {
  switch (step) {
    case AirflowStep::coolingMax: return unit.coolingMax;
    case AirflowStep::coolingMin: return unit.coolingMin;
    case AirflowStep::heatingMax: return unit.heatingMax;
    case AirflowStep::heatingMin: return unit.heatingMin;
    case AirflowStep::reheat: return unit.reheat;
    case AirflowStep::hotMax: return unit.hotMax;
    case AirflowStep::hotMin: return unit.hotMin;
    case AirflowStep::fan: return unit.fan;
    case AirflowStep::shut: break;
  }
  return std::nullopt;
}

std::vector<int> stepsOf(const fleet::UnitRecord& record, Procedure procedure) {
  std::vector<int> steps;
  if (procedure == Procedure::reheatLockout) {
    for (int point = 1; point <= highestPoint(record) + 1; ++point) steps.push_back(point);
  } else if (procedure == Procedure::dischargeRise) {
    for (const RiseStep step : fleet::valuesOf<RiseStep>()) steps.push_back(code(step));
  } else {
    for (const AirflowStep step : fleet::valuesOf<AirflowStep>()) steps.push_back(code(step));
    std::stable_partition(steps.begin(), steps.end(), [&](int step) {
      const auto flow = scheduledFlow(record.unit, static_cast<AirflowStep>(step));
      return flow && flow->si() > 0;
    });
  }
  return steps;
}

std::vector<ReadingQuantity> quantitiesOf(Procedure procedure) {
  std::vector<ReadingQuantity> first;
  switch (procedure) {
    case Procedure::airflow:
      first = {measuredFlow, reportedFlow, outletFlow, flowSetpoint, damperPosition, inletPressureDifference, fanFlow};
      break;
    case Procedure::reheatLockout:
      first = {reportedFlow, measuredFlow, flowSetpoint, heatCall, heatOn, stagesOn, heaterPower};
      break;
    case Procedure::dischargeRise:
      first = {enteringAirTemperature, dischargeAirTemperature, measuredFlow, reportedFlow, heaterPower, stagesOn,
               valvePosition, enteringWaterTemperature, leavingWaterTemperature, waterFlow};
      break;
  }
  for (const ReadingQuantity quantity : fleet::valuesOf<ReadingQuantity>())
    if (std::find(first.begin(), first.end(), quantity) == first.end()) first.push_back(quantity);
  return first;
}

std::vector<Expected> usualReadings(const fleet::UnitRecord& record, Procedure procedure) {
  std::vector<Expected> all;
  for (const int step : stepsOf(record, procedure)) {
    if (procedure == Procedure::airflow) {
      const auto flow = scheduledFlow(record.unit, static_cast<AirflowStep>(step));
      if (!flow || flow->si() <= 0) continue;
    }
    for (const ReadingQuantity quantity : usualQuantities(record, procedure, step)) all.push_back({step, quantity});
  }
  return all;
}

std::optional<Expected> nextReading(const fleet::UnitRecord& record, Procedure procedure, std::optional<Expected> after) {
  const std::vector<Expected> all = usualReadings(record, procedure);
  const int run = record.currentRun(procedure).value_or(1);
  const auto missing = [&](const Expected& expected) {
    return std::none_of(record.readings.begin(), record.readings.end(), [&](const fleet::Reading& reading) {
      return reading.procedure == procedure && reading.run == run && !reading.withdrawn &&
             reading.step == expected.step && reading.quantity == expected.quantity;
    });
  };
  auto from = after ? std::find(all.begin(), all.end(), *after) : all.begin();
  if (from == all.end()) from = all.begin();
  if (const auto found = std::find_if(from, all.end(), missing); found != all.end()) return *found;
  const auto found = std::find_if(all.begin(), from, missing);
  return found != from ? std::optional(*found) : std::nullopt;
}

}  // namespace ductwright::ui
