#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "estimate.h"
#include "verdict/context.h"

// Which readings of a unit count: those of the current run of each procedure that were not struck, grouped by
// step and quantity, the early ones apart.
namespace ductwright::verdict {

using fleet::Procedure;
using fleet::ReadingQuantity;

struct Counted {
  std::uint64_t key;  // procedure, step, quantity, early: what orders and groups
  const fleet::Reading* reading;
  const KnownInstrument* instrument;  // null: none named, or not one of the project's

  [[nodiscard]] bool early() const { return key & 1; }
  [[nodiscard]] ReadingQuantity quantity() const { return static_cast<ReadingQuantity>(key >> 1 & 0x7f); }
  [[nodiscard]] int step() const { return static_cast<std::int32_t>(key >> 8 & 0xffffffff); }
};

// The readings of one step.
class StepReadings {
 public:
  StepReadings(std::span<const Counted> all, const JudgingContext& context) : m_all(all), m_context(&context) {}
  // The same step with its early readings taken for good: for what must be said at once.
  [[nodiscard]] StepReadings withEarly() const {
    StepReadings out = *this;
    out.m_withEarly = true;
    return out;
  }

  [[nodiscard]] bool empty() const { return m_all.empty(); }
  [[nodiscard]] int step() const { return m_all.front().step(); }
  [[nodiscard]] std::span<const Counted> all() const { return m_all; }
  // The readings of a quantity that may be judged; the early ones.
  [[nodiscard]] std::span<const Counted> of(ReadingQuantity) const;
  [[nodiscard]] std::span<const Counted> earlyOf(ReadingQuantity) const;
  [[nodiscard]] bool onlyEarly(ReadingQuantity q) const { return of(q).empty() && !earlyOf(q).empty(); }

  // Repeated readings: their mean, their instruments' limits, the standard error of the mean.
  [[nodiscard]] std::optional<Estimate> estimate(ReadingQuantity) const;
  [[nodiscard]] std::optional<double> mean(ReadingQuantity) const;
  // A flag is set where any reading says so.
  [[nodiscard]] std::optional<bool> flag(ReadingQuantity) const;

  [[nodiscard]] const JudgingContext& context() const { return *m_context; }

 private:
  [[nodiscard]] std::span<const Counted> group(std::uint64_t first, std::uint64_t last) const;
  std::span<const Counted> m_all;
  const JudgingContext* m_context;
  bool m_withEarly = false;
};

class Selection {
 public:
  Selection(const fleet::UnitRecord& record, const JudgingContext& context);
  Selection(const Selection&) = delete;
  Selection& operator=(const Selection&) = delete;

  [[nodiscard]] std::optional<int> run(Procedure p) const { return m_runs[static_cast<std::size_t>(p)]; }
  // True where the current airflow run superseded another.
  [[nodiscard]] bool rebalanced() const { return m_rebalanced; }
  [[nodiscard]] std::span<const Counted> of(Procedure) const;
  [[nodiscard]] StepReadings step(fleet::AirflowStep) const;
  [[nodiscard]] StepReadings step(fleet::RiseStep) const;
  // The wait that a step of a procedure needs, seconds.
  [[nodiscard]] double neededWait(Procedure, int step) const;

 private:
  void findRuns(const fleet::UnitRecord&);
  void take(const fleet::UnitRecord&);
  void order();
  void findSteps();

  struct Range {
    std::uint32_t from = 0, to = 0;
  };
  static constexpr int kNamedSteps = 12;  // of airflow and discharge rise

  static constexpr std::size_t kInline = 96;
  const JudgingContext& m_context;
  std::array<std::optional<int>, 3> m_runs;
  bool m_rebalanced = false;
  double m_flowWait = 0, m_heatOffWait = 0;
  std::array<Counted, kInline> m_inline;  // left uninitialised: only m_items is read
  std::vector<Counted> m_more;
  std::span<Counted> m_items;
  std::array<Range, 3> m_procedures;
  std::array<Range, kNamedSteps> m_airflowSteps, m_riseSteps;
};

// The standard uncertainty of one reading by its instrument, or by the project's default.
double uncertaintyOf(const Counted&, const JudgingContext&);
// The mean of repeated readings, each times its factor, with their instruments' limits and the standard error
// of the mean. `readings` must not be empty.
template <class Factor>
Estimate meanOf(std::span<const Counted> readings, const JudgingContext& context, Factor factor) {
  const auto n = static_cast<double>(readings.size());
  Estimate out;
  for (const Counted& c : readings) {
    const double f = factor(c);
    out.value += f * c.reading->value / n;
    out.errors.add(c.reading->instrument, f * uncertaintyOf(c, context) / n);
  }
  out.readings = static_cast<int>(readings.size());
  if (readings.size() < 2) return out;
  double squares = 0;
  for (const Counted& c : readings) {
    const double apart = factor(c) * c.reading->value - out.value;
    squares += apart * apart;
  }
  out.scatter = squares / (n - 1) / n;
  return out;
}

}  // namespace ductwright::verdict
