#include "heater_air.h"

#include <cmath>

#include "metrology/uncertainty.h"

namespace ductwright::verdict {
namespace {

using enum fleet::ReadingQuantity;
using fleet::FlowBasis;
using fleet::UnitKind;

std::optional<Estimate> reportedOf(const Judging& j, const StepReadings& step, FlowBasis basis, ReportedShare share) {
  auto reported = flowOf(j, step, reportedFlow, Place::inlet, basis);
  if (!reported || !share) return reported;
  reported->errors = {};
  reported->errors.add(step.of(reportedFlow).front().reading->instrument,
                       metrology::rectangular(*share * std::abs(reported->value)));
  return reported;
}

HeaterFlow found(std::optional<Estimate> flow) { return {std::move(flow), Lacking::nothing, false}; }

HeaterFlow lackingFan(const StepReadings& step, bool outlets) {
  return {std::nullopt, Lacking::fanFlow, step.onlyEarly(fanFlow) || (outlets && outletsEarly(step))};
}

HeaterFlow parallelDischarge(const Judging& j, const StepReadings& step, FlowBasis basis, ReportedShare share) {
  auto primary = flowOf(j, step, measuredFlow, Place::inlet, basis);
  const auto fan = fanFlowOf(j, step, basis);
  if (!primary || !fan) {
    if (auto outlets = outletSum(j, step, basis)) return found(std::move(outlets));
  }
  if (!fan) return lackingFan(step, true);
  if (!primary) primary = reportedOf(j, step, basis, share);
  if (!primary)
    return {std::nullopt, Lacking::primaryFlow, step.onlyEarly(measuredFlow) || step.onlyEarly(reportedFlow)};
  *primary += *fan;
  return found(std::move(primary));
}

}  // namespace

std::optional<Estimate> primaryFlow(const Judging& j, const StepReadings& step, FlowBasis basis, ReportedShare share) {
  auto measured = flowOf(j, step, measuredFlow, Place::inlet, basis);
  return measured ? measured : reportedOf(j, step, basis, share);
}

std::optional<Estimate> fanFlowOf(const Judging& j, const StepReadings& step, FlowBasis basis) {
  auto fan = flowOf(j, step, fanFlow, Place::inlet, basis);
  if (fan) return fan;
  if (j.unit().kind == UnitKind::seriesFan) return outletSum(j, step, basis);
  if (step.flag(fanOn) == false) return Estimate{};
  return std::nullopt;
}

HeaterFlow heaterFlow(const Judging& j, const StepReadings& step, FlowBasis basis, ReportedShare share) {
  if (j.unit().kind == UnitKind::seriesFan) {
    auto fan = fanFlowOf(j, step, basis);
    return fan ? found(std::move(fan)) : lackingFan(step, true);
  }
  if (j.unit().kind == UnitKind::parallelFan) {
    if (j.unit().heaterPosition == fleet::HeaterPosition::discharge) return parallelDischarge(j, step, basis, share);
    auto fan = fanFlowOf(j, step, basis);
    return fan ? found(std::move(fan)) : lackingFan(step, false);
  }
  auto flow = flowOf(j, step, measuredFlow, Place::inlet, basis);
  if (!flow) flow = outletSum(j, step, basis);
  if (!flow) flow = reportedOf(j, step, basis, share);
  if (flow) return found(std::move(flow));
  return {std::nullopt, Lacking::flow,
          step.onlyEarly(measuredFlow) || outletsEarly(step) || step.onlyEarly(reportedFlow)};
}

}  // namespace ductwright::verdict
