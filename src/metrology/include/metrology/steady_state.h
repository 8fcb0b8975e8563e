#pragma once

#include <optional>

// Detection of steady state by the ratio of two filtered variances (Cao and Rhinehart, Journal of Process
// Control 5, 1995).
namespace ductwright::metrology {

// The filter factors λ1, λ2, λ3, each above 0 and at most 1.
struct SteadyFilters {
  double mean = 0.2;
  double variance = 0.1;
  double difference = 0.1;

  friend constexpr bool operator==(const SteadyFilters&, const SteadyFilters&) = default;
};

// Takes one value after another and keeps R: about 1 where the values only scatter, larger where they move.
class SteadyRatio {
 public:
  explicit SteadyRatio(const SteadyFilters& filters = {}) : m_filters(filters) {}

  void add(double x);
  // Nothing before the third value; nothing where the values do not scatter at all.
  [[nodiscard]] std::optional<double> ratio() const;
  [[nodiscard]] int count() const { return m_count; }

 private:
  SteadyFilters m_filters;
  double m_mean = 0, m_previous = 0, m_variance = 0, m_difference = 0;
  int m_count = 0;
};

// The R that white noise stays below with the given chance, at one of the filters and chances of the
// table (simulated, 200 000 runs); nothing elsewhere.
std::optional<double> criticalRatio(const SteadyFilters& filters, double confidence);

}  // namespace ductwright::metrology
