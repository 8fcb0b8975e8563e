#pragma once

#include <array>

#include "selection.h"

namespace ductwright::verdict {

// Temperatures added with weights: a reading, a mix, a difference.
class TemperatureSum {
 public:
  void add(double weight, std::span<const Counted> readings);
  void add(double weight, const TemperatureSum& other);

  [[nodiscard]] double value() const { return m_value; }
  // The variance of the sum. Where the weights cancel and all readings were taken with one instrument (the same
  // serial) its common error is lost: each reading has only the instrument's resolution, or the project's default.
  // Else the terms are independent, each with its instruments' accuracy.
  [[nodiscard]] Spread spread(const JudgingContext&) const;

 private:
  struct Term {
    double weight = 0;
    std::span<const Counted> readings;
  };
  [[nodiscard]] bool losesCommonError() const;

  std::array<Term, 4> m_terms;
  std::size_t m_count = 0;
  double m_value = 0;
};

}  // namespace ductwright::verdict
