#include "airflow.h"

#include <algorithm>
#include <cmath>

#include "decision.h"
#include "heater_air.h"
#include "tally.h"

namespace ductwright::verdict {
namespace {

using enum fleet::ReadingQuantity;
using fleet::AirflowStep;
using fleet::UnitKind;

// Steps that the same air flows through: only these can share a reading.
enum class Stream : std::uint8_t { cold, hot, fan };

Stream streamOf(AirflowStep step) {
  if (step == AirflowStep::fan) return Stream::fan;
  return step == AirflowStep::hotMax || step == AirflowStep::hotMin ? Stream::hot : Stream::cold;
}

struct Source {
  std::optional<Estimate> flow;
  bool early = false;
};

// The flow that a step measures: the inlet's, at step fan the fan's. In a series unit `measured flow` is primary
// air and the outlets count at step fan only.
Source measuredFlowOf(const Judging& j, const StepReadings& step, bool atFan) {
  const bool series = j.unit().kind == UnitKind::seriesFan;
  const auto basis = j.unit().flowBasis;
  const bool inlet = !(series && atFan), outlets = !series || atFan;
  Source out;
  if (atFan) out.flow = flowOf(j, step, fanFlow, Place::inlet, basis);
  if (!out.flow && inlet) out.flow = flowOf(j, step, measuredFlow, Place::inlet, basis);
  if (!out.flow && outlets) out.flow = atFan ? outletSum(j, step, basis) : inletByOutlets(j, step);
  if (!out.flow)
    out.early = (atFan && step.onlyEarly(fanFlow)) || (inlet && step.onlyEarly(measuredFlow)) ||
                (outlets && outletsEarly(step));
  return out;
}

void shareEqualFlows(AirflowData& data) {
  for (std::size_t s = 0; s < data.size(); ++s) {
    AirflowStepData& step = data[s];
    step.from = static_cast<int>(s);
    if (!step.design || step.measured) continue;
    for (std::size_t t = 0; t < data.size(); ++t) {
      const AirflowStepData& other = data[t];
      if (streamOf(static_cast<AirflowStep>(t)) != streamOf(static_cast<AirflowStep>(s)) || !other.design) continue;
      if (std::abs(*other.design - *step.design) > 1e-9 * *step.design) continue;
      step.measuredEarly = step.measuredEarly || other.measuredEarly;
      if (!other.measured) continue;
      step.from = static_cast<int>(t);
      break;
    }
  }
}

Check checkOf(CheckKind kind, std::size_t step) {
  Check check;
  check.criterion = Criterion::airflow;
  check.kind = kind;
  check.procedure = Procedure::airflow;
  check.dimension = quantity::Dimension::airflow;
  check.step = static_cast<int>(step);
  return check;
}

Check againstDesign(const Judging& j, const AirflowData& data, std::size_t s) {
  Check check = checkOf(CheckKind::measuredAgainstDesign, s);
  const AirflowStepData& step = data[s];
  check.expected = *step.design;
  const auto& measured = data[static_cast<std::size_t>(step.from)].measured;
  if (!measured) {
    check.because = step.measuredEarly ? Because::early : Because::missing;
    if (check.because == Because::missing) check.lacking = Lacking::step;
    return check;
  }
  decide(check, {measured->value, measured->spread()},
         flowInterval(*step.design, j.criteria()), j.criteria());
  return check;
}

// The flow with which a step's reported flow is compared: the inlet's, which at step fan of a fan-powered unit
// is not the flow that the step measures.
std::optional<Estimate> reportedCounterpart(const Judging& j, const AirflowData& data, std::size_t s) {
  const bool fanPowered = j.unit().kind == UnitKind::seriesFan || j.unit().kind == UnitKind::parallelFan;
  if (fanPowered && static_cast<AirflowStep>(s) == AirflowStep::fan)
    return flowOf(j, j.readings.step(static_cast<AirflowStep>(s)), measuredFlow, Place::inlet,
                  j.unit().flowBasis);
  return data[static_cast<std::size_t>(data[s].from)].measured;
}

void addReportedCheck(const Judging& j, const AirflowData& data, std::size_t s, Tally& tally) {
  if (!data[s].reported) return;
  const auto measured = reportedCounterpart(j, data, s);
  if (!measured) return;
  Check check = checkOf(CheckKind::reportedAgainstMeasured, s);
  check.expected = measured->value;
  const double allowed =
      std::max(j.criteria().reportedShare * std::abs(measured->value), j.criteria().reportedFloor.si());
  decide(check, {*data[s].reported - measured->value, measured->spread()},
         {-allowed, allowed}, j.criteria());
  j.verdict.checks.push_back(check);
  tally.add(check);
}

}  // namespace

std::optional<Estimate> inletByOutlets(const Judging& j, const StepReadings& step) {
  auto sum = outletSum(j, step, j.unit().flowBasis);
  if (!sum || j.unit().kind != UnitKind::parallelFan) return sum;
  const auto fan = fanFlowOf(j, step, j.unit().flowBasis);
  if (!fan) return step.flag(fanOn) == true ? std::nullopt : sum;
  sum->value -= fan->value;
  sum->errors.add(fan->errors, -1);
  sum->scatter += fan->scatter;
  sum->readings = std::max(sum->readings, fan->readings);
  return sum;
}

std::optional<double> scheduledFlow(const Unit& unit, AirflowStep step) {
  std::optional<fleet::Airflow> flow;
  switch (step) {
    case AirflowStep::coolingMax: flow = unit.coolingMax; break;
    case AirflowStep::coolingMin: flow = unit.coolingMin; break;
    case AirflowStep::heatingMax: flow = unit.heatingMax; break;
    case AirflowStep::heatingMin: flow = unit.heatingMin; break;
    case AirflowStep::reheat: flow = unit.reheat; break;
    case AirflowStep::hotMax: flow = unit.hotMax; break;
    case AirflowStep::hotMin: flow = unit.hotMin; break;
    case AirflowStep::fan: flow = unit.fan; break;
    case AirflowStep::shut: break;
  }
  if (!flow || !(flow->si() > 0)) return std::nullopt;
  return flow->si();
}

metrology::Interval flowInterval(double design, const Criteria& c) {
  const auto side = [&](double share) { return share > 0 ? std::max(share * design, c.flowFloor.si()) : 0.0; };
  return {design - side(c.flowLow), design + side(c.flowHigh)};
}

AirflowData airflowData(const Judging& j) {
  AirflowData data;
  for (std::size_t s = 0; s < data.size(); ++s) {
    AirflowStepData& out = data[s];
    out.design = scheduledFlow(j.unit(), static_cast<AirflowStep>(s));
    const StepReadings step = j.readings.step(static_cast<AirflowStep>(s));
    if (step.empty()) continue;
    Source source = measuredFlowOf(j, step, static_cast<AirflowStep>(s) == AirflowStep::fan);
    out.measured = std::move(source.flow);
    out.measuredEarly = source.early;
    if (const auto reported = flowOf(j, step, reportedFlow, Place::inlet, j.unit().flowBasis))
      out.reported = reported->value;
    out.reportedEarly = step.onlyEarly(reportedFlow);
  }
  shareEqualFlows(data);
  return data;
}

void judgeAirflow(const Judging& j) {
  const AirflowData data = airflowData(j);
  Tally tally;
  bool needed = false;
  for (std::size_t s = 0; s < data.size(); ++s) {
    if (data[s].design) {
      needed = true;
      const Check check = againstDesign(j, data, s);
      j.verdict.checks.push_back(check);
      tally.add(check);
      if (data[s].measured && !data[s].reported && !data[s].reportedEarly && s != static_cast<std::size_t>(AirflowStep::fan))
        j.note({NoteKind::notReported, Criterion::airflow, static_cast<int>(s)});
    }
    addReportedCheck(j, data, s, tally);
  }
  CriterionVerdict result = tally.result();
  if (!needed && result.outcome != Outcome::fail) {
    result.outcome = Outcome::untested;  // a schedule without a flow proves nothing
    result.because = Because::noReference;
  }
  j.of(Criterion::airflow) = result;
  explainAirflow(j, data);
}

}  // namespace ductwright::verdict
