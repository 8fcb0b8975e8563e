#include "planting.h"

#include <optional>

#include "schedule_fault.h"

namespace ductwright::sample {
namespace {

using fleet::Unit;

class Lots {
 public:
  Lots(std::size_t units, Random random) : m_taken(units, false), m_random(random) {}

  // Any free unit that suits.
  template <class Suits>
  std::optional<std::size_t> draw(const std::vector<Unit>& units, Suits suits) {
    std::vector<std::size_t> free;
    for (std::size_t i = 0; i < units.size(); ++i)
      if (!m_taken[i] && suits(units[i])) free.push_back(i);
    if (free.empty()) return std::nullopt;
    const std::size_t drawn = free[m_random.below(free.size())];
    m_taken[drawn] = true;
    return drawn;
  }
  void take(std::size_t unit) { m_taken[unit] = true; }

 private:
  std::vector<bool> m_taken;
  Random m_random;
};

bool exchangeable(const Unit& a, const Unit& b) {
  if (a.kind != fleet::UnitKind::coolingOnly || a.kind != b.kind || a.inletDiameter != b.inletDiameter)
    return false;
  const double ratio = *a.coolingMax / *b.coolingMax;
  return a.floor == b.floor && (ratio < 0.76 || ratio > 1.32);
}

std::vector<std::size_t> neighbours(const std::vector<Unit>& units, Lots& lots) {
  const auto first = lots.draw(units, [&](const Unit& u) {
    const auto next = static_cast<std::size_t>(&u - units.data()) + 1;
    return next < units.size() && exchangeable(u, units[next]);
  });
  if (!first) return {};
  lots.take(*first + 1);
  return {*first, *first + 1};
}

}  // namespace

Plan plantFaults(std::vector<Unit>& units, Random random) {
  Plan plan;
  plan.fault.assign(units.size(), nullptr);
  Lots lots(units.size(), random);
  plan.exchanged = neighbours(units, lots);
  for (const auto* list : {&airflowFaults(), &heatFaults()})
    for (const Fault& fault : *list)
      for (int i = 0; i < fault.units; ++i)
        if (const auto unit = lots.draw(units, fault.suits)) plan.fault[*unit] = &fault;
  for (const ScheduleFault& fault : scheduleFaults()) {
    const auto unit = lots.draw(units, fault.suits);
    if (!unit) continue;
    fault.plant(units[*unit]);
    plan.findings.push_back({units[*unit].tag, fault.name, fault.rule});
  }
  return plan;
}

}  // namespace ductwright::sample
