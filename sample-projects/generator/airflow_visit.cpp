#include <algorithm>
#include <cmath>

#include "visit.h"

// Balancing: each flow commanded, awaited, and measured.
namespace ductwright::sample {

using namespace fleet;
using enum ReadingQuantity;

namespace {

constexpr double kHurried = 20;  // seconds

std::optional<Airflow> flowOf(const Unit& unit, AirflowStep step) {
  switch (step) {
    case AirflowStep::coolingMax:
      return unit.coolingMax;
    case AirflowStep::coolingMin:
      return unit.coolingMin;
    case AirflowStep::heatingMax:
      return unit.heatingMax;
    case AirflowStep::heatingMin:
      return unit.heatingMin;
    case AirflowStep::reheat:
      return unit.reheat;
    case AirflowStep::hotMax:
      return unit.hotMax;
    case AirflowStep::hotMin:
      return unit.hotMin;
    case AirflowStep::fan:
      return unit.fan;
    case AirflowStep::shut:
      break;
  }
  return std::nullopt;
}

bool ofHotInlet(AirflowStep step) {
  return step == AirflowStep::hotMax || step == AirflowStep::hotMin;
}

}  // namespace

double scheduledFlow(const Unit& unit, AirflowStep step) {
  const auto flow = flowOf(unit, step);
  return flow ? flow->si() : 0;
}

std::vector<AirflowTarget> airflowTargets(const Unit& design) {
  std::vector<AirflowTarget> out;
  for (const AirflowStep step : valuesOf<AirflowStep>()) {
    const double flow = scheduledFlow(design, step);
    // The fan's flow is measured at the fan, a hot inlet's at its own inlet.
    const bool own = ofHotInlet(step) || step == AirflowStep::fan;
    const bool shared =
        !own && std::any_of(out.begin(), out.end(), [&](const auto& t) { return t.design == flow; });
    if (flow > 0 && !shared) out.push_back({step, flow});
  }
  return out;
}

double Visit::held(const Inlet& inlet, double setpoint) {
  const double flow = inlet.flowAt(setpoint * (1 + m_at.unit.holding * m_random.normal()));
  return std::min(flow, inlet.openFlow());
}

std::string Visit::flowInstrument(double flow) const {
  if (!m_conduct.flowInstrument.empty()) return m_conduct.flowInstrument;
  return flow < quantity::cfm(250).si() ? m_kit.lowFlow : m_kit.traverse;
}

void Visit::measure(ReadingQuantity quantity, double truth, const std::string& serial,
                    const std::string& outlet) {
  m_notebook.write(quantity, m_meters.at(serial).shown(quantity, truth, m_random), serial, outlet);
}

void Visit::writeDisplayed(ReadingQuantity quantity, double flow) {
  m_notebook.write(quantity, flow, m_at.design.flowBasis == FlowBasis::standard ? kStandardDisplay : "");
}

void Visit::measureOutlets(double discharge) {
  const std::string& serial = m_conduct.outletInstrument.empty() ? m_kit.hood : m_conduct.outletInstrument;
  int number = 0;
  for (const double share : m_at.unit.outletShares)
    measure(outletFlow, share * discharge, serial, "D" + std::to_string(++number));
}

void Visit::measureFlow(const AirflowTarget& target, double flow) {
  if (m_conduct.copiesDesign) {
    m_notebook.write(measuredFlow, target.design, flowInstrument(flow));
    return;
  }
  const bool most = target.step == AirflowStep::coolingMax;
  // Little air through many outlets is beyond a hood; who borrowed one uses it all the same.
  if ((most && m_byOutlets) || !m_conduct.outletInstrument.empty()) return measureOutlets(flow);
  const int times = m_repeats && most ? 3 : 1;
  for (int i = 0; i < times; ++i) measure(measuredFlow, flow, flowInstrument(flow));
}

void Visit::fanStep(const AirflowTarget& target) {
  m_notebook.step(code(target.step), 150 + m_random.uniform(5, 40));
  m_notebook.write(fanOn, 1);
  if (m_at.design.kind == UnitKind::seriesFan) return measureOutlets(m_at.unit.fanFlow);
  measure(fanFlow, m_at.unit.fanFlow, m_kit.traverse);
}

void Visit::flowStep(const AirflowTarget& target) {
  if (target.step == AirflowStep::fan) return fanStep(target);
  const Inlet& inlet = ofHotInlet(target.step) ? m_at.unit.hot : m_at.unit.cold;
  const double setpoint = scheduledFlow(m_at.unit.settings, target.step);
  const double aim = held(inlet, setpoint);
  const bool hurries = m_conduct.hurries == target.step;
  const double waited = hurries ? kHurried : 150 + m_random.uniform(5, 40);
  const double flow = m_flow > 0 ? inlet.onTheWay(m_flow, aim, waited, m_at.unit.stroke) : aim;
  m_notebook.step(code(target.step), waited);
  writeDisplayed(flowSetpoint, setpoint);
  writeDisplayed(reportedFlow,
                 m_conduct.copiesDesign ? target.design : m_conduct.displayFactor * inlet.reported(flow));
  m_notebook.write(damperPosition, inlet.damperFor(flow));
  measure(inletPressureDifference, inlet.signal(flow), m_kit.traverse);
  measureFlow(target, flow);
  m_flow = ofHotInlet(target.step) ? 0 : aim;
}

void Visit::balance(int run, const std::string& reason) {
  m_notebook.beginRun(Procedure::airflow, run, reason, m_random);
  for (const AirflowTarget& target : airflowTargets(m_at.design))
    if (!m_conduct.skips.contains(target.step)) flowStep(target);
}

void Visit::balanceBegun(int run, const std::string& reason) {
  m_notebook.beginRun(Procedure::airflow, run, reason, m_random);
  flowStep(airflowTargets(m_at.design).front());
}

}  // namespace ductwright::sample
