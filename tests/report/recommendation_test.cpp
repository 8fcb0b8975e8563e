#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "report/commissioning.h"

namespace ductwright::report {
namespace {

using Advice = Recommendation::Advice;
using testing::HasSubstr;

struct Recommend : testing::Test {
  void counts(std::size_t pass, std::size_t fail, std::size_t cannotTell, std::size_t untested) {
    verdicts.counts.pass = pass;
    verdicts.counts.fail = fail;
    verdicts.counts.cannotTell = cannotTell;
    verdicts.counts.untested = untested;
    verdicts.counts.units = pass + fail + cannotTell + untested;
  }
  void deficiency(fleet::Severity severity, fleet::DeficiencyState state = fleet::DeficiencyState::raised) {
    fleet::Deficiency made;
    made.severity = severity;
    made.moves.push_back({state, {}, "M. Invented", fleet::Role::agent, ""});
    project.deficiencies.push_back(made);
  }
  Recommendation advice() { return recommend(project, verdicts); }
  fleet::Snapshot project;
  verdict::FleetVerdict verdicts;
};

TEST_F(Recommend, AcceptsWhereEveryUnitPassesAndNothingIsOpen) {
  counts(60, 0, 0, 0);
  deficiency(fleet::Severity::major, fleet::DeficiencyState::proven);
  EXPECT_EQ(advice().advice, Advice::accept);
}

TEST_F(Recommend, AnOpenSafetyDeficiencyDecidesBeforeEverythingElse) {
  counts(60, 3, 0, 0);
  deficiency(fleet::Severity::safety);
  EXPECT_EQ(advice().advice, Advice::doNotAccept);
  EXPECT_EQ(advice().reason, "1 safety deficiency is open.");
}

TEST_F(Recommend, HeatSeenWhereItMustNotBeDecidesBeforeADeficiencyIsRaised) {
  counts(59, 1, 0, 0);
  auto unit = std::make_shared<verdict::UnitVerdict>();
  unit->safety = true;
  verdicts.units.push_back(unit);
  EXPECT_THAT(advice().reason, HasSubstr("heating where it must not"));
}

TEST_F(Recommend, AFailingUnitIsNotAccepted) {
  counts(58, 2, 0, 0);
  EXPECT_EQ(advice().advice, Advice::doNotAccept);
  EXPECT_EQ(advice().reason, "2 units fail of 60.");
}

TEST_F(Recommend, UntestedUndecidedOrOpenIsAcceptedWithConditions) {
  counts(58, 0, 0, 2);
  EXPECT_EQ(advice().advice, Advice::acceptWithConditions);
  counts(58, 0, 2, 0);
  EXPECT_EQ(advice().advice, Advice::acceptWithConditions);
  counts(60, 0, 0, 0);
  deficiency(fleet::Severity::minor);
  EXPECT_EQ(advice().advice, Advice::acceptWithConditions);
}

TEST_F(Recommend, AFleetWithoutATestIsNotAccepted) {
  counts(0, 0, 0, 60);
  EXPECT_EQ(advice().advice, Advice::doNotAccept);
  counts(0, 0, 0, 0);
  EXPECT_EQ(advice().advice, Advice::doNotAccept);
}

// 20 of 200 tested without a failure: at most 26 bad ones, 13 %, by the hypergeometric distribution (computed
// outside with exact integer arithmetic: C(174,20)/C(200,20) = 0.0530, C(173,20)/C(200,20) = 0.0469).
TEST_F(Recommend, SaysWhatASampleProvesOfTheFleet) {
  counts(20, 0, 0, 180);
  EXPECT_THAT(sampleWords(verdicts.counts), HasSubstr("20 of 200 units tested, 0 failed"));
  EXPECT_THAT(sampleWords(verdicts.counts), HasSubstr("at most 26 of the 200 units (13 %)"));
  counts(200, 0, 0, 0);
  EXPECT_THAT(sampleWords(verdicts.counts), HasSubstr("the whole fleet was tested"));
}

}  // namespace
}  // namespace ductwright::report
