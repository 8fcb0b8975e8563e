#include "scenario.h"

namespace ductwright::project {
namespace {

using fleet::AirflowStep;
using verdict::Outcome;

using Project = Scenario;

TEST_F(Project, judgesAUnitAsItsReadingsAreEntered) {
  EXPECT_EQ(verdictOf("1-01").outcome, Outcome::untested);
  expectOk(enter("1-01", AirflowStep::coolingMax, "405 cfm"));
  EXPECT_EQ(verdictOf("1-01").outcome, Outcome::untested);
  expectOk(enter("1-01", AirflowStep::coolingMin, "0.0472 m3/s"));  // 100.01 cfm
  EXPECT_EQ(verdictOf("1-01").outcome, Outcome::pass);
  EXPECT_EQ(unit("1-01").readings.size(), 2U);
}

TEST_F(Project, keepsWhatWasTypedWithItsUnit) {
  expectOk(enter("1-01", AirflowStep::coolingMax, "405"));
  EXPECT_EQ(unit("1-01").readings.front().typed.text(), "405 cfm");
  EXPECT_EQ(unit("1-01").readings.front().takenBy.text(), "Mara Invented");
}

TEST_F(Project, refusesWhatIsNotAQuantityAndStoresNothing) {
  const auto refused = enter("1-01", AirflowStep::coolingMax, "405 gallons");
  ASSERT_FALSE(refused);
  EXPECT_NE(refused.error().sentence.find("gallons"), std::string::npos);
  EXPECT_TRUE(unit("1-01").readings.empty());
}

TEST_F(Project, previewsTheVerdictWithoutStoring) {
  expectOk(enter("1-01", AirflowStep::coolingMin, "100"));
  NewReading reading;
  reading.step = fleet::code(AirflowStep::coolingMax);
  reading.waitedSeconds = 600;
  reading.typed = "300";
  const auto low = project->preview(unit("1-01").unit.id, reading);
  ASSERT_TRUE(low);
  EXPECT_EQ(low->outcome, Outcome::fail);
  reading.typed = "400";
  EXPECT_EQ(project->preview(unit("1-01").unit.id, reading)->outcome, Outcome::pass);
  EXPECT_EQ(unit("1-01").readings.size(), 1U);
}

TEST_F(Project, tellsWhichUnitsChanged) {
  std::vector<Notice> notices;
  project->listen([&](const Notice& n) { notices.push_back(n); });
  expectOk(enter("1-02", AirflowStep::coolingMax, "500"));
  ASSERT_EQ(notices.size(), 1U);
  EXPECT_EQ(notices[0].units, std::vector{unit("1-02").unit.id});
  EXPECT_FALSE(notices[0].unitListChanged);
  EXPECT_FALSE(notices[0].designChanged);
}

TEST_F(Project, undoesAndRedoesByName) {
  expectOk(enter("1-01", AirflowStep::coolingMax, "412 cfm"));
  ASSERT_TRUE(project->state().undo);
  EXPECT_EQ(*project->state().undo, "Enter measured flow 412 cfm at 1-01");
  expectOk(project->undo());
  EXPECT_EQ(project->state().redo, "Enter measured flow 412 cfm at 1-01");
  const auto live = [&] {
    std::size_t n = 0;
    for (const auto& r : unit("1-01").readings) n += r.withdrawn ? 0 : 1;
    return n;
  };
  EXPECT_EQ(live(), 0U);
  expectOk(project->redo());
  EXPECT_EQ(live(), 1U);
}

TEST_F(Project, undoesAWholeImportAtOnce) {
  expectOk(project->undo());
  EXPECT_TRUE(project->state().snapshot->units.empty());
  expectOk(project->redo());
  EXPECT_EQ(project->state().snapshot->units.size(), 3U);
  EXPECT_EQ(unit("1-02").unit.tag, "1-02");
}

TEST_F(Project, aWithdrawnReadingIsKeptButNotJudged) {
  const auto key = enter("1-01", AirflowStep::coolingMax, "300");
  ASSERT_TRUE(key);
  EXPECT_FALSE(project->withdrawReading(unit("1-01").unit.id, *key, "")) << "a reason is needed";
  expectOk(project->withdrawReading(unit("1-01").unit.id, *key, "read at the wrong box"));
  EXPECT_EQ(verdictOf("1-01").outcome, Outcome::untested);
  ASSERT_EQ(unit("1-01").readings.size(), 1U);
  EXPECT_TRUE(unit("1-01").readings.front().withdrawn);
}

TEST_F(Project, aCorrectionIsOneActionAndKeepsTheOldReading) {
  const auto key = enter("1-01", AirflowStep::coolingMax, "40");
  NewReading mended;
  mended.step = fleet::code(AirflowStep::coolingMax);
  mended.typed = "400";
  expectOk(project->correctReading(unit("1-01").unit.id, *key, mended, "a digit was missing"));
  EXPECT_EQ(unit("1-01").readings.size(), 2U);
  expectOk(project->undo());
  std::size_t live = 0;
  for (const auto& r : unit("1-01").readings) live += r.withdrawn ? 0 : 1;
  EXPECT_EQ(live, 1U);
}

TEST_F(Project, aNewRunNeedsAReasonAndSupersedes) {
  provePassing("1-01", "400", "100");
  EXPECT_EQ(verdictOf("1-01").outcome, Outcome::pass);
  const auto id = unit("1-01").unit.id;
  EXPECT_FALSE(project->startRun(id, fleet::Procedure::airflow, " "));
  const auto number = project->startRun(id, fleet::Procedure::airflow, "the damper was re-clamped");
  ASSERT_TRUE(number);
  EXPECT_EQ(*number, 2);
  EXPECT_EQ(verdictOf("1-01").outcome, Outcome::untested);
  provePassing("1-01", "402", "101");
  EXPECT_EQ(verdictOf("1-01").outcome, Outcome::pass);
}

TEST_F(Project, whatItShowsIsWhatItStored) {
  provePassing("1-01", "400", "100");
  expectOk(enter("1-02", AirflowStep::coolingMax, "300"));
  expectOk(project->startRun(unit("1-01").unit.id, fleet::Procedure::airflow, "again"));
  const State before = project->state();
  reopen();
  const State after = project->state();
  ASSERT_EQ(after.snapshot->units.size(), before.snapshot->units.size());
  for (std::size_t i = 0; i < after.snapshot->units.size(); ++i) {
    const auto &a = *after.snapshot->units[i], &b = *before.snapshot->units[i];
    EXPECT_EQ(a.unit, b.unit);
    EXPECT_EQ(a.runs, b.runs);
    ASSERT_EQ(a.readings.size(), b.readings.size());
    for (std::size_t r = 0; r < a.readings.size(); ++r) {
      EXPECT_EQ(a.readings[r].key, b.readings[r].key);
      EXPECT_EQ(a.readings[r].value, b.readings[r].value);
      EXPECT_EQ(a.readings[r].takenAt, b.readings[r].takenAt);
      EXPECT_EQ(a.readings[r].typed, b.readings[r].typed);
    }
    EXPECT_EQ(after.verdicts->units[i]->score, before.verdicts->units[i]->score);
  }
  EXPECT_EQ(after.snapshot->deficiencies.size(), before.snapshot->deficiencies.size());
  EXPECT_EQ(after.undo, before.undo);
  EXPECT_TRUE(project->verify()->sound);
}

TEST_F(Project, aSecondProgramIsToldAndMayRead) {
  const auto second = OpenProject::open(folder.file("p.ductwright"), kAgent);
  ASSERT_FALSE(second);
  EXPECT_NE(second.error().sentence.find("open"), std::string::npos) << second.error().sentence;
  const auto reader = OpenProject::openReadOnly(folder.file("p.ductwright"));
  ASSERT_TRUE(reader) << reader.error().sentence;
  EXPECT_EQ((*reader)->state().snapshot->units.size(), 3U);
  EXPECT_FALSE((*reader)->undo());
}

TEST_F(Project, criteriaAreVersionedAndRejudgeTheFleet) {
  provePassing("1-01", "430", "100");
  EXPECT_EQ(verdictOf("1-01").outcome, Outcome::pass);
  auto stricter = project->state().snapshot->criteria;
  stricter.flowLow = stricter.flowHigh = 0.05;
  expectOk(project->putCriteria(stricter, ""));
  EXPECT_EQ(project->state().snapshot->criteria.version, 2);
  EXPECT_NE(verdictOf("1-01").outcome, Outcome::pass);
  expectOk(project->undo());
  EXPECT_EQ(verdictOf("1-01").outcome, Outcome::pass);
}

TEST_F(Project, historySaysWhoDidWhatAndWhy) {
  expectOk(enter("1-01", AirflowStep::coolingMax, "412 cfm"));
  expectOk(project->startRun(unit("1-01").unit.id, fleet::Procedure::airflow, "the coefficient was wrong"));
  const auto all = project->history();
  ASSERT_TRUE(all);
  ASSERT_EQ(all->size(), 4U);  // create, schedule, reading, run
  EXPECT_EQ(all->front().action, "Start a run of airflow at 1-01");
  EXPECT_EQ(all->front().reason, "the coefficient was wrong");
  EXPECT_EQ(all->front().person, "Mara Invented");
  EXPECT_EQ(all->front().role, "commissioning agent");
  const auto ofOther = project->history("1-03");
  ASSERT_TRUE(ofOther);
  for (const auto& entry : *ofOther) EXPECT_EQ(entry.action.find("1-01"), std::string::npos);
}

}  // namespace
}  // namespace ductwright::project
