#include <gmock/gmock.h>

#include <algorithm>
#include <map>
#include <set>

#include "sample/sample_building.h"

namespace ductwright::sample {
namespace {

using namespace fleet;

bool equal(const Reading& a, const Reading& b) {
  return a.key == b.key && a.value == b.value && a.takenAt == b.takenAt && a.waited == b.waited &&
         a.run == b.run && a.step == b.step && a.outlet == b.outlet && a.typed == b.typed &&
         a.instrument == b.instrument && a.takenBy == b.takenBy && a.quantity == b.quantity &&
         a.procedure == b.procedure;
}

bool equal(const UnitRecord& a, const UnitRecord& b) {
  return a.unit == b.unit && a.runs == b.runs && a.settings == b.settings &&
         std::equal(a.readings.begin(), a.readings.end(), b.readings.begin(), b.readings.end(),
                    [](const Reading& x, const Reading& y) { return equal(x, y); });
}

bool equal(const SampleBuilding& a, const SampleBuilding& b) {
  return std::equal(a.project.units.begin(), a.project.units.end(), b.project.units.begin(),
                    b.project.units.end(), [](const auto& x, const auto& y) { return equal(*x, *y); });
}

TEST(Generator, GivesTheSameBuildingForTheSameSeed) {
  EXPECT_TRUE(equal(makeBuilding(7), makeBuilding(7)));
  EXPECT_FALSE(equal(makeBuilding(7), makeBuilding(8)));
}

TEST(Generator, BuildsThreeFloorsTwoAirHandlersAndEveryKind) {
  const SampleBuilding building = makeBuilding(1);
  std::set<std::string> floors, airHandlers, tags;
  std::set<UnitKind> kinds;
  std::set<HeatKind> heat;
  std::set<HeaterPosition> positions;
  for (const auto& record : building.project.units) {
    floors.insert(record->unit.floor);
    airHandlers.insert(record->unit.airHandler);
    tags.insert(record->unit.tag);
    kinds.insert(record->unit.kind);
    heat.insert(record->unit.heat);
    positions.insert(record->unit.heaterPosition);
  }
  EXPECT_GE(building.project.units.size(), 60U);
  EXPECT_EQ(tags.size(), building.project.units.size());
  EXPECT_GE(floors.size(), 3U);
  EXPECT_GE(airHandlers.size(), 2U);
  EXPECT_EQ(kinds.size(), valuesOf<UnitKind>().size());
  EXPECT_EQ(heat.size(), valuesOf<HeatKind>().size());
  EXPECT_EQ(positions.size(), valuesOf<HeaterPosition>().size());
}

TEST(Generator, PlantsEveryFaultInTheDefaultBuilding) {
  std::set<std::string> everywhere;
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    std::set<std::string> here;
    for (const Planted& p : makeBuilding(seed).planted) here.insert(p.fault);
    if (everywhere.empty()) everywhere = here;
    EXPECT_EQ(here, everywhere) << "seed " << seed;
  }
  EXPECT_GE(everywhere.size(), 29U);
}

TEST(Generator, LeavesAFaultlessBuildingSound) {
  const SampleBuilding building = makeBuilding(3, {.faults = false});
  EXPECT_TRUE(building.planted.empty());
  EXPECT_TRUE(building.findings.empty());
}

// One person cannot be at two boxes: the times of an agent's units must not overlap.
TEST(Generator, SendsAnAgentToOneUnitAtATime) {
  const SampleBuilding building = makeBuilding(2);
  struct Span {
    Timestamp from, to;
  };
  std::map<std::string, std::vector<Span>> spans;
  std::set<std::string> days;
  for (const auto& record : building.project.units) {
    std::map<std::pair<std::string, int>, Span> visits;  // by agent and day
    for (const Reading& r : record->readings) {
      if (r.takenBy.text().starts_with("balancer's report")) continue;
      const Day day = Day::of(*r.takenAt);
      days.insert(day.text());
      const auto [it, fresh] = visits.try_emplace({r.takenBy.text(), day.day}, Span{*r.takenAt, *r.takenAt});
      it->second.from = std::min(it->second.from, *r.takenAt);
      it->second.to = std::max(it->second.to, *r.takenAt);
    }
    for (const auto& [who, span] : visits) spans[who.first].push_back(span);
  }
  EXPECT_EQ(spans.size(), 2U);
  EXPECT_GE(days.size(), 4U);
  for (auto& [agent, list] : spans) {
    std::sort(list.begin(), list.end(), [](const Span& a, const Span& b) { return a.from < b.from; });
    for (std::size_t i = 1; i < list.size(); ++i) EXPECT_LT(list[i - 1].to, list[i].from) << agent;
  }
}

TEST(Generator, NamesOnlyInstrumentsOfTheProject) {
  const SampleBuilding building = makeBuilding(4);
  for (const auto& record : building.project.units)
    for (const Reading& r : record->readings)
      if (!r.instrument.empty()) {
        const Instrument* instrument = building.project.instrument(r.instrument.text());
        ASSERT_NE(instrument, nullptr) << r.instrument.text();
        EXPECT_NE(instrument->accuracyFor(r.quantity), nullptr)
            << r.instrument.text() << ' ' << name(r.quantity);
      }
}

TEST(Generator, ScalesToTenThousandUnits) {
  const SampleBuilding building = makeBuilding(1, {.units = 10'000});
  EXPECT_EQ(building.project.units.size(), 10'000U);
  std::set<std::int64_t> instances;
  for (const auto& record : building.project.units) instances.insert(*record->unit.deviceInstance);
  EXPECT_EQ(instances.size(), 10'000U);
}

}  // namespace
}  // namespace ductwright::sample
