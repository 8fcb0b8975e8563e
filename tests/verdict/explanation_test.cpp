#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "site.h"

// Explanations beside the checks, and the words for checks and explanations.
namespace ductwright::verdict::testing {
namespace {

using enum fleet::AirflowStep;
using quantity::cfm;
using quantity::System;
using ::testing::HasSubstr;

Site box() {
  Site site;
  site.unit().coolingMax = cfm(1000);
  site.unit().coolingMin = cfm(300);
  site.instrument("H1", "flow", 0.03);
  return site;
}

// Measured and reported flow at cooling max and cooling min.
UnitVerdict seen(Site site, double max, double maxShown, double min, double minShown) {
  site.measured(coolingMax, max, {.instrument = "H1"}).reported(coolingMax, maxShown);
  site.measured(coolingMin, min, {.instrument = "H1"}).reported(coolingMin, minShown);
  return site.verdict();
}

TEST(Explanation, aUnitShortOfFlowWithItsDamperOpenIsStarved) {
  const auto at = [](double flow, double damper) {
    Site site = box();
    site.measured(coolingMax, flow).read(Procedure::airflow, code(coolingMax), ReadingQuantity::damperPosition, damper);
    return site.verdict();
  };
  EXPECT_TRUE(find(at(800, 0.95), NoteKind::starved));
  EXPECT_FALSE(find(at(800, 0.94), NoteKind::starved));
  EXPECT_FALSE(find(at(950, 1.00), NoteKind::starved));
}

TEST(Explanation, aStepBelowTheLeastControllablePressureIsTold) {
  // 8 in.: 0.34907 ft²; 0.01 in. w.g. is 4005 √0.01 ≈ 400 fpm, so about 140 cfm.
  const auto at = [](double flow) {
    Site site;
    site.unit().coolingMax = cfm(flow);
    site.unit().inletDiameter = quantity::inches(8);
    return site.measured(coolingMax, flow).verdict();
  };
  EXPECT_TRUE(find(at(135), NoteKind::belowControl));
  EXPECT_FALSE(find(at(145), NoteKind::belowControl));
  Site coarse;
  fleet::ControllerProfile profile;
  profile.name = "P";
  profile.leastControllablePressure = quantity::inchesOfWater(0.03);
  coarse.project.profiles = {profile};
  coarse.unit().profile = "P";
  coarse.unit().coolingMax = cfm(145);
  coarse.unit().inletDiameter = quantity::inches(8);
  EXPECT_TRUE(find(coarse.measured(coolingMax, 145).verdict(), NoteKind::belowControl));
}

TEST(Explanation, theSameRatioAtEveryStepIsTheCoefficient) {
  const auto v = seen(box(), 1000, 1150, 300, 345);
  ASSERT_TRUE(find(v, NoteKind::coefficient));
  EXPECT_NEAR(find(v, NoteKind::coefficient)->value, 1.15, 1e-9);
  EXPECT_FALSE(find(v, NoteKind::zero));
  EXPECT_FALSE(find(seen(box(), 1000, 1010, 300, 303), NoteKind::coefficient)) << "as good as right";
  EXPECT_FALSE(find(seen(box(), 1000, 1150, 300, 300), NoteKind::coefficient)) << "not the same ratio";
}

TEST(Explanation, aRatioThatGrowsAsTheFlowFallsIsTheZero) {
  const auto v = seen(box(), 1000, 1010, 300, 360);
  ASSERT_TRUE(find(v, NoteKind::zero));
  EXPECT_NEAR(find(v, NoteKind::zero)->value, 1.2, 1e-9);
  EXPECT_FALSE(find(seen(box(), 1000, 1200, 300, 303), NoteKind::zero)) << "it falls";
}

TEST(Explanation, mixedUpUnitsANeighbouringSizeAndTheOtherBasisAreRecognised) {
  EXPECT_TRUE(find(seen(box(), 1000, 2119, 300, 636), NoteKind::units));
  EXPECT_TRUE(find(seen(box(), 1000, 472, 300, 141.6), NoteKind::units));
  EXPECT_FALSE(find(seen(box(), 1000, 1900, 300, 570), NoteKind::units));
  Site sized = box();
  sized.unit().inletDiameter = quantity::inches(8);
  const auto larger = seen(sized, 1000, 1265.6, 300, 379.7);  // (9 / 8)² = 1.2656
  ASSERT_TRUE(find(larger, NoteKind::size));
  EXPECT_NEAR(quantity::inInches(quantity::Length::fromSi(find(larger, NoteKind::size)->other)), 9, 1e-9);
  EXPECT_FALSE(find(seen(sized, 1000, 1100, 300, 330), NoteKind::size));
  Site high = box();
  high.project.elevation = quantity::feet(5000);
  const double share = 0.8586;  // ρ at 5000 ft and 55 °F over 1.204 kg/m³: 1.0337 / 1.204
  EXPECT_TRUE(find(seen(high, 1000, 1000 * share, 300, 300 * share), NoteKind::density));
  EXPECT_FALSE(find(seen(box(), 1000, 1000 * share, 300, 300 * share), NoteKind::density)) << "the bases are one at sea level";
}

TEST(Explanation, readingsEqualToDesignAtEveryStepAreTooPerfect) {
  EXPECT_TRUE(find(seen(box(), 1000, 1000, 300, 300), NoteKind::tooPerfect));
  EXPECT_FALSE(find(seen(box(), 1000, 1000, 301, 300), NoteKind::tooPerfect));
  EXPECT_FALSE(find(box().measured(coolingMax, 1000).verdict(), NoteKind::tooPerfect)) << "once is chance";
}

TEST(Explanation, anAbsurdValueIsFlaggedAndKept) {
  const auto v = box().measured(coolingMax, -50).measured(coolingMin, 300).verdict();
  ASSERT_TRUE(find(v, NoteKind::absurdValue));
  EXPECT_EQ(v.outcome, Outcome::fail) << "and judged";
}

TEST(Explanation, aReadingAfterTheCalibrationRanOutIsTold) {
  Site site = box();
  site.project.instruments[0].calibrationDue = fleet::Day{2026, 3, 4};
  EXPECT_FALSE(find(Site(site).measured(coolingMax, 1000, {.instrument = "H1", .minute = 0}).verdict(), NoteKind::instrumentOverdue));
  site.project.instruments[0].calibrationDue = fleet::Day{2026, 3, 3};
  EXPECT_TRUE(find(site.measured(coolingMax, 1000, {.instrument = "H1", .minute = 0}).verdict(), NoteKind::instrumentOverdue));
}

TEST(Explanation, noneChangesTheScore) {
  const auto plain = seen(box(), 1001, 1000, 301, 300), perfect = seen(box(), 1000, 1000, 300, 300);
  EXPECT_EQ(plain.outcome, perfect.outcome);
  EXPECT_FALSE(perfect.notes.empty());
}

TEST(Sentence, saysWhatWasMeasuredAgainstWhatInTheProjectsUnits) {
  const auto v = seen(box(), 950, 1100, 300, 300);
  EXPECT_EQ(sentence(*find(v, CheckKind::measuredAgainstDesign, coolingMax), System::ip),
            "Cooling max: measured 950 cfm ± 33 cfm against design 1000 cfm (900 cfm to 1100 cfm): passes.");
  EXPECT_THAT(sentence(*find(v, CheckKind::measuredAgainstDesign, coolingMax), System::si), HasSubstr("448.4 L/s ± 15.5 L/s"));
  EXPECT_EQ(sentence(*find(v, CheckKind::reportedAgainstMeasured, coolingMax), System::ip),
            "Cooling max: reported 1100 cfm against measured 950 cfm ± 33 cfm (855 cfm to 1045 cfm): fails.");
}

TEST(Sentence, saysWhatIsMissingEarlyOrWouldSettleIt) {
  const auto missing = box().verdict();
  EXPECT_EQ(sentence(*find(missing, CheckKind::measuredAgainstDesign, coolingMin), System::ip),
            "Cooling min: measured against design is untested, missing: cooling min.");
  const auto early = box().measured(coolingMax, 1000, {.waited = 1.0F}).verdict();
  EXPECT_EQ(sentence(*find(early, CheckKind::measuredAgainstDesign, coolingMax), System::ip),
            "Cooling max: measured against design is not judged: the reading was taken too early.");
  const auto close = box().measured(coolingMax, 905, {.instrument = "H1"}).verdict();
  EXPECT_THAT(sentence(*find(close, CheckKind::measuredAgainstDesign, coolingMax), System::ip),
              HasSubstr("passes; close, a better instrument would settle it."));
}

TEST(Sentence, existsForEveryKindOfNote) {
  for (int kind = 0; kind <= static_cast<int>(NoteKind::absurdValue); ++kind) {
    for (const Criterion criterion : {Criterion::airflow, Criterion::reheatLockout, Criterion::dischargeRise}) {
      const Note note{static_cast<NoteKind>(kind), criterion, 1, 0.1, 0.2};
      EXPECT_GT(sentence(note, System::ip).size(), 20U) << kind;
      EXPECT_THAT(sentence(note, System::si), ::testing::EndsWith(".")) << kind;
    }
  }
}

TEST(Words, areThoseOfTheInterchange) {
  EXPECT_EQ(name(Outcome::cannotTell), "cannot tell");
  EXPECT_EQ(name(Outcome::notApplicable), "not applicable");
  EXPECT_EQ(key(Criterion::reheatLockout), "reheat_lockout");
  EXPECT_EQ(name(CheckKind::heatsWhenItShould), "heats when it should");
  EXPECT_EQ(unitSymbol(quantity::Dimension::airflow), "m3/s");
  EXPECT_EQ(unitSymbol(quantity::Dimension::ratio), "1");
}

}  // namespace
}  // namespace ductwright::verdict::testing
