#include "project/deficiency_life.h"
#include "scenario.h"

namespace ductwright::project {
namespace {

using enum fleet::DeficiencyState;
using fleet::AirflowStep;

class DeficiencyLife : public Scenario {
 protected:
  [[nodiscard]] std::vector<fleet::Deficiency> of(const std::string& tag) {
    const auto id = unit(tag).unit.id;
    std::vector<fleet::Deficiency> out;
    for (const auto& d : project->state().snapshot->deficiencies)
      if (d.unit == id) out.push_back(d);
    return out;
  }
};

TEST_F(DeficiencyLife, isRaisedByTheFailingCheckInTheSameAction) {
  expectOk(enter("1-01", AirflowStep::coolingMax, "300"));
  ASSERT_EQ(of("1-01").size(), 1U);
  EXPECT_EQ(of("1-01")[0].state(), raised);
  EXPECT_FALSE(of("1-01")[0].closes.empty());
  expectOk(project->undo());
  EXPECT_TRUE(of("1-01").empty());
}

TEST_F(DeficiencyLife, isWithdrawnWhenTheReadingIsCorrected) {
  const auto key = enter("1-01", AirflowStep::coolingMax, "40");
  expectOk(enter("1-01", AirflowStep::coolingMin, "100"));
  ASSERT_EQ(of("1-01").size(), 1U);
  NewReading mended;
  mended.step = fleet::code(AirflowStep::coolingMax);
  mended.typed = "400";
  mended.waitedSeconds = 600;
  expectOk(project->correctReading(unit("1-01").unit.id, *key, mended, "a digit was missing"));
  EXPECT_EQ(of("1-01")[0].state(), withdrawn);
}

TEST_F(DeficiencyLife, isProvenOnlyByANewRunThatPasses) {
  provePassing("1-01", "300", "100");
  ASSERT_EQ(of("1-01").size(), 1U);
  const auto id = of("1-01")[0].id;
  EXPECT_FALSE(project->moveDeficiency(id, proven, "trust me"));
  project->setAuthor(kContractor);
  EXPECT_FALSE(project->moveDeficiency(id, workReported, "")) << "what was done must be said";
  expectOk(project->moveDeficiency(id, workReported, "opened the branch damper"));
  project->setAuthor(kAgent);
  expectOk(project->moveDeficiency(id, awaitingRetest, ""));
  expectOk(project->startRun(unit("1-01").unit.id, fleet::Procedure::airflow, "retest"));
  EXPECT_EQ(of("1-01")[0].state(), awaitingRetest);
  provePassing("1-01", "401", "99");
  EXPECT_EQ(of("1-01")[0].state(), proven);
}

TEST_F(DeficiencyLife, isRaisedAgainWhenTheRetestFails) {
  provePassing("1-01", "300", "100");
  const auto id = of("1-01")[0].id;
  expectOk(project->moveDeficiency(id, workReported, "opened the branch damper"));
  expectOk(project->startRun(unit("1-01").unit.id, fleet::Procedure::airflow, "retest"));
  provePassing("1-01", "310", "100");
  EXPECT_EQ(of("1-01").size(), 1U);
  EXPECT_EQ(of("1-01")[0].state(), raised);
}

TEST_F(DeficiencyLife, movesAreForTheirRoles) {
  EXPECT_EQ(movesFor(raised, fleet::Role::contractor), (std::vector{accepted, disputed, workReported}));
  EXPECT_TRUE(movesFor(raised, fleet::Role::ownersRepresentative).empty());
  for (const auto from : fleet::valuesOf<fleet::DeficiencyState>())
    for (const auto role : fleet::valuesOf<fleet::Role>())
      for (const auto to : movesFor(from, role)) EXPECT_NE(to, proven);
}

}  // namespace
}  // namespace ductwright::project
