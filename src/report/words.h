#pragma once

#include <optional>
#include <string>

#include "fleet/record.h"
#include "quantity/unit.h"
#include "verdict/verdict.h"

// Numbers and verdicts as the reports write them.
namespace ductwright::report {

// "87", or "–" where nothing was judged. A score that is not quite 100 is not rounded up to it.
std::string scoreWords(const std::optional<double>& score);
// With its unit; "–" where there is none.
std::string quantityWords(double si, quantity::Dimension dimension, quantity::System system);
template <class Quantity>
std::string quantityWords(const std::optional<Quantity>& value, quantity::Dimension dimension, quantity::System system) {
  return value ? quantityWords(value->si(), dimension, system) : "–";
}
// The number that a person would compare with the interval: a reported flow or a measured rise, not a difference.
std::string measuredWords(const verdict::Check& check, quantity::System system);
// "450 to 550 cfm", "at most 90.0 °F", "at least 75.0 %".
std::string intervalWords(const verdict::Check& check, quantity::System system);
// A conformity as a percentage: "97", "> 99", "< 1"; empty where there is none.
std::string conformityWords(double conformity);
// Why the unit came out as it did, from what decided it: "cooling max: 346 cfm, required 495 to 605 cfm", or
// "airflow: missing: cooling min"; empty where it passed.
std::string reasonOf(const verdict::UnitVerdict& verdict, quantity::System system);

}  // namespace ductwright::report
