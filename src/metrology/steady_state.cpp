#include "metrology/steady_state.h"

#include <array>

namespace ductwright::metrology {
namespace {

constexpr std::array kConfidences{0.50, 0.90, 0.95, 0.99, 0.995};

struct Row {
  SteadyFilters filters;
  std::array<double, kConfidences.size()> ratios;
};

constexpr std::array kCritical{
    Row{{0.20, 0.10, 0.10}, {1.000, 1.313, 1.438, 1.732, 1.860}},
    Row{{0.10, 0.10, 0.10}, {0.998, 1.350, 1.491, 1.832, 1.980}},
    Row{{0.05, 0.05, 0.05}, {1.000, 1.238, 1.325, 1.525, 1.609}},
    Row{{0.30, 0.10, 0.10}, {1.001, 1.279, 1.385, 1.624, 1.731}},
};

}  // namespace

void SteadyRatio::add(double x) {
  ++m_count;
  if (m_count == 1) {
    m_mean = m_previous = x;
    return;
  }
  const double fromMean = x - m_mean;
  const double fromPrevious = x - m_previous;
  // The second value starts the two variances at what they estimate: 2 σ² a difference.
  const double l2 = m_count == 2 ? 1 : m_filters.variance;
  const double l3 = m_count == 2 ? 1 : m_filters.difference;
  m_variance = l2 * (m_count == 2 ? fromMean * fromMean / (2 - m_filters.mean) : fromMean * fromMean) +
               (1 - l2) * m_variance;
  m_difference = l3 * fromPrevious * fromPrevious + (1 - l3) * m_difference;
  m_mean += m_filters.mean * fromMean;
  m_previous = x;
}

std::optional<double> SteadyRatio::ratio() const {
  if (m_count < 3 || !(m_difference > 0)) return std::nullopt;
  return (2 - m_filters.mean) * m_variance / m_difference;
}

std::optional<double> criticalRatio(const SteadyFilters& filters, double confidence) {
  for (const Row& row : kCritical) {
    if (!(row.filters == filters)) continue;
    for (std::size_t i = 0; i < kConfidences.size(); ++i)
      if (kConfidences[i] == confidence) return row.ratios[i];
  }
  return std::nullopt;
}

}  // namespace ductwright::metrology
