#include <algorithm>
#include <cmath>

#include "air/flow_basis.h"
#include "air/velocity_pressure.h"
#include "airflow.h"
#include "metrology/uncertainty.h"
#include "step_air.h"

// Explanations beside the airflow checks. None changes the score.
namespace ductwright::verdict {
namespace {

using enum fleet::ReadingQuantity;
using fleet::AirflowStep;

// Reported over measured at one step, with the expanded uncertainty of the ratio, relative.
struct StepRatio {
  int step = 0;
  double measured = 0, ratio = 0, expanded = 0;
};

class Ratios {
 public:
  explicit Ratios(const AirflowData& data) {
    for (std::size_t s = 0; s < data.size(); ++s) {
      const AirflowStepData& step = data[s];
      if (!step.measured || !step.reported || !(step.measured->value > 0) || !(*step.reported > 0)) continue;
      if (static_cast<AirflowStep>(s) == AirflowStep::fan) continue;
      const double m = step.measured->value;
      m_all[m_count++] = {static_cast<int>(s), m, *step.reported / m, metrology::kCoverage * step.measured->u() / m};
    }
    for (std::size_t i = 0; i < m_count; ++i) {
      m_mean += m_all[i].ratio / static_cast<double>(m_count);
      m_widest = std::max(m_widest, m_all[i].expanded);
    }
  }

  [[nodiscard]] std::span<const StepRatio> all() const { return {m_all.data(), m_count}; }
  [[nodiscard]] double mean() const { return m_mean; }
  [[nodiscard]] double widest() const { return m_widest; }
  // Every ratio agrees with their mean within its own uncertainty.
  [[nodiscard]] bool constant() const {
    return std::all_of(all().begin(), all().end(),
                       [&](const StepRatio& r) { return std::abs(r.ratio / m_mean - 1) <= r.expanded; });
  }
  [[nodiscard]] bool near(double target, double atMost) const { return std::abs(m_mean / target - 1) <= atMost; }

