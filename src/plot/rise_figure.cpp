#include <algorithm>

#include "axis_range.h"
#include "current_run.h"
#include "plot/unit_figures.h"

namespace ductwright::plot {
namespace {

using fleet::RiseStep;
using quantity::Dimension;
using verdict::Check;
using verdict::CheckKind;
using verdict::Criterion;

std::string riseText(double kelvins, quantity::System system) {
  return quantity::write(kelvins, Dimension::temperatureDifference, system);
}

class Builder {
 public:
  Builder(const Evidence& evidence, Figure& figure)
      : m_evidence(evidence),
        m_run(evidence.record, Procedure::dischargeRise),
        m_unit(quantity::unitFor(Dimension::temperatureDifference, evidence.system)),
        m_figure(figure) {}

  void build() {
    const std::string symbol(m_unit.symbol);
    m_figure.x.title = "expected rise, " + symbol;
    m_figure.y.title = "measured rise, " + symbol;
    const auto& checks = m_evidence.verdict.checks;
    for (std::size_t i = 0; i < checks.size(); ++i) {
      if (checks[i].kind == CheckKind::rise) addRise(checks[i], i);
      if (checks[i].kind == CheckKind::coldWhenOff) addCold(checks[i], i);
    }
    for (std::size_t i = 0; i < checks.size(); ++i) {
      if (checks[i].kind == CheckKind::limit) addLimit(checks[i], i);
    }
    finish();
  }

 private:
  [[nodiscard]] double shown(double kelvins) const { return kelvins / m_unit.factor; }

  void addPoint(const Check& check, std::size_t index, double expected, double measured, const std::string& words) {
    Point point;
    point.outcome = check.outcome;
    point.at = {shown(expected), shown(measured)};
    point.halfY = shown(2 * check.u);
    point.source.check = index;
    if (const Reading* reading = m_run.last(check.step, ReadingQuantity::dischargeAirTemperature))
      point.source.reading = reading->key;
    point.words = words + ", " + std::string(verdict::name(check.outcome));
    m_range.add(point.at.x);
    m_range.add(point.at.y, point.halfY);
    m_figure.points.push_back(std::move(point));
  }

  // The check's number is the difference from the expected rise.
  void addRise(const Check& check, std::size_t index) {
    if (!std::isfinite(check.measured) || !std::isfinite(check.expected)) return;
    m_expected = check.expected;
    m_riseStep = check.step;
    const double measured = check.expected + check.measured;
    addPoint(check, index, check.expected, measured,
             fleet::stepName(Procedure::dischargeRise, check.step) + ": rise " +
                 riseText(measured, m_evidence.system) + ", expected " + riseText(check.expected, m_evidence.system));
  }

  void addCold(const Check& check, std::size_t index) {
    if (!std::isfinite(check.measured)) return;
    addPoint(check, index, 0, check.measured, "heat off: rise " + riseText(check.measured, m_evidence.system));
  }

  // The limit is a discharge temperature: it becomes a rise by the air that entered while the heat was on.
  void addLimit(const Check& check, std::size_t index) {
    const std::optional<double> entering = m_run.mean(check.step, ReadingQuantity::enteringAirTemperature);
    if (!std::isfinite(check.high)) return;
    if (!entering) {
      m_figure.remark = limitText(check);
      return;
    }
    m_limit = shown(check.high - *entering);
    m_limitLabel = "limit " + quantity::write(check.high, Dimension::temperature, m_evidence.system);
    m_range.add(m_limit);
    if (!std::isfinite(check.measured)) return;
    const double measured = check.measured - *entering;
    const double expected = m_riseStep == check.step && std::isfinite(m_expected) ? m_expected : measured;
    addPoint(check, index, expected, measured, limitText(check));
  }

  [[nodiscard]] std::string limitText(const Check& check) const {
    const auto text = [&](double kelvin) { return quantity::write(kelvin, Dimension::temperature, m_evidence.system); };
    if (!std::isfinite(check.measured)) return "discharge limit " + text(check.high);
    return "discharge " + text(check.measured) + ", limit " + text(check.high);
  }

  // Parity with its tolerance: a share of the expected rise, at least the floor.
  void finish() {
    const auto& criteria = m_evidence.criteria;
    const double floor = shown(criteria.riseFloor.si());
    m_range.add(-2 * floor);
    const double low = m_range.low(), high = m_range.high(0.08);
    m_figure.x.low = m_figure.y.low = low;
    m_figure.x.high = m_figure.y.high = high;
    const double knee = std::min(floor / criteria.riseShare, high);
    const double wide = std::max(criteria.riseShare * high, floor);
    m_figure.bands.push_back({Shade::tolerance,
                              {{low, low - floor}, {knee, knee - floor}, {high, high - wide}, {high, high + wide},
                               {knee, knee + floor}, {low, low + floor}}});
    m_figure.lines.push_back({Rule::parity, {low, low}, {high, high}, ""});
    if (std::isfinite(m_limit)) m_figure.lines.push_back({Rule::limit, {low, m_limit}, {high, m_limit}, m_limitLabel});
    if (m_figure.points.empty() && m_figure.remark.empty()) m_figure.remark = "No rise was judged";
  }

  const Evidence& m_evidence;
  CurrentRun m_run;
  const quantity::Unit& m_unit;
  Figure& m_figure;
  AxisRange m_range{0, 30};
  double m_expected = kAbsent, m_limit = kAbsent;
  int m_riseStep = -1;
  std::string m_limitLabel;
};

}  // namespace

Figure riseFigure(const Evidence& evidence) {
  Figure figure;
  figure.title = "Discharge rise";
  if (evidence.verdict.of(Criterion::dischargeRise).outcome == Outcome::notApplicable) {
    figure.stands = false;
    figure.remark = "Without heat: does not apply";
    return figure;
  }
  Builder(evidence, figure).build();
  return figure;
}

}  // namespace ductwright::plot
