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
  // What another quantity's errors add to one that changes `sensitivity` times as much; errors of one instrument may
  // cancel.
  void add(const InstrumentErrors& other, double sensitivity = 1);
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

// A variance in the two parts that repeating treats differently, and how often was repeated at most.
struct Spread {
  double fixed = 0, scatter = 0;
  int readings = 1;

  [[nodiscard]] double variance() const { return fixed + scatter; }
  // Independent contributions, in quadrature.
  Spread& operator+=(const Spread& other);
  // The contribution to a quantity that changes `sensitivity` times as much.
  [[nodiscard]] Spread times(double sensitivity) const {
    return {fixed * sensitivity * sensitivity, scatter * sensitivity * sensitivity, readings};
  }
};

// A quantity as it was read, SI, with what makes its standard uncertainty.
struct Estimate {
  double value = 0;
  InstrumentErrors errors;      // what repeating does not remove
  double scatter = 0;           // variance of the mean of repeated readings
  int readings = 1;             // how often the most repeated part was read

  [[nodiscard]] Spread spread() const { return {errors.variance(), scatter, readings}; }
  [[nodiscard]] double u() const { return std::sqrt(errors.variance() + scatter); }
  Estimate& operator+=(const Estimate& other);
  Estimate& operator*=(double factor);
};

}  // namespace ductwright::verdict
