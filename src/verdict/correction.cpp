#include "verdict/correction.h"

#include <algorithm>
#include <cmath>

#include "airflow.h"
#include "quantity/unit.h"

namespace ductwright::verdict {
namespace {

using fleet::AirflowStep;
using fleet::FlowCoefficient;

constexpr double kDamperStill = 0.02;  // of the stroke; common practice, no source

struct Point {
  AirflowStep step;
  air::FlowPoint flows;
  fleet::Airflow u;
  bool damperMoved = false;
};

std::optional<FlowCoefficient> coefficientToday(const fleet::UnitRecord& record) {
  const fleet::FoundSetting* latest = nullptr;
  for (const fleet::FoundSetting& found : record.settings) {
    if (!found.value || !(*found.value > 0) || fleet::foldedWord(found.setting) != "flowcoefficient")
      continue;
    if (!latest || found.readAt >= latest->readAt) latest = &found;
  }
  if (latest) return FlowCoefficient::fromSi(*latest->value);
  if (record.unit.flowCoefficient && record.unit.flowCoefficient->si() > 0)
    return record.unit.flowCoefficient;
  return std::nullopt;
}

bool damperMoved(const StepReadings& step) {
  const auto readings = step.of(ReadingQuantity::damperPosition);
  if (readings.empty()) return false;
  const auto [least, most] = std::minmax_element(
      readings.begin(), readings.end(),
      [](const Counted& a, const Counted& b) { return a.reading->value < b.reading->value; });
  return most->reading->value - least->reading->value > kDamperStill;
}

std::vector<Point> pointsOf(const Judging& j, std::initializer_list<AirflowStep> steps) {
  const AirflowData data = airflowData(j);
  std::vector<Point> points;
  for (const AirflowStep step : steps) {
    const AirflowStepData& read = data[static_cast<std::size_t>(step)];
    if (!read.measured || !read.reported || !(read.measured->value > 0) || !(*read.reported > 0)) continue;
    points.push_back({step,
                      {fleet::Airflow::fromSi(*read.reported), fleet::Airflow::fromSi(read.measured->value)},
                      fleet::Airflow::fromSi(read.measured->u()),
                      damperMoved(j.readings.step(step))});
  }
  return points;
}

PlannedCorrection planned(const air::Correction& correction, FlowCoefficient today,
                          const std::vector<Point>& points) {
  PlannedCorrection out;
  out.correction = correction;
  out.change = air::change(correction, today);
  for (const Point& p : points)
    out.errors.push_back(
        {p.step, p.flows.reported / p.flows.measured - 1, air::errorLeft(correction, today, p.flows)});
  return out;
}

std::optional<CoefficientAdvice> advice(const Judging& j, FlowCoefficient today,
                                        std::initializer_list<AirflowStep> steps) {
  const auto points = pointsOf(j, steps);
  if (points.empty()) return std::nullopt;
  const auto [low, high] =
      std::minmax_element(points.begin(), points.end(),
                          [](const Point& a, const Point& b) { return a.flows.measured < b.flows.measured; });
  const double largest = j.criteria().largestCorrection;
  CoefficientAdvice out{.hotInlet = false,
                        .today = today,
                        .high = high->step,
                        .low = low->step,
                        .onePoint = {},
                        .twoPoint = {}};
  if (const auto correction = air::onePoint(today, high->flows)) {
    out.onePoint = planned(*correction, today, points);
    out.onePoint->u = air::onePointUncertainty(high->flows, high->u);
    out.onePoint->doubt = air::doubtOf(out.onePoint->change, out.onePoint->u, largest, high->damperMoved);
  }
  if (low == high) return out;
  if (const auto correction = air::twoPoint(today, high->flows, low->flows)) {
    out.twoPoint = planned(*correction, today, points);
    out.twoPoint->u = air::twoPointUncertainty(high->flows, high->u, low->flows, low->u);
    out.twoPoint->doubt =
        air::doubtOf(out.twoPoint->change, out.twoPoint->u, largest, high->damperMoved || low->damperMoved);
  }
  return out;
}

std::string percent(double share) {
  const std::string number =
      quantity::writeNumber(std::abs(share), quantity::unitFor(quantity::Dimension::ratio, {}));
  return (share < 0 ? "−" : "+") + number + " %";
}

std::string sentenceOf(const PlannedCorrection& plan, const CoefficientAdvice& advice, bool two,
                       quantity::System system) {
  const auto& unit = quantity::unitFor(quantity::Dimension::flowCoefficient, system);
  std::string out = two ? "By two points, " : "By one point at ";
  out += name(advice.high);
  if (two) (out += " and ") += name(advice.low);
  out += ": " + quantity::writeNumber(advice.today.si(), unit) + " → " +
         quantity::write(plan.correction.coefficient.si(), unit) + " (" + percent(plan.change) + " ± " +
         percent(2 * plan.u).substr(1) + ")";
  if (two)
    out += ", zero " + quantity::write(plan.correction.zero.si(), quantity::Dimension::pressure, system);
  std::string left;
  for (const StepError& e : plan.errors) {
    if (e.step == advice.high || (two && e.step == advice.low)) continue;
    left += (left.empty() ? "; error left: " : ", ") + std::string(name(e.step)) + " " + percent(e.after);
  }
  out += left + ".";
  if (plan.doubt.large) out += " Doubtful: larger than a correction should be.";
  if (plan.doubt.lostInUncertainty) out += " Doubtful: smaller than its own uncertainty.";
  if (plan.doubt.damperMoved) out += " Doubtful: the damper moved.";
  return out;
}

}  // namespace

std::vector<CoefficientAdvice> coefficientAdvice(const fleet::UnitRecord& record,
                                                 const fleet::Snapshot& project) {
  const auto today = coefficientToday(record);
  if (!today || record.readings.empty()) return {};
  // The element's pressure belongs to the flow as the controller reports it, so both flows are taken as
  // actual.
  fleet::UnitRecord actual = record;
  actual.unit.flowBasis = fleet::FlowBasis::actual;
  const JudgingContext context(project);
  const Selection selection(actual, context);
  UnitVerdict unused;
  const Judging j{actual, context, selection, unused};
  using enum AirflowStep;
  std::vector<CoefficientAdvice> out;
  if (auto cold = advice(j, *today, {coolingMax, coolingMin, heatingMax, heatingMin, reheat}))
    out.push_back(*cold);
  if (auto hot = advice(j, *today, {hotMax, hotMin})) {
    hot->hotInlet = true;
    out.push_back(*hot);
  }
  return out;
}

std::string sentence(const CoefficientAdvice& advice, quantity::System system) {
  std::string out = advice.hotInlet ? "Hot inlet. " : "";
  if (advice.onePoint) out += sentenceOf(*advice.onePoint, advice, false, system);
  if (advice.twoPoint) out += " " + sentenceOf(*advice.twoPoint, advice, true, system);
  return out;
}

}  // namespace ductwright::verdict
