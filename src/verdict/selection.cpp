#include "selection.h"

#include <algorithm>
#include <cmath>

#include "metrology/uncertainty.h"

namespace ductwright::verdict {
namespace {

using fleet::RiseStep;

std::uint64_t keyOf(const fleet::Reading& r, bool early) {
  return static_cast<std::uint64_t>(r.procedure) << 40 | static_cast<std::uint64_t>(static_cast<std::uint32_t>(r.step)) << 8 |
         static_cast<std::uint64_t>(r.quantity) << 1 | (early ? 1 : 0);
}

// Groups, and in them outlets, stand together whatever order the readings came in, so that no sum depends on it.
bool before(const Counted& a, const Counted& b) {
  if (a.key != b.key) return a.key < b.key;
  if (a.reading->outlet != b.reading->outlet) return a.reading->outlet < b.reading->outlet;
  return a.reading->value < b.reading->value;
}

const Worth& worthOf(const Counted& c, const JudgingContext& context) {
  return c.instrument ? c.instrument->worth[static_cast<std::size_t>(c.quantity())] : context.unnamed(c.quantity());
}

bool isTemperature(ReadingQuantity q) { return fleet::dimensionOf(q) == quantity::Dimension::temperature; }

}  // namespace

double uncertaintyOf(const Counted& c, const JudgingContext& context) {
  const Worth& worth = worthOf(c, context);
  if (worth.share == 0) return worth.plus;
  const double value = isTemperature(c.quantity()) ? quantity::Temperature::fromSi(c.reading->value).celsius()
                                                   : c.reading->value;
  return metrology::accuracyLimit(value, worth.share, worth.plus);
}

std::span<const Counted> StepReadings::group(std::uint64_t first, std::uint64_t last) const {
  std::size_t from = 0;
  while (from < m_all.size() && (m_all[from].key & 0xff) < first) ++from;
  std::size_t to = from;
  while (to < m_all.size() && (m_all[to].key & 0xff) <= last) ++to;
  return m_all.subspan(from, to - from);
}

std::span<const Counted> StepReadings::of(ReadingQuantity q) const {
  const auto tail = static_cast<std::uint64_t>(q) << 1;
  return group(tail, m_withEarly ? tail + 1 : tail);
}

std::span<const Counted> StepReadings::earlyOf(ReadingQuantity q) const {
  const auto tail = static_cast<std::uint64_t>(q) << 1 | 1;
  return group(tail, tail);
}

std::optional<Estimate> StepReadings::estimate(ReadingQuantity q) const {
  const auto readings = of(q);
  if (readings.empty()) return std::nullopt;
  return meanOf(readings, *m_context, [](const Counted&) { return 1.0; });
}

std::optional<double> StepReadings::mean(ReadingQuantity q) const {
  const auto readings = of(q);
  if (readings.empty()) return std::nullopt;
  double sum = 0;
  for (const Counted& c : readings) sum += c.reading->value;
  return sum / static_cast<double>(readings.size());
}

std::optional<bool> StepReadings::flag(ReadingQuantity q) const {
  const auto readings = of(q);
  if (readings.empty()) return std::nullopt;
  return std::any_of(readings.begin(), readings.end(), [](const Counted& c) { return c.reading->value >= 0.5; });
}

Selection::Selection(const fleet::UnitRecord& record, const JudgingContext& context) : m_context(context) {
  const fleet::Criteria& criteria = context.criteria();
  std::optional<fleet::Duration> stroke = record.unit.strokeTime;
  if (!stroke) {
    if (const auto* profile = context.profile(record.unit.profile)) stroke = profile->strokeTime;
  }
  m_flowWait = (stroke.value_or(criteria.strokeUnknown) + criteria.settle).si();
  m_heatOffWait = record.unit.heat == fleet::HeatKind::hotWater ? criteria.heatOffWaterWait.si()
                                                                : criteria.heatOffElectricWait.si();
  findRuns(record);
  take(record);
  order();
  findSteps();
}

void Selection::findRuns(const fleet::UnitRecord& record) {
  int lowestAirflow = std::numeric_limits<int>::max();
  const auto see = [&](Procedure procedure, int number) {
    auto& highest = m_runs[static_cast<std::size_t>(procedure)];
    if (!highest || number > *highest) highest = number;
    if (procedure == Procedure::airflow) lowestAirflow = std::min(lowestAirflow, number);
  };
  for (const fleet::Run& run : record.runs) see(run.procedure, run.number);
  for (const fleet::Reading& reading : record.readings)
    if (!reading.withdrawn) see(reading.procedure, reading.run);
  const auto airflow = run(Procedure::airflow);
  m_rebalanced = airflow && lowestAirflow < *airflow;
}

void Selection::take(const fleet::UnitRecord& record) {
  std::size_t count = 0;
  const bool fits = record.readings.size() <= kInline;
  if (!fits) m_more.reserve(record.readings.size());
  for (const fleet::Reading& r : record.readings) {
    if (r.withdrawn || !std::isfinite(r.value) || r.run != m_runs[static_cast<std::size_t>(r.procedure)]) continue;
    const bool early = r.waited && static_cast<double>(*r.waited) < neededWait(r.procedure, r.step);
    const Counted counted{keyOf(r, early), &r, m_context.instrument(r.instrument)};
    if (fits) {
      m_inline[count++] = counted;
    } else {
      m_more.push_back(counted);
    }
  }
  m_items = fits ? std::span<Counted>(m_inline.data(), count) : std::span<Counted>(m_more);
}

void Selection::order() {
  if (m_items.size() > kInline) {
    std::sort(m_items.begin(), m_items.end(), before);
    return;
  }
  for (std::size_t i = 1; i < m_items.size(); ++i) {
    const Counted item = m_items[i];
    std::size_t at = i;
    for (; at > 0 && before(item, m_items[at - 1]); --at) m_items[at] = m_items[at - 1];
    m_items[at] = item;
  }
}

double Selection::neededWait(Procedure procedure, int step) const {
  const fleet::Criteria& criteria = m_context.criteria();
  switch (procedure) {
    case Procedure::airflow: return m_flowWait;
    case Procedure::reheatLockout: return criteria.lockoutWait.si();
    case Procedure::dischargeRise: break;
  }
  return step == fleet::code(RiseStep::heatOff) ? m_heatOffWait : criteria.heatOnWait.si();
}

void Selection::findSteps() {
  const auto size = static_cast<std::uint32_t>(m_items.size());
  for (std::uint32_t from = 0; from < size;) {
    std::uint32_t to = from + 1;
    while (to < size && m_items[to].key >> 8 == m_items[from].key >> 8) ++to;
    const auto procedure = static_cast<std::size_t>(m_items[from].key >> 40);
    Range& all = m_procedures[procedure];
    if (all.to == 0) all.from = from;
    all.to = to;
    const int step = m_items[from].step();
    if (step >= 0 && step < kNamedSteps) {
      if (procedure == static_cast<std::size_t>(Procedure::airflow)) m_airflowSteps[static_cast<std::size_t>(step)] = {from, to};
      if (procedure == static_cast<std::size_t>(Procedure::dischargeRise)) m_riseSteps[static_cast<std::size_t>(step)] = {from, to};
    }
    from = to;
  }
}

std::span<const Counted> Selection::of(Procedure procedure) const {
  const Range range = m_procedures[static_cast<std::size_t>(procedure)];
  return m_items.subspan(range.from, range.to - range.from);
}

StepReadings Selection::step(fleet::AirflowStep step) const {
  const Range range = m_airflowSteps[static_cast<std::size_t>(step)];
  return {m_items.subspan(range.from, range.to - range.from), m_context};
}

StepReadings Selection::step(fleet::RiseStep step) const {
  const Range range = m_riseSteps[static_cast<std::size_t>(step)];
  return {m_items.subspan(range.from, range.to - range.from), m_context};
}

}  // namespace ductwright::verdict
