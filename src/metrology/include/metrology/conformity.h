#pragma once

#include <cstdint>
#include <limits>

#include "metrology/distribution.h"

// Conformity with an interval, and the decision rules, by JCGM 106:2012.
namespace ductwright::metrology {

// An acceptance or tolerance interval; an infinite end is open.
struct Interval {
  double low = -std::numeric_limits<double>::infinity();
  double high = std::numeric_limits<double>::infinity();

  [[nodiscard]] constexpr bool contains(double y) const { return low <= y && y <= high; }
  [[nodiscard]] constexpr bool twoSided() const {
    return low > -std::numeric_limits<double>::infinity() && high < std::numeric_limits<double>::infinity();
  }
  [[nodiscard]] constexpr double halfWidth() const { return (high - low) / 2; }
};

// The chance that the true value lies in the interval: Φ((H − y)/u) − Φ((L − y)/u) (clause 7).
// Without uncertainty 1 inside and 0 outside.
inline double conformity(double y, double u, const Interval& interval) {
  if (!(u > 0)) return interval.contains(y) ? 1 : 0;
  const double a = (interval.low - y) / u;
  const double b = (interval.high - y) / u;
  // Both tails small on the same side: the upper tail keeps its digits.
  return a > 0 ? normalCdf(-a) - normalCdf(-b) : normalCdf(b) - normalCdf(a);
}

enum class Decision : std::uint8_t { pass, fail, cannotTell };

// Simple acceptance (8.2) with a test of capability: where an interval has two ends, U exceeds its
// half-width times the ratio, and the conformity lies strictly between low and high, nobody can tell.
struct SimpleAcceptance {
  double capabilityRatio = 1;
  double low = 0.10, high = 0.90;
};

// Guarded acceptance and rejection (8.3).
struct GuardedAcceptance {
  double low = 0.05, high = 0.95;
};

struct Judgement {
  Decision decision = Decision::cannotTell;
  double conformity = 0;
};

inline bool capable(double u, const Interval& interval, double ratio) {
  return !interval.twoSided() || 2 * u <= ratio * interval.halfWidth();
}

inline Judgement judge(double y, double u, const Interval& interval, const SimpleAcceptance& rule) {
  const double p = conformity(y, u, interval);
  if (!capable(u, interval, rule.capabilityRatio) && rule.low < p && p < rule.high)
    return {Decision::cannotTell, p};
  return {interval.contains(y) ? Decision::pass : Decision::fail, p};
}

inline Judgement judge(double y, double u, const Interval& interval, const GuardedAcceptance& rule) {
  const double p = conformity(y, u, interval);
  if (p >= rule.high) return {Decision::pass, p};
  return {p <= rule.low ? Decision::fail : Decision::cannotTell, p};
}

// A decision that was made although the conformity lies strictly between the two: it is close.
constexpr bool isClose(double conformity, double low = 0.05, double high = 0.95) {
  return low < conformity && conformity < high;
}

}  // namespace ductwright::metrology
