#include "flow_samples.h"

#include <algorithm>

#include "airflow.h"
#include "step_air.h"

namespace ductwright::verdict {
namespace {

using enum fleet::ReadingQuantity;
using fleet::AirflowStep;

// What was measured at a step, an instrument at a time.
class StepSamples {
 public:
  StepSamples(const Judging& judging, const StepReadings& step, FlowSample common)
      : m_judging(judging), m_step(step), m_common(common) {}

  void addTo(std::vector<FlowSample>& out) const {
    const auto readings = m_step.of(measuredFlow);
    if (readings.empty()) return addOutlets(out);
    const std::size_t first = out.size();
    for (const Counted& c : readings) {
      const fleet::Word serial = c.reading->instrument;
      const bool known = std::any_of(out.begin() + static_cast<std::ptrdiff_t>(first), out.end(),
                                     [&](const FlowSample& s) { return s.instrument == serial; });
      if (!known) addMean(readings, serial, out);
    }
  }

 private:
  void addMean(std::span<const Counted> readings, fleet::Word serial, std::vector<FlowSample>& out) const {
    FlowSample sample = m_common;
    sample.instrument = serial;
    double sum = 0;
    int n = 0;
    for (const Counted& c : readings) {
      if (c.reading->instrument != serial) continue;
      sum += c.reading->value * toBasis(m_judging, m_step, c, Place::inlet, m_judging.unit().flowBasis);
      if (n++ == 0) sample.reading = c.reading;
    }
    sample.measured = sum / n;
    if (sample.measured > 0) out.push_back(sample);
  }

  // In a series unit the outlets tell the fan's flow.
  void addOutlets(std::vector<FlowSample>& out) const {
    const auto outlets = m_step.of(outletFlow);
    if (outlets.empty() || m_judging.unit().kind == fleet::UnitKind::seriesFan) return;
    FlowSample sample = m_common;
    sample.reading = outlets.front().reading;
    const fleet::Word serial = outlets.front().reading->instrument;
    if (std::all_of(outlets.begin(), outlets.end(),
                    [&](const Counted& c) { return c.reading->instrument == serial; }))
      sample.instrument = serial;
    const auto flow = inletByOutlets(m_judging, m_step);
    sample.measured = flow ? flow->value : 0;
    if (sample.measured > 0) out.push_back(sample);
  }

  const Judging& m_judging;
  const StepReadings& m_step;
  FlowSample m_common;
};

}  // namespace

std::vector<FlowSample> flowSamples(const fleet::Snapshot& project, const JudgingContext& context) {
  std::vector<FlowSample> out;
  UnitVerdict unused;
  for (std::size_t i = 0; i < project.units.size(); ++i) {
    const fleet::UnitRecord& record = *project.units[i];
    if (record.readings.empty()) continue;
    const Selection selection(record, context);
    const Judging judging{record, context, selection, unused};
    for (int s = 0; s < code(AirflowStep::fan); ++s) {
      const StepReadings step = selection.step(static_cast<AirflowStep>(s));
      if (step.empty()) continue;
      FlowSample common;
      common.unit = static_cast<std::uint32_t>(i);
      common.step = s;
      common.design = scheduledFlow(record.unit, static_cast<AirflowStep>(s)).value_or(0);
      common.damper = step.mean(damperPosition).value_or(-1);
      if (const auto reported = flowOf(judging, step, reportedFlow, Place::inlet, record.unit.flowBasis))
        common.reported = std::max(0.0, reported->value);
      StepSamples(judging, step, common).addTo(out);
    }
  }
  return out;
}

}  // namespace ductwright::verdict
