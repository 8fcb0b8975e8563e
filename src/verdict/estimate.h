#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

#include "fleet/word.h"

namespace ductwright::verdict {

// Standard uncertainties by the instrument that causes them: one instrument's errors add linearly, those of
// different instruments in quadrature. Readings that name no instrument count as one instrument's.
class InstrumentErrors {
 public:
  void add(fleet::Word instrument, double u);
  void add(const InstrumentErrors& other, double factor = 1);
  void scale(double factor);
  [[nodiscard]] double variance() const;

 private:
  struct Entry {
    fleet::Word instrument;
    double u = 0;
  };
  static constexpr std::size_t kInline = 3;
  std::array<Entry, kInline> m_first;
  std::size_t m_count = 0;      // of the entries in m_first
  std::vector<Entry> m_more;    // the rare rest
};

// A quantity as it was read, SI, with what makes its standard uncertainty.
struct Estimate {
  double value = 0;
  InstrumentErrors errors;      // what repeating does not remove
  double scatter = 0;           // variance of the mean of repeated readings
  int readings = 1;             // how often the most repeated part was read

  [[nodiscard]] double variance() const { return errors.variance() + scatter; }
  [[nodiscard]] double u() const { return std::sqrt(variance()); }
  Estimate& operator+=(const Estimate& other);
  Estimate& operator*=(double factor);
};

}  // namespace ductwright::verdict
