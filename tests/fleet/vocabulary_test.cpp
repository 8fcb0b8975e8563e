#include "fleet/vocabulary.h"

#include <gtest/gtest.h>

#include <set>
#include <string>

namespace ductwright::fleet {
namespace {

template <class Enum>
class Vocabulary : public testing::Test {};
using Lists = testing::Types<UnitKind, HeatKind, HeaterPosition, FlowBasis, Procedure, AirflowStep, RiseStep,
                             ReadingQuantity, Role, Party, Severity, DeficiencyState, Custody>;
TYPED_TEST_SUITE(Vocabulary, Lists);

TYPED_TEST(Vocabulary, readsEveryWordItWritesHoweverItIsTyped) {
  std::set<std::string> words;
  for (const TypeParam value : valuesOf<TypeParam>()) {
    const std::string word(name(value));
    ASSERT_FALSE(word.empty());
    EXPECT_TRUE(words.insert(word).second) << word;
    EXPECT_EQ(read<TypeParam>(word), value) << word;
    std::string typed = "  ";
    for (const char c : word) {
      if (c == ' ')
        typed += "_-";
      else
        typed += static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    }
    EXPECT_EQ(read<TypeParam>(typed), value) << typed;
  }
}

TYPED_TEST(Vocabulary, knowsNoOtherWord) {
  EXPECT_FALSE(read<TypeParam>(""));
  EXPECT_FALSE(read<TypeParam>(" _ "));
  EXPECT_FALSE(read<TypeParam>("no such word"));
}

TYPED_TEST(Vocabulary, hasNoWordForANumberThatIsNoValue) {
  EXPECT_EQ(name(static_cast<TypeParam>(valuesOf<TypeParam>().size())), "");
  EXPECT_EQ(name(static_cast<TypeParam>(255)), "");
}

// The words of the file formats: another program depends on each.
TEST(Words, areTheTradesOwn) {
  EXPECT_EQ(name(UnitKind::parallelFan), "parallel fan");
  EXPECT_EQ(name(HeatKind::electricModulating), "electric modulating");
  EXPECT_EQ(name(HeaterPosition::plenumInlet), "plenum inlet");
  EXPECT_EQ(name(Procedure::dischargeRise), "discharge rise");
  EXPECT_EQ(name(AirflowStep::coolingMin), "cooling min");
  EXPECT_EQ(name(RiseStep::heatForced), "heat forced");
  EXPECT_EQ(name(ReadingQuantity::inletPressureDifference), "inlet pressure difference");
  EXPECT_EQ(name(DeficiencyState::awaitingRetest), "awaiting retest");
}

TEST(Words, readADashAsNoHeat) {
  EXPECT_EQ(read<HeatKind>("-"), HeatKind::none);
  EXPECT_EQ(read<HeatKind>(" — "), HeatKind::none);
  EXPECT_EQ(read<HeatKind>("–"), HeatKind::none);
  EXPECT_FALSE(read<UnitKind>("-"));
}

TEST(Words, readATypesettersApostrophe) {
  EXPECT_EQ(read<Role>("Owner’s Representative"), Role::ownersRepresentative);
}

TEST(Quantities, areTypedInTheirDimension) {
  for (const auto q : valuesOf<ReadingQuantity>()) {
    const std::string word(name(q));
    if (word.ends_with("temperature")) {
      EXPECT_EQ(dimensionOf(q), quantity::Dimension::temperature) << word;
    }
    if (word.ends_with("pressure")) {
      EXPECT_EQ(dimensionOf(q), quantity::Dimension::pressure) << word;
    }
    if (word.ends_with("position")) {
      EXPECT_EQ(dimensionOf(q), quantity::Dimension::ratio) << word;
    }
  }
  EXPECT_EQ(dimensionOf(ReadingQuantity::waterFlow), quantity::Dimension::waterFlow);
  EXPECT_EQ(dimensionOf(ReadingQuantity::measuredFlow), quantity::Dimension::airflow);
  EXPECT_EQ(dimensionOf(ReadingQuantity::heatCall), quantity::Dimension::flag);
  EXPECT_EQ(dimensionOf(ReadingQuantity::stagesOn), quantity::Dimension::count);
}

TEST(Steps, areReadAndWrittenByTheirProcedure) {
  EXPECT_EQ(readStep(Procedure::airflow, "Cooling Max"), code(AirflowStep::coolingMax));
  EXPECT_EQ(stepName(Procedure::airflow, code(AirflowStep::hotMin)), "hot min");
  EXPECT_EQ(readStep(Procedure::dischargeRise, "forced"), code(RiseStep::heatForced));
  EXPECT_EQ(readStep(Procedure::reheatLockout, " 3 "), 3);
  EXPECT_EQ(stepName(Procedure::reheatLockout, 3), "3");
  EXPECT_FALSE(readStep(Procedure::airflow, "heat on"));
  EXPECT_FALSE(readStep(Procedure::dischargeRise, "cooling max"));
  for (const auto* text : {"", "-1", "3.5", "three", "99999999999"})
    EXPECT_FALSE(readStep(Procedure::reheatLockout, text)) << text;
}

TEST(FoldedWord, dropsWhatHeadersDifferIn) {
  EXPECT_EQ(foldedWord("\xEF\xBB\xBF Cooling_Max-Flow\r\n"), "coolingmaxflow");
  EXPECT_EQ(foldedWord("cooling\u00A0max"), "coolingmax");
}

}  // namespace
}  // namespace ductwright::fleet
