#include "words.h"

#include <algorithm>
#include <cmath>

namespace ductwright::report {
namespace {

using verdict::Check;
using verdict::CheckKind;
using verdict::Criterion;

// What the check's numbers have to be raised by to be the reported flow or the measured rise.
double offsetOf(const Check& check) {
  const bool difference = check.kind == CheckKind::reportedAgainstMeasured || check.kind == CheckKind::rise;
  return difference && std::isfinite(check.expected) ? check.expected : 0;
}

}  // namespace

std::string scoreWords(const std::optional<double>& score) {
  if (!score) return "–";
  const double shown = *score < 100 ? std::min(std::floor(*score + 0.5), 99.0) : 100;
  return std::to_string(std::lround(shown));
}

std::string quantityWords(double si, quantity::Dimension dimension, quantity::System system) {
  return std::isfinite(si) ? quantity::write(si, dimension, system) : "–";
}

std::string measuredWords(const Check& check, quantity::System system) {
  return quantityWords(check.measured + offsetOf(check), check.dimension, system);
}

std::string intervalWords(const Check& check, quantity::System system) {
  const double low = check.low + offsetOf(check), high = check.high + offsetOf(check);
  const auto text = [&](double si) { return quantity::write(si, check.dimension, system); };
  if (std::isfinite(low) && std::isfinite(high))
    return quantity::writeNumber(low, quantity::unitFor(check.dimension, system)) + " to " + text(high);
  if (std::isfinite(high)) return "at most " + text(high);
  if (std::isfinite(low)) return "at least " + text(low);
  return "–";
}

std::string conformityWords(double conformity) {
  if (!std::isfinite(conformity)) return "";
  if (conformity >= 0.995) return "> 99";
  if (conformity < 0.005) return "< 1";
  return std::to_string(std::lround(100 * conformity));
}

std::string reasonOf(const verdict::UnitVerdict& unit, quantity::System system) {
  if (unit.outcome == verdict::Outcome::pass) return "";
  const Check* weakest = nullptr;
  for (const Check& check : unit.checks) {
    if (check.outcome != unit.outcome || !std::isfinite(check.measured)) continue;
    if (!weakest || check.conformity < weakest->conformity) weakest = &check;
  }
  if (weakest && unit.outcome != verdict::Outcome::untested && std::isfinite(weakest->low + weakest->high)) {
    return fleet::stepName(weakest->procedure, weakest->step) + ": " + measuredWords(*weakest, system) + ", required " +
           intervalWords(*weakest, system);
  }
  for (const Criterion criterion : {Criterion::airflow, Criterion::reheatLockout, Criterion::dischargeRise}) {
    const auto& of = unit.of(criterion);
    if (of.outcome != unit.outcome) continue;
    const std::string why = because(of, criterion);
    return std::string(name(criterion)) + (why.empty() ? "" : ": " + why);
  }
  return "";
}

}  // namespace ductwright::report
