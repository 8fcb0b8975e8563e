#include <gmock/gmock.h>

#include <cmath>

#include "judged_building.h"

// The engine held to the table of what is planted, over many invented buildings.
namespace ductwright::sample {
namespace {

using verdict::Outcome;

struct Tally {
  std::size_t units = 0, failed = 0, cannotTell = 0, untested = 0;

  void add(const JudgedBuilding& judged) {
    for (std::size_t i = 0; i < judged.verdicts.units.size(); ++i) {
      if (!judged.building.sound(judged.building.project.units[i]->unit.tag)) continue;
      const Outcome outcome = judged.verdicts.units[i]->outcome;
      ++units;
      failed += outcome == Outcome::fail;
      cannotTell += outcome == Outcome::cannotTell;
      untested += outcome == Outcome::untested;
    }
  }
};

void expectJust(const Tally& sound) {
  EXPECT_LE(1000 * sound.failed, sound.units);
  EXPECT_LE(10 * sound.cannotTell, sound.units);
  EXPECT_EQ(sound.untested, 0U);
}

TEST(JudgedSample, EveryPlantedFaultIsFound) {
  for (const JudgedBuilding& judged : faultyBuildings())
    for (const Planted& planted : judged.building.planted) {
      const verdict::CriterionVerdict& got = judged.of(planted.unit).of(planted.criterion);
      EXPECT_EQ(got.outcome, planted.expected)
          << "seed " << judged.seed << ", " << planted.unit << ": " << planted.fault;
      if (planted.because.empty()) continue;
      EXPECT_EQ(because(got, planted.criterion), planted.because)
          << "seed " << judged.seed << ", " << planted.unit;
    }
}

TEST(JudgedSample, SoundUnitsAmongFaultyOnesAreNotFailed) {
  Tally sound;
  for (const JudgedBuilding& judged : faultyBuildings()) sound.add(judged);
  EXPECT_GE(sound.units, 3'000U);
  expectJust(sound);
}

TEST(JudgedSample, SoundBuildingsAreNotFailed) {
  Tally sound;
  for (const JudgedBuilding& judged : soundBuildings()) sound.add(judged);
  EXPECT_EQ(sound.units, kSeeds * 90);
  expectJust(sound);
}

// The passes are worth something: readings scatter as instruments and balancers do, not at design.
TEST(JudgedSample, SoundReadingsScatterLikeRealOnes) {
  double squares = 0;
  std::size_t count = 0;
  for (const JudgedBuilding& judged : soundBuildings())
    for (const auto& unit : judged.verdicts.units)
      for (const verdict::Check& check : unit->checks) {
        if (check.kind != verdict::CheckKind::measuredAgainstDesign) continue;
        squares += std::pow(check.measured / check.expected - 1, 2);
        ++count;
      }
  const double deviation = std::sqrt(squares / static_cast<double>(count));
  EXPECT_GT(deviation, 0.02);
  EXPECT_LT(deviation, 0.04);
}

// Air at altitude, coils and heaters: the model of the building shares no formula with the engine, so an
// expected rise that is off, or an uncertainty that promises too much, shows here.
TEST(JudgedSample, ExpectedRisesAgreeWithThePhysics) {
  double sum = 0, squares = 0;
  int count = 0;
  for (const JudgedBuilding& judged : soundBuildings())
    for (std::size_t i = 0; i < judged.verdicts.units.size(); ++i) {
      if (judged.building.project.units[i]->unit.kind != fleet::UnitKind::reheat) continue;
      for (const verdict::Check& check : judged.verdicts.units[i]->checks) {
        if (check.kind != verdict::CheckKind::rise) continue;
        const double error = check.measured / check.u;  // measured less expected
        sum += error;
        squares += error * error;
        ++count;
      }
    }
  ASSERT_GT(count, 4000);
  EXPECT_LT(std::abs(sum / count), 0.15);
  EXPECT_GT(std::sqrt(squares / count), 0.5);
  EXPECT_LT(std::sqrt(squares / count), 1.0);
}

TEST(JudgedSample, TheGuardedRuleFailsNoSoundUnit) {
  Tally sound;
  for (const JudgedBuilding& judged : soundBuildings()) {
    JudgedBuilding guarded = judged;
    guarded.building.project.criteria.rule = fleet::DecisionRule::guarded;
    guarded.verdicts = verdict::judgeFleet(guarded.building.project);
    sound.add(guarded);
  }
  expectJust(sound);
}

TEST(JudgedSample, ADangerousHeaterIsRaisedAtOnce) {
  for (const JudgedBuilding& judged : faultyBuildings())
    for (const Planted& planted : judged.building.planted) {
      const bool dangerous =
          planted.fault.starts_with("heat on without air") || planted.fault == "contactor welded";
      EXPECT_TRUE(!dangerous || judged.of(planted.unit).safety)
          << "seed " << judged.seed << ", " << planted.unit;
    }
}

}  // namespace
}  // namespace ductwright::sample
