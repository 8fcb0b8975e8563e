#pragma once

#include "selection.h"
#include "verdict/verdict.h"

namespace ductwright::verdict {

// A unit under judgement: what is known of it and where the verdict is written.
struct Judging {
  const UnitRecord& record;
  const JudgingContext& context;
  const Selection& readings;
  UnitVerdict& verdict;

  [[nodiscard]] const Unit& unit() const { return record.unit; }
  [[nodiscard]] const Criteria& criteria() const { return context.criteria(); }
  void note(const Note& n) const { verdict.notes.push_back(n); }
  CriterionVerdict& of(Criterion c) const { return verdict.criteria[static_cast<std::size_t>(c)]; }
};

// Each writes its checks, notes and criterion.
void judgeAirflow(const Judging&);
void judgeLockout(const Judging&);
void judgeRise(const Judging&);

}  // namespace ductwright::verdict
