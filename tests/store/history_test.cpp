#include "support.h"

namespace ductwright::store::testing {
namespace {

class HistoryTest : public ::testing::Test {
 protected:
  std::vector<Entry> history(std::optional<fleet::UnitId> unit = std::nullopt) {
    std::vector<Entry> out;
    const auto done = project->history(unit, [&](const Entry& entry) {
      out.push_back(entry);
      return true;
    });
    EXPECT_TRUE(done.has_value());
    return out;
  }

  TemporaryFolder folder;
  Environment environment = fixedEnvironment();
  std::unique_ptr<ProjectFile> project = created(folder / "tower.ductwright", environment);
};

const ColumnChange* columnOf(const Change& change, const std::string& name) {
  for (const ColumnChange& column : change.columns)
    if (column.column == name) return &column;
  return nullptr;
}

TEST_F(HistoryTest, anEntrySaysWhoDidWhatWhereWhenAndWhy) {
  const auto done =
      project->commit({"Name the zone", "B. Invented", fleet::Role::reviewer, "the drawing was revised"},
                      [&](Writer& w) -> Result<void> {
                        w.put(inventedUnit(environment, "2-14"));
                        return {};
                      });
  ASSERT_TRUE(done.has_value());
  const auto entries = history();
  ASSERT_EQ(entries.size(), 2U);
  EXPECT_EQ(entries[1].kind, EntryKind::create);
  const Entry& entry = entries[0];
  EXPECT_EQ(entry.kind, EntryKind::edit);
  EXPECT_EQ(entry.action.name, "Name the zone");
  EXPECT_EQ(entry.action.author, "B. Invented");
  EXPECT_EQ(entry.action.role, fleet::Role::reviewer);
  EXPECT_EQ(entry.action.reason, "the drawing was revised");
  EXPECT_EQ(entry.device, "invented laptop");
  EXPECT_EQ(entry.at.offsetMinutes, 60);
  EXPECT_EQ(entry.schemaVersion, 2);
  EXPECT_EQ(entry.parents, std::vector{entries[1].hash});
}

TEST_F(HistoryTest, aChangedColumnShowsBothValuesAndOthersAreNotThere) {
  fleet::Unit unit = inventedUnit(environment, "2-14");
  committed(*project, "Add", [&](Writer& w) { w.put(unit); });
  unit.coolingMax = quantity::Airflow::fromSi(0.25);
  unit.heaterStages.reset();
  committed(*project, "Change", [&](Writer& w) { w.put(unit); });
  const Entry entry = history().front();
  ASSERT_EQ(entry.changes.size(), 1U);
  const Change& change = entry.changes[0];
  EXPECT_EQ(change.kind, Change::Kind::changed);
  EXPECT_EQ(change.table, "unit");
  EXPECT_EQ(change.unit, unit.id);
  ASSERT_EQ(change.columns.size(), 3U);  // the key and two that differ
  const auto* flow = columnOf(change, "cooling_max");
  ASSERT_NE(flow, nullptr);
  EXPECT_EQ(flow->before, Value(quantity::cfm(450).si()));
  EXPECT_EQ(flow->after, Value(0.25));
  const auto* stages = columnOf(change, "heater_stages");
  ASSERT_NE(stages, nullptr);
  EXPECT_EQ(stages->before, Value(std::int64_t{2}));
  EXPECT_EQ(stages->after, Value(std::monostate{}));
}

TEST_F(HistoryTest, addedAndRemovedRowsShowAllTheirColumns) {
  const fleet::Unit unit = inventedUnit(environment, "2-14");
  committed(*project, "Add", [&](Writer& w) { w.put(unit); });
  committed(*project, "Remove", [&](Writer& w) { w.remove(unit.id); });
  const auto entries = history();
  const auto* before = columnOf(entries[0].changes.at(0), "tag");
  ASSERT_NE(before, nullptr);
  EXPECT_EQ(entries[0].changes[0].kind, Change::Kind::removed);
  EXPECT_EQ(before->before, Value("2-14"));
  EXPECT_FALSE(before->after.has_value());
  const auto* after = columnOf(entries[1].changes.at(0), "tag");
  EXPECT_EQ(entries[1].changes[0].kind, Change::Kind::added);
  EXPECT_EQ(after->after, Value("2-14"));
  EXPECT_FALSE(after->before.has_value());
}

TEST_F(HistoryTest, ofOneUnitItHoldsThatUnitsChangesAndReadingsAlone) {
  const fleet::Unit a = inventedUnit(environment, "2-14"), b = inventedUnit(environment, "2-15");
  committed(*project, "Add both", [&](Writer& w) {
    w.put(a);
    w.put(b);
  });
  committed(*project, "Run of 2-15", [&](Writer& w) {
    w.put(b.id,
          fleet::Run{environment.newId<fleet::Run>(), fleet::Procedure::airflow, 1, {}, "A. Invented", ""});
  });
  committed(*project, "Reading of 2-14",
            [&](Writer& w) { w.addReading(w.newBatch("typed"), a.id, inventedReading(400)); });
  committed(*project, "Reading of 2-15",
            [&](Writer& w) { w.addReading(w.newBatch("typed"), b.id, inventedReading(400)); });
  const auto entries = history(a.id);
  ASSERT_EQ(entries.size(), 2U);
  EXPECT_EQ(entries[0].action.name, "Reading of 2-14");
  ASSERT_EQ(entries[0].facts.size(), 1U);
  EXPECT_EQ(entries[0].facts[0].count, 1U);
  EXPECT_EQ(entries[0].facts[0].source, "typed");
  EXPECT_EQ(entries[1].action.name, "Add both");
  ASSERT_EQ(entries[1].changes.size(), 1U);
  EXPECT_EQ(entries[1].changes[0].unit, a.id);
}

TEST_F(HistoryTest, anUndoNamesTheEntryThatItIsAbout) {
  committed(*project, "Add", [&](Writer& w) { w.put(inventedUnit(environment, "2-14")); });
  ASSERT_TRUE(project->undo("B. Invented", fleet::Role::agent, "a slip"));
  const auto entries = history();
  EXPECT_EQ(entries[0].kind, EntryKind::undo);
  EXPECT_EQ(entries[0].action.author, "B. Invented");
  EXPECT_EQ(entries[0].action.reason, "a slip");
  EXPECT_EQ(entries[0].about, entries[1].hash);
  EXPECT_EQ(hex(entries[0].content), hex(entries[2].content));
}

TEST_F(HistoryTest, itStopsWhenTheVisitorHasSeenEnough) {
  for (int i = 0; i < 5; ++i)
    committed(*project, "Add", [&](Writer& w) { w.put(inventedUnit(environment, std::to_string(i))); });
  int seen = 0;
  ASSERT_TRUE(project->history(std::nullopt, [&](const Entry&) { return ++seen < 2; }));
  EXPECT_EQ(seen, 2);
}

}  // namespace
}  // namespace ductwright::store::testing
