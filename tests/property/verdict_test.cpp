#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "quantity/unit.h"
#include "random_fleet.h"
#include "same_verdict.h"

namespace ductwright::property {
namespace {

using fleet::Snapshot;
using fleet::UnitRecord;

class Verdict : public ::testing::TestWithParam<unsigned> {
 protected:
  RandomFleet m_random{GetParam()};
  Snapshot m_project = m_random.snapshot(60);

  // The same project with each record changed.
  template <class Change>
  Snapshot changed(Change change) {
    Snapshot out = m_project;
    for (auto& unit : out.units) {
      auto copy = std::make_shared<UnitRecord>(*unit);
      change(*copy);
      unit = copy;
    }
    return out;
  }
};

void expectSame(const verdict::FleetVerdict& a, const verdict::FleetVerdict& b) {
  ASSERT_EQ(a.units.size(), b.units.size());
  for (std::size_t i = 0; i < a.units.size(); ++i) ASSERT_EQ(textOf(*a.units[i]), textOf(*b.units[i])) << "unit " << i;
  EXPECT_EQ(a.counts.pass, b.counts.pass);
  EXPECT_EQ(a.counts.fail, b.counts.fail);
  EXPECT_EQ(a.counts.cannotTell, b.counts.cannotTell);
  EXPECT_EQ(a.counts.untested, b.counts.untested);
  EXPECT_EQ(a.counts.scores, b.counts.scores);
  EXPECT_EQ(a.counts.expectedNonConforming, b.counts.expectedNonConforming);
}

TEST_P(Verdict, theOrderOfTheReadingsIsIrrelevant) {
  const Snapshot shuffled = changed([&](UnitRecord& r) {
    std::shuffle(r.readings.begin(), r.readings.end(), m_random.engine());
  });
  expectSame(verdict::judgeFleet(m_project), verdict::judgeFleet(shuffled));
}

TEST_P(Verdict, aStruckReadingIsAsIfItWereNotThere) {
  const Snapshot without = changed([](UnitRecord& r) {
    std::erase_if(r.readings, [](const fleet::Reading& reading) { return reading.withdrawn; });
  });
  expectSame(verdict::judgeFleet(m_project), verdict::judgeFleet(without));
}

TEST_P(Verdict, lowerRunsOfAProcedureAreIrrelevantButForVoiding) {
  const Snapshot highest = changed([](UnitRecord& r) {
    const UnitRecord all = r;
    std::erase_if(r.readings, [&](const fleet::Reading& reading) {
      return reading.procedure != fleet::Procedure::airflow && reading.run != all.currentRun(reading.procedure);
    });
  });
  expectSame(verdict::judgeFleet(m_project), verdict::judgeFleet(highest));
}

TEST_P(Verdict, theNumberOfThreadsIsIrrelevant) {
  const auto one = verdict::judgeFleet(m_project, 1);
  for (const unsigned threads : {2U, 3U, 7U}) expectSame(one, verdict::judgeFleet(m_project, threads));
}

TEST_P(Verdict, splittingABuildingIsIrrelevant) {
  const auto whole = verdict::judgeFleet(m_project);
  Snapshot first = m_project, second = m_project;
  const auto half = m_project.units.begin() + 25;
  first.units.assign(m_project.units.begin(), half);
  second.units.assign(half, m_project.units.end());
  const auto a = verdict::judgeFleet(first), b = verdict::judgeFleet(second);
  for (std::size_t i = 0; i < whole.units.size(); ++i)
    ASSERT_EQ(textOf(*whole.units[i]), textOf(i < 25 ? *a.units[i] : *b.units[i - 25]));
  EXPECT_EQ(whole.counts.pass, a.counts.pass + b.counts.pass);
  EXPECT_EQ(whole.counts.fail, a.counts.fail + b.counts.fail);
  EXPECT_EQ(whole.counts.cannotTell, a.counts.cannotTell + b.counts.cannotTell);
  EXPECT_EQ(whole.counts.untested, a.counts.untested + b.counts.untested);
  EXPECT_NEAR(whole.counts.expectedNonConforming, a.counts.expectedNonConforming + b.counts.expectedNonConforming, 1e-9);
}

TEST_P(Verdict, judgingAgainGivesWhatJudgingAllGives) {
  const auto before = verdict::judgeFleet(m_project);
  Snapshot after = m_project;
  for (int i = 0; i < 5; ++i) {
    auto& unit = after.units[static_cast<std::size_t>(m_random.below(60))];
    auto copy = std::make_shared<UnitRecord>(*unit);
    for (fleet::Reading& r : copy->readings) r.withdrawn = m_random.chance(0.5);
    unit = copy;
  }
  const auto again = verdict::judgeAgain(after, m_project, before);
  expectSame(again, verdict::judgeFleet(after));
  std::size_t kept = 0;
  for (std::size_t i = 0; i < after.units.size(); ++i) kept += again.units[i] == before.units[i];
  EXPECT_GE(kept, 55U) << "units that did not change keep their verdict";
}

TEST_P(Verdict, judgingAgainFollowsUnitsThatMoveComeAndGo) {
  const auto before = verdict::judgeFleet(m_project);
  Snapshot after = m_project;
  after.units.erase(after.units.begin() + 7);
  after.units.insert(after.units.begin() + 3, std::make_shared<UnitRecord>(m_random.record(500)));
  after.units.push_back(std::make_shared<UnitRecord>(m_random.record(501)));
  std::swap(after.units[10], after.units[50]);
  expectSame(verdict::judgeAgain(after, m_project, before), verdict::judgeFleet(after));
}

TEST_P(Verdict, judgingAgainSeesWhatEveryUnitDependsOn) {
  const auto before = verdict::judgeFleet(m_project);
  const auto check = [&](auto change) {
    Snapshot after = m_project;
    change(after);
    expectSame(verdict::judgeAgain(after, m_project, before), verdict::judgeFleet(after));
  };
  check([](Snapshot& s) { s.criteria.flowLow = 0.05; });
  check([](Snapshot& s) { s.instruments[0].accuracies[0].share = 0.2; });
  check([](Snapshot& s) { s.elevation = quantity::feet(9000); });
  check([](Snapshot& s) { s.profiles[0].strokeTime = quantity::seconds(2000); });
  check([](Snapshot& s) { s.airHandlers[0].supplyAirTemperature = quantity::fahrenheit(20); });
}

TEST_P(Verdict, theProjectsSystemOfUnitsIsIrrelevant) {
  const auto typedIn = [&](quantity::System system) {
    return changed([&](UnitRecord& r) {
      for (fleet::Reading& reading : r.readings) {
        const auto dimension = fleet::dimensionOf(reading.quantity);
        const auto& unit = quantity::unitFor(dimension, system);
        reading.value = quantity::readQuantity(quantity::writeExact(reading.value, unit), dimension, unit)->si;
      }
    });
  };
  Snapshot ip = typedIn(quantity::System::ip), si = typedIn(quantity::System::si);
  ip.system = quantity::System::ip;
  si.system = quantity::System::si;
  const auto a = verdict::judgeFleet(ip), b = verdict::judgeFleet(si);
  for (std::size_t i = 0; i < a.units.size(); ++i) {
    EXPECT_EQ(a.units[i]->outcome, b.units[i]->outcome);
    ASSERT_EQ(a.units[i]->score.has_value(), b.units[i]->score.has_value());
    EXPECT_NEAR(a.units[i]->score.value_or(0), b.units[i]->score.value_or(0), 1e-6);
  }
}

TEST_P(Verdict, theUnitsScoreIsTheLeastConformityOfItsJudgedChecks) {
  for (const auto& unit : verdict::judgeFleet(m_project).units) {
    double least = 2;
    bool failed = false;
    for (const auto& check : unit->checks) {
      if (check.outcome == verdict::Outcome::untested || std::isnan(check.conformity)) continue;
      EXPECT_GE(check.conformity, 0);
      EXPECT_LE(check.conformity, 1);
      least = std::min(least, check.conformity);
      failed = failed || check.outcome == verdict::Outcome::fail;
    }
    ASSERT_EQ(unit->score.has_value(), least < 2);
    EXPECT_DOUBLE_EQ(unit->score.value_or(200), 100 * least);
    EXPECT_EQ(failed, unit->outcome == verdict::Outcome::fail);
  }
}

INSTANTIATE_TEST_SUITE_P(Seeds, Verdict, ::testing::Range(1U, 9U));

// With an accuracy that does not depend on the reading, a larger error on one side never scores higher.
class LargerError : public ::testing::TestWithParam<fleet::DecisionRule> {};

TEST_P(LargerError, neverScoresHigher) {
  Snapshot project;
  project.criteria.rule = GetParam();
  fleet::Accuracy accuracy;
  accuracy.quantity = "flow";
  fleet::Instrument instrument;
  instrument.serial = "H";
  const auto scoreAt = [&](double design, double flow) {
    UnitRecord record;
    record.unit.coolingMax = quantity::cfm(design);
    fleet::Reading r;
    r.value = quantity::cfm(flow).si();
    r.instrument = fleet::Word("H");
    record.readings = {r};
    return *verdict::judge(record, project).score;
  };
  for (const double plus : {0.01, 1.0, 20.0, 200.0}) {
    accuracy.plus = quantity::cfm(plus).si();
    instrument.accuracies = {accuracy};
    project.instruments = {instrument};
    for (const double design : {40.0, 500.0, 3000.0}) {
      for (const double side : {-1.0, 1.0}) {
        double before = 101;
        for (double error = 0; error < design; error += design / 200) {
          const double score = scoreAt(design, design + side * error);
          ASSERT_LE(score, before + 1e-9) << design << " cfm, error " << side * error;
          before = score;
        }
      }
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Rules, LargerError, ::testing::Values(fleet::DecisionRule::simple, fleet::DecisionRule::guarded));

}  // namespace
}  // namespace ductwright::property
