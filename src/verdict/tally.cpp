#include "tally.h"

#include <cmath>

namespace ductwright::verdict {
namespace {

int gravity(Outcome outcome) {
  switch (outcome) {
    case Outcome::fail: return 4;
    case Outcome::untested: return 3;
    case Outcome::cannotTell: return 2;
    case Outcome::pass: return 1;
    case Outcome::notApplicable: break;
  }
  return 0;
}

}  // namespace

Outcome ruling(Outcome a, Outcome b) { return gravity(b) > gravity(a) ? b : a; }

bool Tally::graver(Outcome a, Outcome b) { return gravity(a) > gravity(b); }

void Tally::add(const Check& check) {
  const bool judged = check.outcome != Outcome::untested && !std::isnan(check.conformity);
  if (judged && !(check.conformity >= m_least)) m_least = check.conformity;
  const bool weaker = m_any && check.outcome == m_result.outcome && check.conformity < m_decidedBy;
  if (m_any && !graver(check.outcome, m_result.outcome) && !weaker) return;
  m_any = true;
  m_decidedBy = check.conformity;
  m_result.outcome = check.outcome;
  m_result.because = check.because;
  m_result.lacking = check.lacking;
  m_result.step = check.step;
}

CriterionVerdict Tally::result() const {
  CriterionVerdict out = m_result;
  if (!m_any) out.outcome = Outcome::untested;
  if (!std::isnan(m_least)) out.score = 100 * m_least;
  return out;
}

}  // namespace ductwright::verdict
