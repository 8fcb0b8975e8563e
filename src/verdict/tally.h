#pragma once

#include "verdict/verdict.h"

namespace ductwright::verdict {

// Gathers a criterion from its checks: fail if any fails, else untested if anything needed is missing, else
// cannot tell if any cannot, else pass; 100 × the least conformity of the judged checks.
class Tally {
 public:
  // A check that counts: judged, or needed and untested.
  void add(const Check& check);
  [[nodiscard]] CriterionVerdict result() const;

 private:
  [[nodiscard]] static bool graver(Outcome a, Outcome b);
  CriterionVerdict m_result;
  double m_least = kNone;
  double m_decidedBy = kNone;
  bool m_any = false;
};

// Of two results the one that rules: fail, untested, cannot tell, pass, not applicable.
Outcome ruling(Outcome a, Outcome b);

}  // namespace ductwright::verdict