 private:
  std::array<StepRatio, kJudgedSteps> m_all;
  std::size_t m_count = 0;
  double m_mean = 0, m_widest = 0;
};

constexpr double kCfmInLitresPerSecond = quantity::kCfm / 1e-3;  // 0.4719; its inverse 2.119

// Nominal inlet sizes, inches: common practice.
constexpr std::array kSizes{4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 12.0, 14.0, 16.0, 18.0, 20.0, 22.0, 24.0};

void explainUnits(const Judging& j, const Ratios& ratios) {
  for (const double target : {1 / kCfmInLitresPerSecond, kCfmInLitresPerSecond}) {
    if (ratios.near(target, 0.05))
      j.note({NoteKind::units, Criterion::airflow, ratios.all().front().step, ratios.mean(), target});
  }
}

// A controller set up for a neighbouring size shows the flow times the square of the sizes' ratio.
void explainSize(const Judging& j, const Ratios& ratios) {
  if (!j.unit().inletDiameter || !(j.unit().inletDiameter->si() > 0)) return;
  const double inches = quantity::inInches(*j.unit().inletDiameter);
  const auto above = std::find_if(kSizes.begin(), kSizes.end(), [&](double s) { return s > inches + 0.3; });
  const auto below = std::find_if(kSizes.rbegin(), kSizes.rend(), [&](double s) { return s < inches - 0.3; });
  const auto check = [&](double size) {
    const double target = size * size / (inches * inches);
    if (ratios.near(target, 0.05))
      j.note({NoteKind::size, Criterion::airflow, ratios.all().front().step, ratios.mean(), size * quantity::kInch});
  };
  if (above != kSizes.end()) check(*above);
  if (below != kSizes.rend()) check(*below);
}

void explainDensity(const Judging& j, const Ratios& ratios) {
  const StepReadings step = j.readings.step(static_cast<AirflowStep>(ratios.all().front().step));
  const double share =
      air::density(j.context.air(), airTemperature(j, step, Place::inlet)) / air::kStandardDensity;
  if (std::abs(share - 1) < 0.03) return;  // the two bases are as good as one
  for (const double target : {share, 1 / share}) {
    if (ratios.near(target, 0.02))
      j.note({NoteKind::density, Criterion::airflow, ratios.all().front().step, ratios.mean(), target});
  }
}

// The ratio grows as the flow falls: an offset of the pressure sensor.
bool growsAsFlowFalls(const Ratios& ratios, const StepRatio*& highest, const StepRatio*& lowest) {
  std::array<const StepRatio*, kJudgedSteps> byFlow{};
  std::size_t n = 0;
  for (const StepRatio& r : ratios.all()) byFlow[n++] = &r;
  std::sort(byFlow.begin(), byFlow.begin() + static_cast<std::ptrdiff_t>(n),
            [](const auto* a, const auto* b) { return a->measured > b->measured; });
  for (std::size_t i = 1; i < n; ++i)
    if (byFlow[i]->measured < byFlow[i - 1]->measured * (1 - 1e-9) && byFlow[i]->ratio <= byFlow[i - 1]->ratio) return false;
  highest = byFlow[0];
  lowest = byFlow[n - 1];
  return lowest->ratio / highest->ratio - 1 > metrology::combined(highest->expanded, lowest->expanded);
}

void explainRatios(const Judging& j, const AirflowData& data) {
  const Ratios ratios(data);
  if (ratios.all().empty()) return;
  const bool constant = ratios.constant();
  const bool off = std::abs(ratios.mean() - 1) > std::max(ratios.widest(), 0.02);
  if (constant && off) {
    if (ratios.all().size() > 1) j.note({NoteKind::coefficient, Criterion::airflow, 0, ratios.mean(), kNone});
    explainUnits(j, ratios);
    explainSize(j, ratios);
  }
  if (constant && std::abs(ratios.mean() - 1) > 0.02) explainDensity(j, ratios);
  const StepRatio *highest = nullptr, *lowest = nullptr;
  if (ratios.all().size() > 1 && growsAsFlowFalls(ratios, highest, lowest))
    j.note({NoteKind::zero, Criterion::airflow, lowest->step, lowest->ratio, highest->ratio});
}

void explainStarved(const Judging& j, const AirflowData& data) {
  for (std::size_t s = 0; s < data.size(); ++s) {
    const AirflowStepData& step = data[s];
    if (!step.design || !step.measured) continue;
    if (!(step.measured->value < flowInterval(*step.design, j.criteria()).low)) continue;
    const auto damper = j.readings.step(static_cast<AirflowStep>(s)).mean(damperPosition);
    if (damper && *damper >= j.criteria().starvedDamper)
      j.note({NoteKind::starved, Criterion::airflow, static_cast<int>(s), step.measured->value, *damper});
  }
}

void explainBelowControl(const Judging& j, const AirflowData& data) {
  if (!j.unit().inletDiameter || !(j.unit().inletDiameter->si() > 0)) return;
  const auto* profile = j.context.profile(j.unit().profile);
  const quantity::Pressure least = profile && profile->leastControllablePressure ? *profile->leastControllablePressure
                                                                                 : j.criteria().leastControllable;
  const quantity::Area inlet = quantity::circle(*j.unit().inletDiameter);
  for (std::size_t s = 0; s < data.size(); ++s) {
    if (!data[s].design || !data[s].measured || static_cast<AirflowStep>(s) == AirflowStep::fan) continue;
    const StepReadings step = j.readings.step(static_cast<AirflowStep>(s));
    const auto rho = air::density(j.context.air(), airTemperature(j, step, Place::inlet));
    auto flow = quantity::Airflow::fromSi(*data[s].design);
    if (j.unit().flowBasis == fleet::FlowBasis::standard) flow = air::toActual(flow, rho);
    const auto pressure = air::velocityPressure(flow / inlet, rho);
    if (pressure < least)
      j.note({NoteKind::belowControl, Criterion::airflow, static_cast<int>(s), pressure.si(), least.si()});
  }
}

void explainTooPerfect(const Judging& j, const AirflowData& data) {
  int equal = 0;
  for (const AirflowStepData& step : data) {
    if (!step.design || !step.measured) continue;
    if (std::abs(step.measured->value - *step.design) > 1e-9 * *step.design) return;
    ++equal;
  }
  if (equal > 1) j.note({NoteKind::tooPerfect, Criterion::airflow, 0, static_cast<double>(equal), kNone});
}

// Induced = fan − primary, of the same step, else with the flow of step fan.
void explainInduction(const Judging& j, const AirflowData& data) {
  if (j.unit().kind != fleet::UnitKind::seriesFan) return;
  const auto& atFan = data[static_cast<std::size_t>(AirflowStep::fan)].measured;
  for (std::size_t s = 0; s < data.size(); ++s) {
    const StepReadings step = j.readings.step(static_cast<AirflowStep>(s));
    const auto primary = flowOf(j, step, measuredFlow, Place::inlet, j.unit().flowBasis);
    auto fan = flowOf(j, step, fanFlow, Place::inlet, j.unit().flowBasis);
    if (!fan && atFan) fan = atFan;
    if (primary && fan && fan->value < primary->value)
      j.note({NoteKind::negativeInduction, Criterion::airflow, static_cast<int>(s), fan->value - primary->value, primary->value});
  }
}

}  // namespace

void explainAirflow(const Judging& j, const AirflowData& data) {
  explainStarved(j, data);
  explainBelowControl(j, data);
  explainRatios(j, data);
  explainTooPerfect(j, data);
  explainInduction(j, data);
  for (std::size_t s = 0; s < data.size(); ++s)
    noteReadings(j, Criterion::airflow, j.readings.step(static_cast<AirflowStep>(s)));
}

}  // namespace ductwright::verdict
