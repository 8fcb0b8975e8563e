#include <optional>

#include "actions.h"
#include "dump.h"

namespace ductwright::store::testing {
namespace {

using fleet::Role;

class UndoTest : public ::testing::Test {
 protected:
  Result<Committed> undo() { return project->undo("A. Invented", Role::agent); }
  Result<Committed> redo() { return project->redo("A. Invented", Role::agent); }
  fleet::Unit addUnit(const std::string& tag) {
    const fleet::Unit unit = inventedUnit(environment, tag);
    committed(*project, "Add " + tag, [&](Writer& w) { w.put(unit); });
    return unit;
  }
  void sign(const fleet::Unit& unit) {
    committed(*project, "Sign off " + unit.tag, [&](Writer& w) {
      fleet::SignOff signOff;
      signOff.id = signOffId;
      signOff.unit = unit.id;
      signOff.person = "C. Invented";
      signOff.meaning = "accepted";
      signOff.at = environment.now();
      w.sign(signOff, {1, "what was seen"});
    });
  }

  TemporaryFolder folder;
  std::filesystem::path path = folder / "tower.ductwright";
  Environment environment = fixedEnvironment();
  std::unique_ptr<ProjectFile> project = created(path, environment);
  fleet::SignOffId signOffId = environment.newId<fleet::SignOff>();
};

TEST_F(UndoTest, anUndoIsANewEntryAndTakesTheChangeBack) {
  fleet::Unit unit = addUnit("2-14");
  unit.zone = "Lobby";
  committed(*project, "Rename zone", [&](Writer& w) { w.put(unit); });
  EXPECT_EQ(project->undoState()->undo, "Rename zone");
  const auto done = undo();
  ASSERT_TRUE(done.has_value());
  EXPECT_EQ(done->number, 4);
  EXPECT_EQ(done->action, "Rename zone");
  EXPECT_EQ(done->changed.units, std::vector{unit.id});
  EXPECT_FALSE(done->changed.unitList);
  EXPECT_EQ(loaded(*project).units[0]->unit.zone, "");
  EXPECT_EQ(project->undoState()->redo, "Rename zone");
  EXPECT_EQ(project->undoState()->undo, "Add 2-14");
  ASSERT_TRUE(redo().has_value());
  EXPECT_EQ(loaded(*project).units[0]->unit.zone, "Lobby");
  EXPECT_FALSE(redo().has_value());
  EXPECT_EQ(findingsOf(*project), "");
}

TEST_F(UndoTest, undoingAnImportIsOneRowAndKeepsTheFacts) {
  const fleet::Unit unit = addUnit("2-14");
  committed(*project, "Import", [&](Writer& w) {
    const auto batch = w.newBatch("readings.csv");
    for (int i = 0; i < 1000; ++i) w.addReading(batch, unit.id, inventedReading(400));
  });
  const auto done = undo();
  ASSERT_TRUE(done.has_value());
  EXPECT_EQ(done->changed.units, std::vector{unit.id});
  EXPECT_EQ(done->changed.batches.size(), 1U);
  EXPECT_TRUE(loaded(*project).units[0]->readings.empty());
  ASSERT_EQ(project->batches()->size(), 1U);
  EXPECT_FALSE(project->batches()->at(0).standing);
  std::size_t changes = 0;
  ASSERT_TRUE(project->history(std::nullopt, [&](const Entry& entry) {
    changes = entry.changes.size();
    return false;
  }));
  EXPECT_EQ(changes, 1U);
  ASSERT_TRUE(redo().has_value());
  EXPECT_EQ(loaded(*project).units[0]->readings.size(), 1000U);
  EXPECT_EQ(findingsOf(*project), "");
}

TEST_F(UndoTest, anotherActionAfterAnUndoLeavesNothingToDoAgain) {
  addUnit("2-14");
  addUnit("2-15");
  ASSERT_TRUE(undo().has_value());
  addUnit("2-16");
  EXPECT_FALSE(project->undoState()->redo.has_value());
  const auto again = redo();
  ASSERT_FALSE(again.has_value());
  EXPECT_EQ(again.error().sentence, "There is nothing to do again.");
  ASSERT_TRUE(undo().has_value());
  EXPECT_EQ(project->undoState()->undo, "Add 2-14");
}

TEST_F(UndoTest, theFirstEntryCannotBeUndone) {
  EXPECT_FALSE(project->undoState()->undo.has_value());
  EXPECT_FALSE(undo().has_value());
  EXPECT_EQ(loaded(*project).projectName, "Invented Tower");
}

TEST_F(UndoTest, undoGoesOnAfterTheProjectWasClosed) {
  addUnit("2-14");
  addUnit("2-15");
  ASSERT_TRUE(undo().has_value());
  project.reset();
  project = reopened(path);
  EXPECT_EQ(project->undoState()->redo, "Add 2-15");
  ASSERT_TRUE(undo().has_value());
  EXPECT_TRUE(loaded(*project).units.empty());
  ASSERT_TRUE(redo().has_value());
  ASSERT_TRUE(redo().has_value());
  EXPECT_EQ(loaded(*project).units.size(), 2U);
}

TEST_F(UndoTest, undoIsPerDevice) {
  fleet::Unit unit = addUnit("2-14");
  project.reset();
  project = reopened(path, Access::write, fixedEnvironment("another laptop", 5));
  EXPECT_FALSE(project->undoState()->undo.has_value());
  committed(*project, "Add there", [&](Writer& w) { w.put(inventedUnit(project->environment(), "9-01")); });
  project.reset();
  project = reopened(path);
  EXPECT_EQ(project->undoState()->undo, "Add 2-14");
  ASSERT_TRUE(undo().has_value());
  ASSERT_EQ(loaded(*project).units.size(), 1U);
  EXPECT_EQ(loaded(*project).units[0]->unit.tag, "9-01");
}

TEST_F(UndoTest, anUndoOfWhatSomeoneElseChangedSinceIsRefusedAndChangesNothing) {
  fleet::Unit unit = addUnit("2-14");
  unit.zone = "Lobby";
  committed(*project, "Name the zone", [&](Writer& w) { w.put(unit); });
  project.reset();
  project = reopened(path, Access::write, fixedEnvironment("another laptop", 5));
  unit.zone = "Atrium";
  committed(*project, "Name it otherwise", [&](Writer& w) { w.put(unit); });
  project.reset();
  project = reopened(path);
  const auto done = undo();
  ASSERT_FALSE(done.has_value());
  EXPECT_EQ(done.error().sentence,
            "\"Name the zone\" cannot be undone: the same was changed by someone since. Change it by hand.");
  EXPECT_EQ(loaded(*project).units[0]->unit.zone, "Atrium");
  EXPECT_EQ(project->head()->number, 4);
  EXPECT_EQ(findingsOf(*project), "");
}

TEST_F(UndoTest, undoStopsAtASignOff) {
  const fleet::Unit unit = addUnit("2-14");
  sign(unit);
  EXPECT_FALSE(project->undoState()->undo.has_value());
  EXPECT_FALSE(undo().has_value());
  ASSERT_EQ(loaded(*project).units[0]->signOffs.size(), 1U);
}

TEST_F(UndoTest, aBrokenSignOffStaysBrokenWhenTheChangeThatBrokeItIsUndone) {
  fleet::Unit unit = addUnit("2-14");
  sign(unit);
  unit.zone = "Lobby";
  committed(*project, "Name the zone", [&](Writer& w) {
    w.put(unit);
    w.breakSignOff(unit.id, signOffId, "the zone was wrong", environment.now(), "A. Invented");
  });
  ASSERT_TRUE(undo().has_value());
  auto s = loaded(*project);
  EXPECT_EQ(s.units[0]->unit.zone, "");
  ASSERT_EQ(s.units[0]->signOffs.size(), 1U);
  EXPECT_EQ(s.units[0]->signOffs[0].brokenBecause, "the zone was wrong");
  EXPECT_EQ(s.units[0]->signOffs[0].brokenBy, "A. Invented");
  ASSERT_TRUE(redo().has_value());
  s = loaded(*project);
  EXPECT_EQ(s.units[0]->unit.zone, "Lobby");
  EXPECT_EQ(s.units[0]->signOffs[0].brokenBecause, "the zone was wrong");
  EXPECT_EQ(findingsOf(*project), "");
}

// What undo and redo owe for every sequence of actions; and that re-reading what changed is reading
// everything.
class UndoProperty : public ::testing::TestWithParam<std::uint32_t> {};

TEST_P(UndoProperty, undoingEverythingGivesTheStartAndDoingItAgainTheEnd) {
  const TemporaryFolder folder;
  const auto project = created(folder / "tower.ductwright");
  RandomActions actions(*project, GetParam());
  fleet::Snapshot now = loaded(*project);
  const auto follow = [&](const Committed& done) {
    if (done.number == 0) return;
    const auto next = project->refreshed(now, done.changed);
    ASSERT_TRUE(next.has_value());
    const fleet::Snapshot whole = loaded(*project);
    ASSERT_EQ(dumped(*next), dumped(whole));
    ASSERT_EQ(next->revision, whole.revision);
    now = *next;
  };
  const Digest start = project->head()->content;
  const std::string startText = dumped(now);
  int entries = 0;
  for (int i = 0; i < 40; ++i) {
    const auto done = actions.one(now);
    ASSERT_TRUE(done.has_value()) << done.error().sentence;
    if (done->number != 0) ++entries;
    follow(*done);
    // Now and then some steps back and forth in between.
    for (int back = actions.number(0, 9) == 0 ? actions.number(1, 3) : 0; back > 0 && entries > 0; --back) {
      const auto undone = project->undo("A. Invented", Role::agent);
      ASSERT_TRUE(undone.has_value()) << undone.error().sentence;
      --entries;
      follow(*undone);
    }
  }
  const Digest end = project->head()->content;
  const std::string endText = dumped(now);
  ASSERT_NE(hex(start), hex(end));

  for (int i = 0; i < entries; ++i) {
    const auto undone = project->undo("A. Invented", Role::agent);
    ASSERT_TRUE(undone.has_value()) << undone.error().sentence;
    follow(*undone);
  }
  EXPECT_FALSE(project->undo("A. Invented", Role::agent).has_value());
  EXPECT_EQ(hex(project->head()->content), hex(start));
  EXPECT_EQ(dumped(now), startText);
  for (int i = 0; i < entries; ++i) {
    const auto redone = project->redo("A. Invented", Role::agent);
    ASSERT_TRUE(redone.has_value()) << redone.error().sentence;
    follow(*redone);
  }
  EXPECT_EQ(hex(project->head()->content), hex(end));
  EXPECT_EQ(dumped(now), endText);
  EXPECT_EQ(findingsOf(*project), "");
}

INSTANTIATE_TEST_SUITE_P(seeds, UndoProperty, ::testing::Range(1U, 11U));

}  // namespace
}  // namespace ductwright::store::testing
