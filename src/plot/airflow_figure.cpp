#include <algorithm>

#include "axis_range.h"
#include "current_run.h"
#include "plot/unit_figures.h"

namespace ductwright::plot {
namespace {

using quantity::Dimension;
using verdict::Check;
using verdict::CheckKind;

constexpr double kMeasuredShift = -0.12, kReportedShift = 0.18, kHalfColumn = 0.40;

std::string flow(double si, quantity::System system) { return quantity::write(si, Dimension::airflow, system); }

// "cooling max" on two lines, so that columns can stand close.
std::string onLines(std::string step) {
  std::replace(step.begin(), step.end(), ' ', '\n');
  return step.find('\n') == std::string::npos ? step + "\n" : step;
}

std::string pointWords(const std::string& what, double value, double expanded, Outcome outcome,
                       quantity::System system) {
  std::string words = what + " " + flow(value, system);
  if (std::isfinite(expanded)) words += " ± " + flow(expanded, system);
  return words + ", " + std::string(verdict::name(outcome));
}

const Reading* measuredReading(const CurrentRun& run, int step) {
  for (const auto quantity :
       {ReadingQuantity::measuredFlow, ReadingQuantity::fanFlow, ReadingQuantity::outletFlow}) {
    if (const Reading* reading = run.last(step, quantity)) return reading;
  }
  return nullptr;
}

struct Column {
  std::size_t check;      // measured against design
  const Check* measured;
  const Check* reported = nullptr;
  std::size_t reportedCheck = 0;
  const Reading* measuredReading = nullptr;
  const Reading* reportedReading = nullptr;
};

// One column for each flow that the schedule gives; steps of equal flow share their reading.
std::vector<Column> columnsOf(const Evidence& evidence, const CurrentRun& run) {
  std::vector<Column> columns;
  const auto& checks = evidence.verdict.checks;
  for (std::size_t i = 0; i < checks.size(); ++i) {
    if (checks[i].kind == CheckKind::measuredAgainstDesign && checks[i].expected > 0)
      columns.push_back({.check = i, .measured = &checks[i]});
  }
  for (Column& column : columns) {
    std::vector<int> steps{column.measured->step};
    for (const Column& other : columns) {
      if (other.measured->expected == column.measured->expected) steps.push_back(other.measured->step);
    }
    for (const int step : steps) {
      if (!column.measuredReading) column.measuredReading = measuredReading(run, step);
    }
    // At step fan a reported flow is the inlet's, which is not what the column shows.
    if (column.measured->step == fleet::code(fleet::AirflowStep::fan)) continue;
    column.reportedReading = run.last(column.measured->step, ReadingQuantity::reportedFlow);
    for (std::size_t i = 0; i < checks.size(); ++i) {
      if (checks[i].kind == CheckKind::reportedAgainstMeasured && checks[i].step == column.measured->step) {
        column.reported = &checks[i];
        column.reportedCheck = i;
      }
    }
  }
  return columns;
}

class Builder {
 public:
  Builder(const Evidence& evidence, Figure& figure)
      : m_evidence(evidence),
        m_run(evidence.record, Procedure::airflow),
        m_unit(quantity::unitFor(Dimension::airflow, evidence.system)),
        m_figure(figure) {}

  void build() {
    const std::vector<Column> columns = columnsOf(m_evidence, m_run);
    for (std::size_t i = 0; i < columns.size(); ++i) add(columns[i], static_cast<double>(i) + 1);
    const double last = static_cast<double>(columns.size()) + 0.5;
    m_figure.lines.push_back({Rule::design, {0.5, 100}, {last, 100}, ""});
    m_figure.x.title = "step, design flow in " + std::string(m_unit.symbol);
    m_figure.x.low = 0.5;
    m_figure.x.high = last;
    m_figure.y.low = std::max(0.0, m_range.low(0.08));
    m_figure.y.high = m_range.high(0.08);
    m_figure.stands = !columns.empty();
    if (columns.empty()) {
      m_figure.remark = "The schedule gives no flow to test";
    } else if (m_figure.points.empty()) {
      m_figure.remark = "No flow was measured";
    }
  }

 private:
  void add(const Column& column, double x) {
    const Check& check = *column.measured;
    const std::string step = fleet::stepName(Procedure::airflow, check.step);
    m_figure.x.ticks.push_back({x, onLines(step) + "\n" + quantity::writeNumber(check.expected, m_unit)});
    const double percent = 100 / check.expected;
    addBand(check, x, percent);
    addMeasured(column, x + kMeasuredShift, percent, step);
    addReported(column, x + kReportedShift, percent, step);
  }

  void addBand(const Check& check, double x, double percent) {
    const auto& criteria = m_evidence.criteria;
    const double floor = criteria.flowFloor.si();
    const double low = std::isfinite(check.low) ? check.low
                                                : check.expected - std::max(criteria.flowLow * check.expected, floor);
    const double high = std::isfinite(check.high)
                            ? check.high
                            : check.expected + std::max(criteria.flowHigh * check.expected, floor);
    const double a = low * percent, b = high * percent;
    m_range.add(a);
    m_range.add(b);
    m_figure.bands.push_back({Shade::tolerance,
                              {{x - kHalfColumn, a}, {x + kHalfColumn, a}, {x + kHalfColumn, b}, {x - kHalfColumn, b}}});
  }

  void addMeasured(const Column& column, double x, double percent, const std::string& step) {
    const Check& check = *column.measured;
    const Reading* reading = column.measuredReading;
    const double value = std::isfinite(check.measured) ? check.measured : reading ? reading->value : kAbsent;
    if (!std::isfinite(value)) return;
    Point point;
    point.series = Series::measured;
    point.outcome = check.outcome;
    point.at = {x, value * percent};
    point.halfY = 2 * check.u * percent;
    point.source.check = column.check;
    if (reading) point.source.reading = reading->key;
    point.words = pointWords(step + ": measured", value, 2 * check.u, check.outcome, m_evidence.system);
    m_range.add(point.at.y, point.halfY);
    m_figure.points.push_back(std::move(point));
  }

  void addReported(const Column& column, double x, double percent, const std::string& step) {
    if (!column.reportedReading) return;
    const Check* check = column.reported;
    // The check's number is the difference from the measured flow, on the design's basis.
    const bool judged = check && std::isfinite(check->measured) && std::isfinite(check->expected);
    const double value = judged ? check->expected + check->measured : column.reportedReading->value;
    Point point;
    point.series = Series::reported;
    point.outcome = check ? check->outcome : Outcome::untested;
    point.at = {x, value * percent};
    point.source.reading = column.reportedReading->key;
    if (check) point.source.check = column.reportedCheck;
    point.words = pointWords(step + ": reported", value, kAbsent, point.outcome, m_evidence.system);
    m_range.add(point.at.y);
    m_figure.points.push_back(std::move(point));
  }

  const Evidence& m_evidence;
  CurrentRun m_run;
  const quantity::Unit& m_unit;
  Figure& m_figure;
  AxisRange m_range{88, 112};
};

}  // namespace

Figure airflowFigure(const Evidence& evidence) {
  Figure figure;
  figure.title = "Airflow against design";
  figure.y.title = "flow, % of design";
  Builder(evidence, figure).build();
  return figure;
}

}  // namespace ductwright::plot
