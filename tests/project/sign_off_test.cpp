#include "scenario.h"

namespace ductwright::project {
namespace {

using fleet::AirflowStep;

using SigningOff = Scenario;

TEST_F(SigningOff, freezesWhatWasSeenAndALaterChangeBreaksItVisibly) {
  provePassing("1-01", "400", "100");
  expectOk(project->signOff(unit("1-01").unit.id, "tested and found in order", ""));
  ASSERT_EQ(unit("1-01").signOffs.size(), 1U);
  EXPECT_EQ(unit("1-01").signOffs[0].person, "Mara Invented");
  EXPECT_EQ(unit("1-01").signOffs[0].digest.size(), 64U);
  EXPECT_TRUE(project->verify()->sound);

  const auto refused = enter("1-01", AirflowStep::coolingMax, "395");
  ASSERT_FALSE(refused) << "a reason is needed";
  EXPECT_NE(refused.error().sentence.find("Mara Invented"), std::string::npos);
  EXPECT_EQ(unit("1-01").readings.size(), 2U);

  expectOk(enter("1-01", AirflowStep::coolingMax, "395", "a second reading was asked for"));
  EXPECT_EQ(unit("1-01").signOffs[0].brokenBecause, "a second reading was asked for");
  EXPECT_TRUE(unit("1-01").signOffs[0].brokenAt);
  EXPECT_TRUE(project->verify()->sound);
}

TEST_F(SigningOff, isNotBrokenByWhatHappensToOtherUnits) {
  provePassing("1-01", "400", "100");
  expectOk(project->signOff(unit("1-01").unit.id, "tested", ""));
  expectOk(enter("1-02", AirflowStep::coolingMax, "300"));
  EXPECT_TRUE(unit("1-01").signOffs[0].brokenBecause.empty());
}

TEST_F(SigningOff, isBrokenByAChangeOfTheCriteria) {
  provePassing("1-01", "400", "100");
  expectOk(project->signOff(unit("1-01").unit.id, "tested", ""));
  auto other = project->state().snapshot->criteria;
  other.flowLow = 0.05;
  EXPECT_FALSE(project->putCriteria(other, ""));
  expectOk(project->putCriteria(other, "the owner's specification asks for it"));
  EXPECT_FALSE(unit("1-01").signOffs[0].brokenBecause.empty());
}

TEST_F(SigningOff, needsExceptionsWhereTheUnitDidNotPass) {
  EXPECT_FALSE(project->signOff(unit("1-02").unit.id, "accepted", ""));
  expectOk(project->signOff(unit("1-02").unit.id, "accepted", "untested: the ceiling is closed"));
  EXPECT_NE(unit("1-02").signOffs[0].meaning.find("the ceiling is closed"), std::string::npos);
}

TEST_F(SigningOff, isNotForTheContractor) {
  provePassing("1-01", "400", "100");
  project->setAuthor(kContractor);
  EXPECT_FALSE(project->signOff(unit("1-01").unit.id, "tested", ""));
}

TEST_F(SigningOff, stopsUndo) {
  provePassing("1-01", "400", "100");
  expectOk(project->signOff(unit("1-01").unit.id, "tested", ""));
  EXPECT_FALSE(project->state().undo);
  EXPECT_FALSE(project->undo());
}

}  // namespace
}  // namespace ductwright::project
