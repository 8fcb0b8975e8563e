#include "temperature.h"

#include <cassert>
#include <cmath>

#include "metrology/uncertainty.h"

namespace ductwright::verdict {
namespace {

double resolutionOf(const Counted& c, const JudgingContext& context) {
  const double own = c.instrument ? c.instrument->worth[static_cast<std::size_t>(c.quantity())].resolution : 0;
  return metrology::rectangular(own > 0 ? own : context.criteria().sameInstrument.si());
}

}  // namespace

void TemperatureSum::add(double weight, std::span<const Counted> readings) {
  assert(m_count < m_terms.size() && !readings.empty());
  double sum = 0;
  for (const Counted& c : readings) sum += c.reading->value;
  m_value += weight * (sum / static_cast<double>(readings.size()));
  m_terms[m_count++] = {weight, readings};
}

void TemperatureSum::add(double weight, const TemperatureSum& other) {
  for (std::size_t i = 0; i < other.m_count; ++i) add(weight * other.m_terms[i].weight, other.m_terms[i].readings);
}

bool TemperatureSum::losesCommonError() const {
  const fleet::Word serial = m_terms[0].readings.front().reading->instrument;
  double weights = 0;
  for (std::size_t i = 0; i < m_count; ++i) {
    weights += m_terms[i].weight;
    for (const Counted& c : m_terms[i].readings)
      if (c.reading->instrument != serial) return false;
  }
  return !serial.empty() && std::abs(weights) < 1e-9;
}

Spread TemperatureSum::spread(const JudgingContext& context) const {
  const bool lost = losesCommonError();
  Spread out;
  for (std::size_t i = 0; i < m_count; ++i) {
    const auto& [weight, readings] = m_terms[i];
    Spread term = meanOf(readings, context, [](const Counted&) { return 1.0; }).spread();
    if (lost) term.fixed = std::pow(resolutionOf(readings.front(), context), 2);
    out += term.times(weight);
  }
  return out;
}

}  // namespace ductwright::verdict
