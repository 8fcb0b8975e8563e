#include "plot/fleet_figures.h"

#include <algorithm>
#include <array>

namespace ductwright::plot {
namespace {

using verdict::FleetVerdict;

constexpr std::array kOrder{Outcome::pass, Outcome::cannotTell, Outcome::untested, Outcome::fail};
using Counts = std::array<int, kOrder.size()>;

void count(Counts& counts, Outcome outcome) {
  const auto at = std::find(kOrder.begin(), kOrder.end(), outcome);
  if (at != kOrder.end()) ++counts[static_cast<std::size_t>(at - kOrder.begin())];
}

int total(const Counts& counts) {
  int sum = 0;
  for (const int n : counts) sum += n;
  return sum;
}

// Stacks one bar a result; `lying` bars grow to the right.
void stack(Figure& figure, double at, const Counts& counts, bool lying) {
  double from = 0;
  for (std::size_t i = 0; i < kOrder.size(); ++i) {
    if (counts[i] == 0) continue;
    Bar bar;
    bar.outcome = kOrder[i];
    bar.base = lying ? Place{from, at} : Place{at, from};
    bar.length = counts[i];
    bar.lying = lying;
    bar.label = std::to_string(counts[i]);
    from += counts[i];
    figure.bars.push_back(std::move(bar));
  }
}

// Whole numbers from 0, at most six of them.
std::vector<Tick> wholeTicks(int most) {
  int step = 1;
  for (const int next : {2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000}) {
    if (most / step > 5) step = next;
  }
  std::vector<Tick> ticks;
  for (int at = 0; at <= most; at += step) ticks.push_back({static_cast<double>(at), std::to_string(at)});
  return ticks;
}

}  // namespace

Figure scoreFigure(const FleetVerdict& verdicts) {
  Figure figure;
  figure.title = "Scores";
  figure.x.title = "score";
  figure.y.title = "units";
  std::array<Counts, 10> tens{};
  int unscored = 0;
  for (const auto& unit : verdicts.units) {
    if (!unit->score) {
      ++unscored;
      continue;
    }
    count(tens[std::min<std::size_t>(9, static_cast<std::size_t>(std::max(0.0, *unit->score) / 10))], unit->outcome);
  }
  int most = 1;
  for (std::size_t i = 0; i < tens.size(); ++i) {
    stack(figure, static_cast<double>(i), tens[i], false);
    most = std::max(most, total(tens[i]));
    figure.x.ticks.push_back({static_cast<double>(i) - 0.5, std::to_string(i * 10)});
  }
  figure.x.ticks.push_back({9.5, "100"});
  figure.x.low = -0.6;
  figure.x.high = 9.6;
  figure.y.low = 0;
  figure.y.high = most * 1.08;
  figure.y.ticks = wholeTicks(most);
  if (unscored > 0) figure.remark = std::to_string(unscored) + (unscored == 1 ? " unit has" : " units have") + " no score";
  return figure;
}

Figure resultFigure(const fleet::Snapshot& project, const FleetVerdict& verdicts, GroupBy by) {
  Figure figure;
  figure.title = by == GroupBy::floor ? "By floor" : "By air handler";
  figure.x.title = "units";
  std::vector<std::pair<std::string, Counts>> groups;
  for (std::size_t i = 0; i < project.units.size() && i < verdicts.units.size(); ++i) {
    const fleet::Unit& unit = project.units[i]->unit;
    const std::string& name = by == GroupBy::floor ? unit.floor : unit.airHandler;
    auto group = std::find_if(groups.begin(), groups.end(), [&](const auto& g) { return g.first == name; });
    if (group == groups.end()) group = groups.insert(groups.end(), {name, Counts{}});
    count(group->second, verdicts.units[i]->outcome);
  }
  int most = 1;
  double row = static_cast<double>(groups.size());
  for (const auto& [name, counts] : groups) {
    stack(figure, row, counts, true);
    figure.y.ticks.push_back({row, name.empty() ? "not given" : name});
    most = std::max(most, total(counts));
    --row;
  }
  figure.x.high = most * 1.02;
  figure.x.ticks = wholeTicks(most);
  figure.y.low = 0.4;
  figure.y.high = static_cast<double>(groups.size()) + 0.6;
  return figure;
}

}  // namespace ductwright::plot
