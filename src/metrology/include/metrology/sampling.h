#pragma once

#include <optional>

// Acceptance sampling of a lot (a fleet, a floor): what a sample of n units with at most c bad proves.
namespace ductwright::metrology {

// A plan: test `sample` units, accept the lot with at most `acceptance` bad ones.
struct Plan {
  int sample = 0;
  int acceptance = 0;

  friend constexpr bool operator==(const Plan&, const Plan&) = default;
};

// The chance that a lot with `bad` non-conforming units is accepted (hypergeometric).
double acceptanceChance(const Plan& plan, int lot, int bad);
// The same for a share of non-conforming units in a lot without end (binomial).
double acceptanceChance(const Plan& plan, double share);

// Least sample without a bad unit that shows, with `confidence`, fewer than a share (in a lot without end)
// or fewer than `bad` units (in a lot) non-conforming.
int zeroAcceptanceSample(double confidence, double share);
int zeroAcceptanceSample(double confidence, int lot, int bad);

// A point of the operating characteristic: at this share non-conforming the lot is accepted with this chance.
struct RiskPoint {
  double share = 0;
  double chance = 0;
};

// The smallest plan that accepts a lot as good as `producer` with at least its chance, and one as bad as
// `consumer` with at most its chance; nothing where no sample short of the whole lot does.
std::optional<Plan> smallestPlan(int lot, const RiskPoint& producer, const RiskPoint& consumer);

// The greatest number of non-conforming units in a lot that a sample of `sample` with `bad` bad ones does not
// contradict: a lot with more would have shown more, with at least this confidence.
int mostBad(int lot, int sample, int bad, double confidence);
// The same as a share of a lot without end (Clopper and Pearson's upper bound).
double mostBadShare(int sample, int bad, double confidence);

}  // namespace ductwright::metrology
