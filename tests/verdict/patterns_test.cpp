#include "verdict/patterns.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "readings_for_tests.h"

namespace ductwright::verdict {
namespace {

using quantity::cfm;

constexpr int kSeeds = 100;

std::vector<Pattern> patternsOf(SiteForTests& site) {
  const fleet::Snapshot project = testedSite(site);
  return patterns(project, judgeFleet(project, 1));
}

std::string shown(const std::vector<Pattern>& found) {
  std::string out;
  for (const Pattern& p : found)
    out += p.subject + " | " + std::to_string(p.factor) + " | " + std::to_string(p.strength) + " | " +
           p.sentence + "\n";
  return out;
}

struct Count {
  int found = 0, others = 0;  // seeds in which the planted one was found; patterns that were not planted
  std::string example;
};

// Plants the same thing in a hundred buildings.
template <class Plant, class IsIt>
Count over(std::size_t units, Plant plant, IsIt isIt, int floors = 4) {
  Count count;
  for (int seed = 1; seed <= kSeeds; ++seed) {
    SiteForTests site = siteForTests(static_cast<std::uint64_t>(seed), units, floors);
    plant(site);
    const auto found = patternsOf(site);
    bool it = false;
    for (const Pattern& p : found) {
      const bool planted = isIt(p, site);
      it = it || planted;
      if (!planted) {
        ++count.others;
        count.example = "seed " + std::to_string(seed) + ": " + p.sentence;
      }
    }
    count.found += it ? 1 : 0;
    if (!it && count.example.empty())
      count.example = "not found with seed " + std::to_string(seed) + "\n" + shown(found);
  }
  return count;
}

TEST(Patterns, FindNothingInSoundNoisyFleetsOfManySizes) {
  for (const std::size_t units : {8U, 20U, 60U, 200U}) {
    const Count count = over(
        units, [](SiteForTests&) {}, [](const Pattern&, const SiteForTests&) { return false; });
    EXPECT_LE(count.others, 2) << units << " units; " << count.example;
  }
}

TEST(Patterns, FindNothingWhereEveryUnitHasItsOwnTrouble) {
  const Count count = over(
      100,
      [](SiteForTests& site) {
        for (BoxForTests& box : site.boxes)
          if (site.between(0, 1) < 0.2) {
            if (site.between(0, 1) < 0.5)
              box.reportedFactor *= site.between(0.6, 1.6);
            else
              box.supply = site.between(0.5, 0.8);
          }
      },
      [](const Pattern&, const SiteForTests&) { return false; });
  EXPECT_LE(count.others, 2) << count.example;
}

TEST(Patterns, FindNothingWhereUnitsScatterWidelyAndInstrumentsAreFine) {
  const Count count = over(
      40,
      [](SiteForTests& site) {
        for (auto& [serial, reads] : site.instruments) reads = 1 + (reads - 1) / 10;
        site.accuracy = 0.003;
        for (BoxForTests& box : site.boxes) box.reportedFactor = std::exp(site.normal(0.15));
      },
      [](const Pattern&, const SiteForTests&) { return false; });
  EXPECT_LE(count.others, 2) << count.example;
}

TEST(Patterns, FindAnInletSizeWithAWrongCoefficient) {
  const Count count = over(
      60,
      [](SiteForTests& site) {
        for (BoxForTests& box : site.boxes)
          if (std::abs(quantity::inInches(*box.unit.inletDiameter) - 10) < 0.1) box.reportedFactor *= 1.12;
      },
      [](const Pattern& p, const SiteForTests&) {
        return p.kind == PatternKind::inletSizeFactor && p.subject == "10.00 in." &&
               std::abs(p.factor - 1.12) < 0.06;
      });
  EXPECT_GE(count.found, 98) << count.example;
  EXPECT_LE(count.others, 2) << count.example;
}

TEST(Patterns, FindAnAirHandlerWhoseControllersShareAFactor) {
  const Count count = over(
      60,
      [](SiteForTests& site) {
        for (BoxForTests& box : site.boxes)
          if (box.unit.airHandler == "AH-2") box.reportedFactor *= 0.87;
      },
      [](const Pattern& p, const SiteForTests&) {
        return p.kind == PatternKind::airHandlerFactor && p.subject == "AH-2" &&
               std::abs(p.factor - 0.87) < 0.06;
      });
  EXPECT_GE(count.found, 98) << count.example;
  EXPECT_LE(count.others, 2) << count.example;
}

TEST(Patterns, FindAStarvedAirHandler) {
  const Count count = over(
      60,
      [](SiteForTests& site) {
        for (BoxForTests& box : site.boxes)
          if (box.unit.airHandler == "AH-3") box.supply = site.between(0.6, 0.75);
      },
      [](const Pattern& p, const SiteForTests&) {
        return p.kind == PatternKind::airHandlerLow && p.subject == "AH-3" && p.factor < 0.9;
      });
  EXPECT_GE(count.found, 98) << count.example;
  EXPECT_LE(count.others, 2) << count.example;
}

TEST(Patterns, DoNotCallAnAirHandlerLowWhereOnlyMostOfItsUnitsAreStarved) {
  SiteForTests site = siteForTests(2, 90, 1);
  int n = 0;
  for (BoxForTests& box : site.boxes)
    if (box.unit.airHandler == "AH-3" && n++ % 3 != 0) box.supply = 0.7;
  const auto found = patternsOf(site);
  EXPECT_TRUE(found.empty()) << shown(found);
}

TEST(Patterns, DoNotCallAnAirHandlerLowWhereHalfTheDampersAreNotOpen) {
  SiteForTests site = siteForTests(2, 120, 1);
  int n = 0;
  for (BoxForTests& box : site.boxes) {
    if (box.unit.airHandler != "AH-3") continue;
    if (n++ % 2 == 0) {
      box.supply = 0.7;
    } else {
      box.reportedFactor *= 1.25;  // low because the controller reads high
    }
  }
  for (const Pattern& p : patternsOf(site)) EXPECT_NE(p.kind, PatternKind::airHandlerLow) << p.sentence;
}

TEST(Patterns, FindAStarvedFloorOfAnAirHandler) {
  const Count count = over(
      120,
      [](SiteForTests& site) {
        for (BoxForTests& box : site.boxes)
          if (box.unit.airHandler == "AH-3" && box.unit.floor == "2") box.supply = site.between(0.6, 0.75);
      },
      [](const Pattern& p, const SiteForTests&) {
        return p.kind == PatternKind::airHandlerLow && p.subject == "AH-3, floor 2";
      });
  EXPECT_GE(count.found, 95) << count.example;
  EXPECT_LE(count.others, 2) << count.example;
}

TEST(Patterns, FindAnInstrumentThatDisagrees) {
  const Count count = over(
      60, [](SiteForTests& site) { site.instruments[1].second *= 0.88; },
      [](const Pattern& p, const SiteForTests&) {
        return p.kind == PatternKind::instrumentDisagrees && p.subject == "H-2" &&
               std::abs(p.factor - 0.88) < 0.07;
      });
  EXPECT_GE(count.found, 98) << count.example;
  EXPECT_LE(count.others, 2) << count.example;
}

TEST(Patterns, FindAnInstrumentOfFewUnitsByWhatOthersReadAtTheSameUnits) {
  int found = 0;
  for (int seed = 1; seed <= kSeeds; ++seed) {
    SiteForTests site = siteForTests(static_cast<std::uint64_t>(seed), 12);
    site.unitScatter = 0;
    for (std::size_t i = 0; i < site.boxes.size(); ++i) {
      site.boxes[i].reportedFactor = std::exp(site.normal(0.12));  // units differ more than instruments
      site.boxes[i].instrument = "H-1";
    }
    site.instruments[3].second *= 0.85;
    fleet::Snapshot project = testedSite(site);
    for (std::size_t i = 0; i < 5; ++i) {
      auto record = std::make_shared<fleet::UnitRecord>(*project.units[i]);
      BoxForTests second = site.boxes[i];
      second.instrument = "H-4";
      const std::size_t readings = record->readings.size();
      for (std::size_t k = 0; k < readings; ++k) {
        if (record->readings[k].quantity != fleet::ReadingQuantity::measuredFlow) continue;
        const double value = record->readings[k].value / readsOf(site, "H-1") * readsOf(site, "H-4");
        record->readings.push_back(readingForTests(record->readings[k].step,
                                                   fleet::ReadingQuantity::measuredFlow,
                                                   value * std::exp(site.normal(0.01)), second));
      }
      project.units[i] = std::move(record);
    }
    for (const Pattern& p : patterns(project, judgeFleet(project, 1)))
      if (p.kind == PatternKind::instrumentDisagrees && p.subject == "H-4") ++found;
  }
  EXPECT_GE(found, 90);
}

// The first two units of a floor whose designs differ by a quarter or more.
std::pair<std::size_t, std::size_t> unlike(const SiteForTests& site) {
  for (std::size_t i = 10; i + 1 < site.boxes.size(); ++i) {
    const double ratio = *site.boxes[i].unit.coolingMax / *site.boxes[i + 1].unit.coolingMax;
    const double minima = *site.boxes[i].unit.coolingMin / *site.boxes[i + 1].unit.coolingMin;
    if (std::abs(std::log(ratio)) > 0.25 && std::abs(std::log(minima)) > 0.25 &&
        site.boxes[i].unit.floor == site.boxes[i + 1].unit.floor)
      return {i, i + 1};
  }
  return {0, 1};
}

TEST(Patterns, FindTwoExchangedNeighbours) {
  int found = 0, others = 0;
  std::string example;
  for (int seed = 1; seed <= kSeeds; ++seed) {
    SiteForTests site = siteForTests(static_cast<std::uint64_t>(seed), 60);
    fleet::Snapshot project = testedSite(site);
    const auto [a, b] = unlike(site);
    auto first = std::make_shared<fleet::UnitRecord>(*project.units[a]);
    auto second = std::make_shared<fleet::UnitRecord>(*project.units[b]);
    std::swap(first->readings, second->readings);
    project.units[a] = first;
    project.units[b] = second;
    const auto all = patterns(project, judgeFleet(project, 1));
    bool it = false;
    for (const Pattern& p : all) {
      const bool planted = p.kind == PatternKind::unitsExchanged && p.units.size() == 2 &&
                           p.units[0] == first->unit.id && p.units[1] == second->unit.id;
      it = it || planted;
      if (!planted) {
        ++others;
        example = p.sentence;
      }
    }
    found += it ? 1 : 0;
    if (!it) example = "seed " + std::to_string(seed);
  }
  EXPECT_GE(found, 95) << example;
  EXPECT_LE(others, 2) << example;
}

TEST(Patterns, DoNotCallUnitsExchangedWhereManyOthersHaveTheSameDesigns) {
  SiteForTests site = siteForTests(4, 40, 1);
  for (std::size_t i = 0; i < site.boxes.size(); ++i) {
    fleet::Unit& u = site.boxes[i].unit;
    u.inletDiameter = quantity::inches(10);
    u.coolingMax = cfm(i % 2 == 0 ? 900 : 600);
    u.coolingMin = u.heatingMin = cfm(i % 2 == 0 ? 250 : 180);
    u.heatingMax = u.reheat = cfm(i % 2 == 0 ? 450 : 300);
    site.boxes[i].reportedFactor = 1;
  }
  fleet::Snapshot project = testedSite(site);
  auto first = std::make_shared<fleet::UnitRecord>(*project.units[10]);
  auto second = std::make_shared<fleet::UnitRecord>(*project.units[11]);
  std::swap(first->readings, second->readings);
  project.units[10] = first;
  project.units[11] = second;
  const FleetVerdict verdicts = judgeFleet(project, 1);
  EXPECT_EQ(verdicts.counts.fail, 2U);
  const auto found = patterns(project, verdicts);
  EXPECT_TRUE(found.empty()) << shown(found);
}

TEST(Patterns, FindARowOfThreeShiftedUnits) {
  SiteForTests site = siteForTests(3, 60);
  double flow = 300;
  for (std::size_t i : {20U, 21U, 22U}) {
    site.boxes[i].unit.floor = "2";
    site.boxes[i].unit.coolingMax = quantity::cfm(flow * 2);
    site.boxes[i].unit.coolingMin = site.boxes[i].unit.heatingMin = quantity::cfm(flow / 2);
    site.boxes[i].unit.heatingMax = site.boxes[i].unit.reheat = quantity::cfm(flow);
    site.boxes[i].reportedFactor = 1;
    flow *= 1.4;
  }
  fleet::Snapshot project = testedSite(site);
  std::vector<std::shared_ptr<fleet::UnitRecord>> row;
  for (std::size_t i : {20U, 21U, 22U}) row.push_back(std::make_shared<fleet::UnitRecord>(*project.units[i]));
  const auto readings = row[0]->readings;
  row[0]->readings = row[1]->readings;
  row[1]->readings = row[2]->readings;
  row[2]->readings = readings;
  for (std::size_t i = 0; i < 3; ++i) project.units[20 + i] = row[i];
  const auto found = patterns(project, judgeFleet(project, 1));
  ASSERT_EQ(found.size(), 1U) << shown(found);
  EXPECT_EQ(found[0].kind, PatternKind::unitsExchanged);
  EXPECT_EQ(found[0].units.size(), 3U);
  EXPECT_EQ(found[0].party, fleet::Party::controlsContractor);
}

TEST(Patterns, FindAReaderWhoseFlowsEqualTheDesign) {
  SiteForTests site = siteForTests(5, 60);
  fleet::Snapshot project = testedSite(site);
  for (auto& shared : project.units) {
    auto record = std::make_shared<fleet::UnitRecord>(*shared);
    for (fleet::Reading& r : record->readings) {
      if (r.quantity != fleet::ReadingQuantity::measuredFlow || r.takenBy.text() != "A. Marsh") continue;
      const auto step = static_cast<fleet::AirflowStep>(r.step);
      const fleet::Unit& u = record->unit;
      r.value = (step == fleet::AirflowStep::coolingMax   ? u.coolingMax
                 : step == fleet::AirflowStep::coolingMin ? u.coolingMin
                                                          : u.heatingMax)
                    ->si();
    }
    shared = std::move(record);
  }
  const auto found = patterns(project, judgeFleet(project, 1));
  ASSERT_EQ(found.size(), 1U) << shown(found);
  EXPECT_EQ(found[0].kind, PatternKind::tooPerfect);
  EXPECT_EQ(found[0].subject, "A. Marsh");
  EXPECT_GT(found[0].strength, 5);
}

TEST(Patterns, AreFoundInOutletSumsToo) {
  SiteForTests site = siteForTests(6, 60);
  for (BoxForTests& box : site.boxes)
    if (std::abs(quantity::inInches(*box.unit.inletDiameter) - 8) < 0.1) box.reportedFactor *= 1.3;
  fleet::Snapshot project = testedSite(site);
  for (auto& shared : project.units) {
    auto record = std::make_shared<fleet::UnitRecord>(*shared);
    for (std::size_t i = 0, n = record->readings.size(); i < n; ++i) {
      if (record->readings[i].quantity != fleet::ReadingQuantity::measuredFlow) continue;
      fleet::Reading half = record->readings[i];
      half.quantity = fleet::ReadingQuantity::outletFlow;
      half.value /= 2;
      half.outlet = fleet::Word("north");
      record->readings[i] = half;
      half.outlet = fleet::Word("south");
      record->readings.push_back(half);
    }
    shared = std::move(record);
  }
  const auto found = patterns(project, judgeFleet(project, 1));
  ASSERT_EQ(found.size(), 1U) << shown(found);
  EXPECT_EQ(found[0].kind, PatternKind::inletSizeFactor);
  EXPECT_NEAR(found[0].factor, 1.3, 0.05);
}

TEST(Patterns, LeaveOutASumOfOutletsThatWasNotReadToTheEnd) {
  SiteForTests site = siteForTests(6, 60);
  for (BoxForTests& box : site.boxes)
    if (std::abs(quantity::inInches(*box.unit.inletDiameter) - 8) < 0.1) box.reportedFactor *= 1.3;
  fleet::Snapshot project = testedSite(site);
  for (auto& shared : project.units) {
    auto record = std::make_shared<fleet::UnitRecord>(*shared);
    for (std::size_t i = 0, n = record->readings.size(); i < n; ++i) {
      fleet::Reading& r = record->readings[i];
      if (r.quantity != fleet::ReadingQuantity::measuredFlow) continue;
      r.quantity = fleet::ReadingQuantity::outletFlow;
      r.outlet = fleet::Word("north");
      fleet::Reading early = r;
      early.outlet = fleet::Word("south");
      early.waited = 5.0F;
      record->readings.push_back(early);
    }
    shared = std::move(record);
  }
  EXPECT_TRUE(patterns(project, judgeFleet(project, 1)).empty());
}

TEST(Patterns, FindTwoThingsInOneFleetWithoutBlamingAThird) {
  const Count count = over(
      120,
      [](SiteForTests& site) {
        site.instruments[2].second *= 1.16;
        for (BoxForTests& box : site.boxes)
          if (std::abs(quantity::inInches(*box.unit.inletDiameter) - 6) < 0.1) box.reportedFactor *= 0.75;
      },
      [](const Pattern& p, const SiteForTests&) {
        return (p.kind == PatternKind::instrumentDisagrees && p.subject == "H-3") ||
               (p.kind == PatternKind::inletSizeFactor && p.subject == "6.00 in.");
      });
  EXPECT_GE(count.found, 99) << count.example;
  EXPECT_LE(count.others, 2) << count.example;
}

TEST(Patterns, DoNotDependOnTheOrderOfTheSchedule) {
  SiteForTests site = siteForTests(7, 60);
  site.instruments[2].second *= 1.2;
  for (BoxForTests& box : site.boxes)
    if (box.unit.airHandler == "AH-1") box.supply = 0.7;
  fleet::Snapshot project = testedSite(site);
  const auto keys = [](const fleet::Snapshot& of) {
    std::vector<std::string> out;
    for (const Pattern& p : patterns(of, judgeFleet(of, 1)))
      out.push_back(p.subject + std::to_string(p.factor));
    return out;
  };
  const auto before = keys(project);
  EXPECT_EQ(before.size(), 2U);
  std::shuffle(project.units.begin(), project.units.end(), site.random);
  EXPECT_EQ(keys(project), before);
}

TEST(Patterns, SayNothingOfAVerdictOfAnotherProject) {
  SiteForTests site = siteForTests(1, 8);
  EXPECT_TRUE(patterns(testedSite(site), {}).empty());
}

}  // namespace
}  // namespace ductwright::verdict
