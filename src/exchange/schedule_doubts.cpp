#include "schedule_doubts.h"

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "quantity/quantity.h"

namespace ductwright::exchange {
namespace {

using fleet::Unit;

constexpr std::size_t kFewest = 4;           // units that make a pattern
constexpr double kFlowUnits = 2.118880003;   // cfm in a litre per second

// What should be the larger of two columns.
struct Pair {
  std::string_view smaller, larger;
  std::optional<bool> (*wrong)(const Unit&);
};

template <auto smaller, auto larger>
std::optional<bool> exceeds(const Unit& u) {
  if (!(u.*smaller) || !(u.*larger)) return std::nullopt;
  return *(u.*smaller) > *(u.*larger);
}

constexpr auto kPairs = std::to_array<Pair>({
    {"cooling min flow", "cooling max flow", exceeds<&Unit::coolingMin, &Unit::coolingMax>},
    {"heating min flow", "heating max flow", exceeds<&Unit::heatingMin, &Unit::heatingMax>},
    {"hot min flow", "hot max flow", exceeds<&Unit::hotMin, &Unit::hotMax>},
    {"zone heating setpoint", "zone cooling setpoint", exceeds<&Unit::zoneHeatingSetpoint, &Unit::zoneCoolingSetpoint>},
});

void doubtPair(Import<Unit>& import, const Pair& pair) {
  std::size_t judged = 0, wrong = 0;
  for (const auto& placed : import.records)
    if (const auto is = pair.wrong(placed.record)) {
      ++judged;
      wrong += *is ? 1 : 0;
    }
  if (judged < kFewest || wrong * 2 <= judged) return;
  import.problems.add({Weight::warning, 0, 0, {}, {},
                       "“" + std::string(pair.smaller) + "” is greater than “" + std::string(pair.larger) + "” in " +
                           std::to_string(wrong) + " of " + std::to_string(judged) + " rows",
                       "see whether the two columns are exchanged"});
}

std::optional<double> medianInletVelocity(const Import<Unit>& import) {
  std::vector<double> velocities;
  for (const auto& [row, unit] : import.records)
    if (unit.inletDiameter && unit.coolingMax && unit.inletDiameter->si() > 0 && unit.coolingMax->si() > 0)
      velocities.push_back(unit.coolingMax->si() / quantity::circle(*unit.inletDiameter).si());
  if (velocities.size() < kFewest) return std::nullopt;
  const auto middle = velocities.begin() + static_cast<std::ptrdiff_t>(velocities.size() / 2);
  std::nth_element(velocities.begin(), middle, velocities.end());
  return *middle;
}

// Inlets are sized for about 5 to 12 m/s at the cooling maximum (common practice, no source). A fleet far outside that
// would be inside with the other flow unit.
void doubtFlowUnit(Import<Unit>& import, const Layout& layout) {
  constexpr double kLow = 3.2, kHigh = 16, kUsualLow = 4, kUsualHigh = 14;
  const auto v = medianInletVelocity(import);
  if (!v || (*v >= kLow && *v <= kHigh)) return;
  const double other = *v < kLow ? *v * kFlowUnits : *v / kFlowUnits;
  if (other < kUsualLow || other > kUsualHigh) return;
  const auto shown = quantity::write(*v, quantity::Dimension::velocity, layout.system);
  import.problems.add({Weight::warning, 0, 0, {}, {},
                       "the middle inlet velocity at the cooling maximum would be " + shown + ", as if flows in " +
                           (*v < kLow ? "L/s were read as cfm" : "cfm were read as L/s"),
                       "see which unit the flows have and write it in the headers"});
}

}  // namespace

void doubtSchedule(Import<Unit>& import, const Layout& layout) {
  for (const Pair& pair : kPairs) doubtPair(import, pair);
  doubtFlowUnit(import, layout);
}

}  // namespace ductwright::exchange
