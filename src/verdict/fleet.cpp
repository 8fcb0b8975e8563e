#include <algorithm>
#include <atomic>
#include <thread>
#include <unordered_map>

#include "verdict/judge.h"

namespace ductwright::verdict {
namespace {

using Verdicts = std::vector<std::shared_ptr<const UnitVerdict>>;

constexpr std::size_t kBatch = 32;  // units taken at a time by a thread

// Judges the units whose place in `out` is still empty.
void judgeEmpty(const Snapshot& project, Verdicts& out, unsigned threads) {
  const JudgingContext context(project);
  std::atomic<std::size_t> next = 0;
  const auto work = [&] {
    for (std::size_t from = next.fetch_add(kBatch); from < out.size(); from = next.fetch_add(kBatch)) {
      const std::size_t to = std::min(from + kBatch, out.size());
      for (std::size_t i = from; i < to; ++i)
        if (!out[i]) out[i] = std::make_shared<const UnitVerdict>(judge(*project.units[i], context));
    }
  };
  if (threads == 0) threads = std::max(1U, std::thread::hardware_concurrency());
  const auto empty = static_cast<std::size_t>(std::count(out.begin(), out.end(), nullptr));
  const std::size_t helpers = std::min<std::size_t>(threads, empty / kBatch + 1) - 1;
  std::vector<std::jthread> others;
  others.reserve(helpers);
  for (std::size_t i = 0; i < helpers; ++i) others.emplace_back(work);
  work();
}

bool sameAirHandlers(const Snapshot& a, const Snapshot& b) {
  return std::equal(a.airHandlers.begin(), a.airHandlers.end(), b.airHandlers.begin(), b.airHandlers.end(),
                    [](const fleet::AirHandler& x, const fleet::AirHandler& y) {
                      return x.name == y.name && x.supplyAirTemperature == y.supplyAirTemperature;
                    });
}

// Everything beside a unit's own record that its verdict depends on.
bool sameContext(const Snapshot& a, const Snapshot& b) {
  return a.elevation == b.elevation && a.criteria == b.criteria && a.instruments == b.instruments &&
         a.profiles == b.profiles && sameAirHandlers(a, b);
}

}  // namespace

FleetCounts countFleet(const Verdicts& units) {
  FleetCounts counts;
  counts.units = units.size();
  for (const auto& unit : units) {
    switch (unit->outcome) {
      case Outcome::pass: ++counts.pass; break;
      case Outcome::fail: ++counts.fail; break;
      case Outcome::cannotTell: ++counts.cannotTell; break;
      case Outcome::untested:
      case Outcome::notApplicable: ++counts.untested; break;
    }
    if (!unit->score) continue;
    if (unit->outcome == Outcome::pass) counts.expectedNonConforming += 1 - *unit->score / 100;
    const auto ten = static_cast<std::size_t>(std::clamp(*unit->score / 10, 0.0, 9.0));
    ++counts.scores[ten];
  }
  return counts;
}

FleetVerdict judgeFleet(const Snapshot& project, unsigned threads) {
  FleetVerdict fleet;
  fleet.units.resize(project.units.size());
  judgeEmpty(project, fleet.units, threads);
  fleet.counts = countFleet(fleet.units);
  return fleet;
}

FleetVerdict judgeAgain(const Snapshot& project, const Snapshot& before, const FleetVerdict& verdicts) {
  if (!sameContext(project, before)) return judgeFleet(project);
  FleetVerdict fleet;
  fleet.units.resize(project.units.size());
  const bool inPlace = project.units.size() == before.units.size();
  std::unordered_map<const UnitRecord*, std::size_t> moved;
  if (!inPlace) {
    moved.reserve(before.units.size());
    for (std::size_t i = 0; i < before.units.size(); ++i) moved.emplace(before.units[i].get(), i);
  }
  for (std::size_t i = 0; i < project.units.size(); ++i) {
    if (inPlace) {
      if (project.units[i] == before.units[i]) fleet.units[i] = verdicts.units[i];
      continue;
    }
    if (const auto found = moved.find(project.units[i].get()); found != moved.end())
      fleet.units[i] = verdicts.units[found->second];
  }
  judgeEmpty(project, fleet.units, 0);
  fleet.counts = countFleet(fleet.units);
  return fleet;
}

}  // namespace ductwright::verdict
