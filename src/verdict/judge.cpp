#include "verdict/judge.h"

#include <algorithm>

#include "judging.h"
#include "tally.h"

namespace ductwright::verdict {
namespace {

void scoreUnit(UnitVerdict& verdict) {
  verdict.outcome = Outcome::notApplicable;
  for (const CriterionVerdict& criterion : verdict.criteria) {
    verdict.outcome = ruling(verdict.outcome, criterion.outcome);
    if (criterion.score) verdict.score = std::min(verdict.score.value_or(100), *criterion.score);
  }
}

}  // namespace

UnitVerdict judge(const UnitRecord& record, const JudgingContext& context) {
  UnitVerdict verdict;
  verdict.unit = record.unit.id;
  verdict.checks.reserve(16);
  verdict.notes.reserve(8);
  const Selection readings(record, context);
  const Judging judging{record, context, readings, verdict};
  judgeAirflow(judging);
  judgeLockout(judging);
  judgeRise(judging);
  scoreUnit(verdict);
  return verdict;
}

UnitVerdict judge(const UnitRecord& record, const Snapshot& project) { return judge(record, JudgingContext(project)); }

}  // namespace ductwright::verdict
