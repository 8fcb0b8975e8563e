#include "metrology/sampling.h"

#include <algorithm>
#include <boost/math/distributions/beta.hpp>
#include <cmath>

namespace ductwright::metrology {
namespace {

double logChoose(int n, int k) {
  return std::lgamma(n + 1.0) - std::lgamma(k + 1.0) - std::lgamma(n - k + 1.0);
}

}  // namespace

double acceptanceChance(const Plan& plan, int lot, int bad) {
  const int least = std::max(0, plan.sample - (lot - bad));
  const int most = std::min({plan.acceptance, plan.sample, bad});
  const double all = logChoose(lot, plan.sample);
  double sum = 0;
  for (int k = least; k <= most; ++k)
    sum += std::exp(logChoose(bad, k) + logChoose(lot - bad, plan.sample - k) - all);
  return std::min(1.0, sum);
}

double acceptanceChance(const Plan& plan, double share) {
  if (share <= 0 || plan.acceptance >= plan.sample) return 1;
  if (share >= 1) return 0;
  double sum = 0;
  for (int k = 0; k <= plan.acceptance; ++k)
    sum += std::exp(logChoose(plan.sample, k) + k * std::log(share) + (plan.sample - k) * std::log1p(-share));
  return std::min(1.0, sum);
}

int zeroAcceptanceSample(double confidence, double share) {
  return static_cast<int>(std::ceil(std::log1p(-confidence) / std::log1p(-share) - 1e-12));
}

int zeroAcceptanceSample(double confidence, int lot, int bad) {
  int n = 1;
  while (n < lot && acceptanceChance({n, 0}, lot, bad) > 1 - confidence) ++n;
  return n;
}

std::optional<Plan> smallestPlan(int lot, const RiskPoint& producer, const RiskPoint& consumer) {
  // A lot of whole units that is no worse than the producer's share, and one that is no better than the
  // consumer's.
  const int good = static_cast<int>(std::floor(producer.share * lot + 1e-9));
  const int poor = static_cast<int>(std::ceil(consumer.share * lot - 1e-9));
  int acceptance = 0;
  for (int sample = 1; sample < lot; ++sample) {
    // The least acceptance number that satisfies the producer only grows with the sample.
    while (acceptance < sample && acceptanceChance({sample, acceptance}, lot, good) < producer.chance)
      ++acceptance;
    if (acceptanceChance({sample, acceptance}, lot, poor) <= consumer.chance) return Plan{sample, acceptance};
  }
  return std::nullopt;
}

int mostBad(int lot, int sample, int bad, double confidence) {
  int most = bad;
  const int possible = lot - (sample - bad);
  while (most < possible && acceptanceChance({sample, bad}, lot, most + 1) > 1 - confidence) ++most;
  return most;
}

double mostBadShare(int sample, int bad, double confidence) {
  if (bad >= sample) return 1;
  return boost::math::quantile(boost::math::beta_distribution<>(bad + 1, sample - bad), confidence);
}

}  // namespace ductwright::metrology
