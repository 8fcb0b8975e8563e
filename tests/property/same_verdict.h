#pragma once

#include <bit>
#include <sstream>
#include <string>

#include "verdict/judge.h"

namespace ductwright::property {

// Everything in a verdict as text, numbers by their bits: equal texts are equal verdicts.
inline std::string textOf(const verdict::UnitVerdict& v) {
  std::ostringstream out;
  const auto bits = [&](double x) { out << std::bit_cast<std::uint64_t>(x == 0 ? 0.0 : x) << ' '; };
  const auto code = [&](auto e) { out << static_cast<int>(e) << ' '; };
  code(v.outcome);
  bits(v.score.value_or(-1));
  code(v.safety);
  for (const auto& c : v.criteria) {
    code(c.outcome);
    code(c.because);
    code(c.lacking);
    code(c.step);
    bits(c.score.value_or(-1));
  }
  for (const auto& c : v.checks) {
    out << '\n';
    code(c.kind);
    code(c.outcome);
    code(c.because);
    code(c.lacking);
    code(c.close);
    code(c.step);
    code(c.settlesWith);
    for (const double x : {c.measured, c.expected, c.low, c.high, c.u, c.conformity}) bits(x);
  }
  for (const auto& n : v.notes) {
    out << "\nnote ";
    code(n.kind);
    code(n.criterion);
    code(n.step);
    code(n.quantity);
    bits(n.value);
    bits(n.other);
  }
  return out.str();
}

}  // namespace ductwright::property
