#include "estimate.h"

#include <algorithm>

namespace ductwright::verdict {

void InstrumentErrors::add(fleet::Word instrument, double u) {
  for (std::size_t i = 0; i < m_count; ++i) {
    if (m_first[i].instrument == instrument) {
      m_first[i].u += u;
      return;
    }
  }
  if (m_count < kInline) {
    m_first[m_count++] = {instrument, u};
    return;
  }
  for (Entry& entry : m_more) {
    if (entry.instrument == instrument) {
      entry.u += u;
      return;
    }
  }
  m_more.push_back({instrument, u});
}

void InstrumentErrors::add(const InstrumentErrors& other, double sensitivity) {
  for (std::size_t i = 0; i < other.m_count; ++i) add(other.m_first[i].instrument, sensitivity * other.m_first[i].u);
  for (const Entry& entry : other.m_more) add(entry.instrument, sensitivity * entry.u);
}

void InstrumentErrors::scale(double factor) {
  for (std::size_t i = 0; i < m_count; ++i) m_first[i].u *= factor;
  for (Entry& entry : m_more) entry.u *= factor;
}

double InstrumentErrors::variance() const {
  double sum = 0;
  for (std::size_t i = 0; i < m_count; ++i) sum += m_first[i].u * m_first[i].u;
  for (const Entry& entry : m_more) sum += entry.u * entry.u;
  return sum;
}

Spread& Spread::operator+=(const Spread& other) {
  fixed += other.fixed;
  scatter += other.scatter;
  readings = std::max(readings, other.readings);
  return *this;
}

Estimate& Estimate::operator+=(const Estimate& other) {
  value += other.value;
  errors.add(other.errors);
  scatter += other.scatter;
  readings = std::max(readings, other.readings);
  return *this;
}

Estimate& Estimate::operator*=(double factor) {
  value *= factor;
  errors.scale(factor);
  scatter *= factor * factor;
  return *this;
}

}  // namespace ductwright::verdict
