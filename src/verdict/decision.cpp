#include "decision.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "metrology/settling.h"
#include "metrology/uncertainty.h"

namespace ductwright::verdict {
namespace {

using metrology::Interval;

constexpr double kRounding = 1e-9;

double snapped(double y, const Interval& interval) {
  for (const double limit : {interval.low, interval.high}) {
    if (std::isfinite(limit) && std::abs(y - limit) <= kRounding * std::max(std::abs(y), std::abs(limit))) return limit;
  }
  return y;
}

metrology::Judgement judgeBy(const Criteria& c, double y, double u, const Interval& interval) {
  if (c.rule == fleet::DecisionRule::guarded)
    return metrology::judge(y, u, interval, metrology::GuardedAcceptance{c.guardLow, c.guardHigh});
  return metrology::judge(y, u, interval, metrology::SimpleAcceptance{c.capabilityRatio, c.capabilityLow, c.capabilityHigh});
}

// The greatest u at which the check is neither undecided nor close.
double neededUncertainty(const Check& check, double y, const Interval& interval, const Criteria& c) {
  if (check.outcome != Outcome::cannotTell) return metrology::settlingUncertainty(y, interval, c.closeLow, c.closeHigh);
  if (c.rule == fleet::DecisionRule::guarded)
    return metrology::settlingUncertainty(y, interval, c.guardLow, c.guardHigh);
  return std::max(c.capabilityRatio * interval.halfWidth() / metrology::kCoverage,
                  metrology::settlingUncertainty(y, interval, c.capabilityLow, c.capabilityHigh));
}

std::uint16_t settlingReadings(const Check& check, const Judged& judged, double y, const Interval& interval,
                               const Criteria& criteria) {
  if (!(judged.spread.scatter > 0)) return 0;  // one reading does not show what repeating would bring
  const double deviation = std::sqrt(judged.spread.scatter * judged.spread.readings);
  const auto n = metrology::readingsToReach(neededUncertainty(check, y, interval, criteria), deviation,
                                            std::sqrt(judged.spread.fixed));
  if (!n || *n > std::numeric_limits<std::uint16_t>::max()) return 0;
  return static_cast<std::uint16_t>(std::max(*n, judged.spread.readings + 1));
}

}  // namespace

void decide(Check& check, const Judged& judged, const Interval& interval, const Criteria& criteria, HighEnd high) {
  const double y = snapped(judged.y, interval);
  const double u = std::sqrt(judged.spread.variance());
  metrology::Judgement judgement = judgeBy(criteria, y, u, interval);
  const bool onExcludedEnd = high == HighEnd::outside && y >= interval.high;
  if (onExcludedEnd && !(u > 0)) judgement = {metrology::Decision::fail, 0};
  if (onExcludedEnd && judgement.decision == metrology::Decision::pass) judgement.decision = metrology::Decision::fail;

  check.measured = judged.y;
  check.low = std::isfinite(interval.low) ? interval.low : kNone;
  check.high = std::isfinite(interval.high) ? interval.high : kNone;
  check.u = u;
  check.conformity = judgement.conformity;
  const bool guarded = criteria.rule == fleet::DecisionRule::guarded;
  switch (judgement.decision) {
    case metrology::Decision::pass:
      check.outcome = Outcome::pass;
      check.because = Because::none;
      break;
    case metrology::Decision::fail:
      check.outcome = Outcome::fail;
      check.because = Because::outside;
      break;
    case metrology::Decision::cannotTell:
      check.outcome = Outcome::cannotTell;
      check.because = guarded ? Because::guardBand : Because::notCapable;
      break;
  }
  check.close = check.outcome != Outcome::cannotTell &&
                metrology::isClose(judgement.conformity, criteria.closeLow, criteria.closeHigh);
  if (check.close || check.outcome == Outcome::cannotTell)
    check.settlesWith = settlingReadings(check, judged, y, interval, criteria);
}

}  // namespace ductwright::verdict
