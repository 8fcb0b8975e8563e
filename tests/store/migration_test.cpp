#include "raw.h"
#include "schema.h"
#include "support.h"

namespace ductwright::store::testing {
namespace {

namespace fs = std::filesystem;

class MigrationTest : public ::testing::Test {
 protected:
  void SetUp() override { fs::copy_file(kept, path); }
  const fs::path kept = fs::path(DUCTWRIGHT_SOURCE_DIR) / "tests/store/data/version-1.ductwright";
  TemporaryFolder folder;
  fs::path path = folder / "old.ductwright";
};

TEST_F(MigrationTest, migrated) {
  const Opening opening = ProjectFile::open(path, fixedEnvironment("new laptop", 9));
  EXPECT_EQ(opening.outcome, Outcome::migrated);
  EXPECT_EQ(opening.sentence, "The project was brought from version 1 to 2.");
  ASSERT_NE(opening.project, nullptr);
  const auto s = loaded(*opening.project);
  ASSERT_EQ(s.units.size(), 13U);
  EXPECT_EQ(s.units[0]->unit.tag, "2-1");
  EXPECT_EQ(s.units[0]->readings.size(), 4U);
  EXPECT_TRUE(s.units[0]->readings[0].withdrawn);
  EXPECT_EQ(s.units[0]->runs.at(0).reason, "");
  EXPECT_EQ(s.deficiencies.size(), 1U);
  EXPECT_EQ(s.units[4]->signOffs.size(), 1U);
  EXPECT_EQ(findingsOf(*opening.project), "");
  EXPECT_EQ(opening.project->head()->kind, EntryKind::migration);
  EXPECT_EQ(opening.project->head()->number, 10);
}

TEST_F(MigrationTest, aMigratedFileIsAnOrdinaryOneAfterwards) {
  ASSERT_EQ(ProjectFile::open(path, fixedEnvironment("new laptop", 9)).outcome, Outcome::migrated);
  const Opening again = ProjectFile::open(path, fixedEnvironment("new laptop", 10));
  ASSERT_EQ(again.outcome, Outcome::current) << again.sentence;
  const auto unit = loaded(*again.project).units[0]->unit;
  const fleet::Run run{again.project->environment().newId<fleet::Run>(),
                       fleet::Procedure::airflow,
                       2,
                       std::nullopt,
                       "A. Invented",
                       "the damper was repaired"};
  committed(*again.project, "New run", [&](Writer& w) { w.put(unit.id, run); });
  EXPECT_EQ(loaded(*again.project).units[0]->runs.at(1).reason, "the damper was repaired");
  EXPECT_EQ(findingsOf(*again.project), "");
}

TEST_F(MigrationTest, readingAnOldFileChangesNothingInIt) {
  const std::string before = bytesOf(path);
  const Opening opening = ProjectFile::open(path, fixedEnvironment(), Access::read);
  EXPECT_EQ(opening.outcome, Outcome::migrated);
  ASSERT_NE(opening.project, nullptr);
  EXPECT_FALSE(opening.project->writable());
  EXPECT_EQ(loaded(*opening.project).units.size(), 13U);
  EXPECT_EQ(findingsOf(*opening.project), "");
  EXPECT_EQ(bytesOf(path), before);
}

TEST_F(MigrationTest, undoStopsAtAMigration) {
  // The same device as the one that wrote the file.
  const Opening opening = ProjectFile::open(path, fixedEnvironment());
  EXPECT_FALSE(opening.project->undoState()->undo.has_value());
  EXPECT_FALSE(opening.project->undo("A. Invented", fleet::Role::agent).has_value());
}

TEST_F(MigrationTest, entriesOfTheOldVersionStayReadable) {
  const Opening opening = ProjectFile::open(path, fixedEnvironment());
  bool found = false;
  ASSERT_TRUE(opening.project->history(std::nullopt, [&](const Entry& entry) {
    if (entry.action.name != "Name the zone of 2-4" || entry.kind != EntryKind::edit) return true;
    found = true;
    EXPECT_EQ(entry.schemaVersion, 1);
    EXPECT_EQ(entry.changes.size(), 1U);
    EXPECT_EQ(entry.changes[0].columns.back().column, "zone");
    EXPECT_EQ(*entry.changes[0].columns.back().after, Value("Lobby"));
    return true;
  }));
  EXPECT_TRUE(found);
}

TEST_F(MigrationTest, aMigratedFileHasExactlyTheTablesOfANewOne) {
  ASSERT_EQ(ProjectFile::open(path, fixedEnvironment()).outcome, Outcome::migrated);
  created(folder / "new.ductwright");
  const std::string shape = "SELECT type, name, sql FROM sqlite_schema ORDER BY 1, 2";
  EXPECT_EQ(Raw(path).rows(shape), Raw(folder / "new.ductwright").rows(shape));
}

TEST(Schema, columnsAreOnlyEverAppended) {
  for (int version = 2; version <= kSchemaVersion; ++version)
    for (const StateTable& before : stateTables(version - 1)) {
      const StateTable* now = stateTable(version, before.name);
      ASSERT_NE(now, nullptr) << before.name;
      ASSERT_GE(now->columns.size(), before.columns.size());
      EXPECT_TRUE(std::equal(before.columns.begin(), before.columns.end(), now->columns.begin()))
          << before.name;
      EXPECT_EQ(now->keys, before.keys);
    }
}

TEST(Schema, everyStateTableHasAKeyThatTheSessionExtensionCanUse) {
  const TemporaryFolder folder;
  created(folder / "new.ductwright");
  Raw raw(folder / "new.ductwright");
  for (const StateTable& table : stateTables(kSchemaVersion)) {
    const auto columns =
        raw.rows("SELECT name, pk, \"notnull\" FROM pragma_table_info('" + std::string(table.name) + "')");
    for (std::size_t i = 0; i < columns.size(); ++i) {
      EXPECT_EQ(columns[i][1] != "0", i < table.keys) << table.name << "." << columns[i][0];
      EXPECT_TRUE(i >= table.keys || columns[i][2] == "1") << table.name << "." << columns[i][0];
    }
  }
  for (const auto& row : raw.rows("SELECT name, type, strict FROM pragma_table_list WHERE schema = 'main' "
                                  "AND name NOT LIKE 'sqlite%'"))
    EXPECT_EQ(row[2], "1") << row[0];
  EXPECT_TRUE(raw.rows("SELECT 1 FROM sqlite_schema WHERE type IN ('trigger', 'view')").empty());
}

TEST(Schema, everyTableOfTheFileIsStateFactOrJournal) {
  const TemporaryFolder folder;
  created(folder / "new.ductwright");
  Raw raw(folder / "new.ductwright");
  const std::vector<std::string> others = {"journal", "journal_parent", "content_sum", "batch", "reading"};
  for (const auto& row : raw.rows("SELECT name FROM sqlite_schema WHERE type = 'table'"))
    EXPECT_TRUE(stateTable(kSchemaVersion, row[0]) != nullptr ||
                std::find(others.begin(), others.end(), row[0]) != others.end())
        << row[0] << " is captured by nothing";
}

}  // namespace
}  // namespace ductwright::store::testing
