#pragma once

namespace ductwright::plot {

// The range that holds every value added, widened by a share of its length.
class AxisRange {
 public:
  AxisRange(double low, double high) : m_low(low), m_high(high) {}
  void add(double value);              // an absent value adds nothing
  void add(double value, double half);
  [[nodiscard]] double low(double margin = 0) const { return m_low - margin * (m_high - m_low); }
  [[nodiscard]] double high(double margin = 0) const { return m_high + margin * (m_high - m_low); }

 private:
  double m_low, m_high;
};

}  // namespace ductwright::plot
