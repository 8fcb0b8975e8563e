#include <algorithm>

#include "axis_range.h"
#include "current_run.h"
#include "plot/unit_figures.h"

namespace ductwright::plot {
namespace {

using verdict::Check;
using verdict::CheckKind;
using verdict::Criterion;

constexpr double kRowHalf = 0.34;

// What was seen at one point, and how it was judged.
struct Observation {
  double ratio = kAbsent, u = kAbsent;
  bool called = false, on = false;
  Outcome outcome = Outcome::untested;
  Source source;
  int step = 0;
};

// Rows from top to bottom. The last two are shown only where something was seen in them.
double rowOf(bool called, bool on) { return called ? (on ? 4 : 3) : (on ? 2 : 1); }

std::string rowName(bool called, bool on) {
  return std::string(on ? "heat on,\n" : "heat off,\n") + (called ? "called" : "not called");
}

// Flow over reference, as recorded: for a point that was not judged by its flow.
double recordedRatio(const fleet::Unit& unit, const CurrentRun& run, int step) {
  std::optional<double> flow = run.mean(step, ReadingQuantity::measuredFlow);
  if (!flow) flow = run.mean(step, ReadingQuantity::fanFlow);
  if (!flow) flow = run.mean(step, ReadingQuantity::reportedFlow);
  std::optional<double> reference = run.mean(step, ReadingQuantity::flowSetpoint);
  if (!reference && unit.reheat && unit.reheat->si() > 0) reference = unit.reheat->si();
  if (!reference && unit.heatingMin && unit.heatingMin->si() > 0) reference = unit.heatingMin->si();
  return flow && reference && *reference > 0 ? *flow / *reference : kAbsent;
}

bool isPointCheck(const Check& check) {
  return check.kind == CheckKind::onWithoutCall || check.kind == CheckKind::onWhenAllowed ||
         check.kind == CheckKind::heatsWhenItShould;
}

std::vector<Observation> observationsOf(const Evidence& evidence, const CurrentRun& run) {
  std::vector<Observation> seen;
  for (const int step : run.steps()) {
    Observation point;
    point.step = step;
    point.called = run.mean(step, ReadingQuantity::heatCall).value_or(0) > 0.5;
    const Reading* on = run.last(step, ReadingQuantity::heatOn);
    if (!on) continue;
    point.on = on->value > 0.5;
    point.source.reading = on->key;
    point.ratio = recordedRatio(evidence.record.unit, run, step);
    for (std::size_t i = 0; i < evidence.verdict.checks.size(); ++i) {
      const Check& check = evidence.verdict.checks[i];
      if (!isPointCheck(check) || check.step != step || check.outcome == Outcome::untested) continue;
      point.outcome = check.outcome;
      point.source.check = i;
      if (check.kind == CheckKind::onWithoutCall || !std::isfinite(check.measured)) continue;
      point.ratio = check.measured;
      point.u = check.u;
    }
    if (!point.called && !point.on) point.outcome = Outcome::notApplicable;  // rightly off: nothing to judge
    if (std::isfinite(point.ratio)) seen.push_back(point);
  }
  return seen;
}

std::string percentText(double ratio) { return std::to_string(std::lround(100 * ratio)) + " %"; }

// Where heat is a failure: on below the threshold, off at full flow, and on without a call at any flow.
void addForbidden(Figure& figure, double threshold, double shouldHeat, bool uncalledRows) {
  const auto band = [&](double row, double from, double to) {
    figure.bands.push_back({Shade::forbidden,
                            {{from, row - kRowHalf}, {to, row - kRowHalf}, {to, row + kRowHalf}, {from, row + kRowHalf}}});
  };
  if (threshold > 0) band(rowOf(true, true), figure.x.low, threshold * 100);
  band(rowOf(true, false), shouldHeat * 100, figure.x.high);
  if (uncalledRows) band(rowOf(false, true), figure.x.low, figure.x.high);
}

// The observed threshold: between the greatest flow seen off with a call and the least seen on.
void addBracket(Figure& figure, const std::vector<Observation>& seen) {
  double off = kAbsent, on = kAbsent;
  for (const Observation& point : seen) {
    if (!point.called || point.outcome == Outcome::untested) continue;
    if (point.on) on = std::isfinite(on) ? std::min(on, point.ratio) : point.ratio;
    if (!point.on) off = std::isfinite(off) ? std::max(off, point.ratio) : point.ratio;
  }
  if (!std::isfinite(off) || !std::isfinite(on)) return;
  const double low = 100 * std::min(off, on), high = 100 * std::max(off, on);
  figure.bands.push_back({Shade::bracket, {{low, 3.44}, {high, 3.44}, {high, 3.56}, {low, 3.56}}});
  figure.remark = (off <= on ? "switches between " : "seen off and on between ") + percentText(std::min(off, on)) +
                  " and " + percentText(std::max(off, on));
}

Point pointOf(const Observation& seen) {
  Point point;
  point.outcome = seen.outcome;
  point.at = {100 * seen.ratio, rowOf(seen.called, seen.on)};
  point.halfX = 200 * seen.u;
  point.source = seen.source;
  point.words = "point " + fleet::stepName(Procedure::reheatLockout, seen.step) + ": heat " + (seen.on ? "on" : "off") +
                (seen.called ? " with a call at " : " without a call at ") + percentText(seen.ratio) +
                " of the reference flow, " + std::string(verdict::name(seen.outcome));
  return point;
}

void addAxes(Figure& figure, const std::vector<Observation>& seen, double threshold) {
  AxisRange range(std::min(0.5, threshold * 0.9), 1.1);
  for (const Observation& point : seen) range.add(point.ratio, 2 * point.u);
  figure.x.low = std::max(0.0, 100 * range.low(0.04));
  figure.x.high = 100 * range.high(0.04);
  const bool uncalled = std::any_of(seen.begin(), seen.end(), [](const Observation& o) { return !o.called; });
  figure.y.low = uncalled ? 0.4 : 2.4;
  figure.y.high = 4.6;
  for (const auto& [called, on] : {std::pair{true, true}, {true, false}, {false, true}, {false, false}}) {
    if (called || uncalled) figure.y.ticks.push_back({rowOf(called, on), rowName(called, on)});
  }
}

}  // namespace

Figure lockoutFigure(const Evidence& evidence) {
  Figure figure;
  figure.title = "Reheat lockout";
  figure.x.title = "flow, % of reference";
  const fleet::Unit& unit = evidence.record.unit;
  if (evidence.verdict.of(Criterion::reheatLockout).outcome == Outcome::notApplicable) {
    figure.stands = false;
    figure.remark = unit.heat == fleet::HeatKind::none ? "Without heat: does not apply" : "Does not apply";
    return figure;
  }
  const double threshold = unit.heatEnableRatio.value_or(evidence.criteria.heatEnableRatio);
  const CurrentRun run(evidence.record, Procedure::reheatLockout);
  const std::vector<Observation> seen = observationsOf(evidence, run);
  addAxes(figure, seen, threshold);
  addForbidden(figure, threshold, 1 - evidence.criteria.lockoutFlowTolerance, figure.y.low < 1);
  if (threshold > 0) {
    figure.lines.push_back({Rule::threshold, {100 * threshold, figure.y.low}, {100 * threshold, figure.y.high},
                            "threshold " + percentText(threshold)});
  }
  addBracket(figure, seen);
  for (const Observation& point : seen) figure.points.push_back(pointOf(point));
  if (seen.empty()) figure.remark = "No point was recorded";
  return figure;
}

}  // namespace ductwright::plot
