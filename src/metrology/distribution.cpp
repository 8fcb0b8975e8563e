#include "metrology/distribution.h"

#include <boost/math/distributions/students_t.hpp>
#include <boost/math/special_functions/erf.hpp>
#include <limits>

namespace ductwright::metrology {

double normalQuantile(double p) {
  if (p <= 0) return -std::numeric_limits<double>::infinity();
  if (p >= 1) return std::numeric_limits<double>::infinity();
  return -std::numbers::sqrt2 * boost::math::erfc_inv(2 * p);
}

double studentCdf(double t, double freedom) {
  if (std::isinf(freedom)) return normalCdf(t);
  return boost::math::cdf(boost::math::students_t(freedom), t);
}

double studentQuantile(double p, double freedom) {
  if (std::isinf(freedom) || p <= 0 || p >= 1) return normalQuantile(p);
  return boost::math::quantile(boost::math::students_t(freedom), p);
}

double coverageFactor(double level, double freedom) {
  return studentQuantile((1 + level) / 2, freedom);
}

}  // namespace ductwright::metrology
