#include "metrology/guard_band.h"

#include <algorithm>
#include <boost/math/quadrature/gauss_kronrod.hpp>

namespace ductwright::metrology {
namespace {

double normalDensity(double x) {
  return std::exp(-x * x / 2) * std::numbers::inv_sqrtpi / std::numbers::sqrt2;
}

}  // namespace

Interval guarded(const Interval& tolerance, double w) {
  return {tolerance.low + w, tolerance.high - w};
}

double guardBand(double u, double confidence) {
  return normalQuantile(confidence) * u;
}

GlobalRisk globalRisk(const Process& process, const Interval& tolerance, const Interval& acceptance) {
  // Over z = (value − mean) / deviation: the density of the values times the chance that one is accepted.
  const auto accepted = [&](double z) {
    return normalDensity(z) *
           conformity(process.mean + z * process.deviation, process.uncertainty, acceptance);
  };
  const double end = 12;  // deviations: beyond lies less than 1e-32
  const auto over = [&](double from, double to) {
    using Rule = boost::math::quadrature::gauss_kronrod<double, 61>;
    return to > from ? Rule::integrate(accepted, from, to, 15, 1e-10) : 0.0;
  };
  const double low = std::clamp((tolerance.low - process.mean) / process.deviation, -end, end);
  const double high = std::clamp((tolerance.high - process.mean) / process.deviation, -end, end);
  const double conforming = normalCdf(high) - normalCdf(low);
  return {over(-end, low) + over(high, end), conforming - over(low, high)};
}

}  // namespace ductwright::metrology
