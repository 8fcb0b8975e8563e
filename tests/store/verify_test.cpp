#include "raw.h"
#include "support.h"

namespace ductwright::store::testing {
namespace {

namespace fs = std::filesystem;

class VerifyTest : public ::testing::Test {
 protected:
  // A project with rows in every table.
  static void makeFull(const fs::path& path) {
    const Environment environment = fixedEnvironment();
    const auto project = created(path, environment);
    fleet::Unit a = inventedUnit(environment, "2-14"), b = inventedUnit(environment, "2-15");
    committed(*project, "Everything", [&](Writer& w) {
      w.put(fleet::AirHandler{environment.newId<fleet::AirHandler>(), "AHU-1", std::nullopt, false,
                              std::nullopt, std::nullopt});
      fleet::ControllerProfile profile;
      profile.id = environment.newId<fleet::ControllerProfile>();
      profile.kindsServed = {fleet::UnitKind::reheat};
      w.put(profile);
      w.put(fleet::RoomSensor{environment.newId<fleet::RoomSensor>(), "S-1", true, {}, {}, {}, {}});
      w.put(fleet::NetworkSegment{environment.newId<fleet::NetworkSegment>(), "N-1", 38400.0, 64, 32.0});
      fleet::Instrument hood;
      hood.id = environment.newId<fleet::Instrument>();
      hood.serial = "INV-001";
      hood.accuracies.resize(2);
      w.put(hood);
      w.put(KeptMapping{"schedule", "mine", "x"});
      for (const auto& unit : {a, b}) {
        w.put(unit);
        w.put(unit.id, fleet::Run{environment.newId<fleet::Run>(), fleet::Procedure::airflow, 1,
                                  environment.now(), "A", "r"});
        w.put(fleet::FoundSetting{unit.id, "cooling max flow", "1", 1.0, environment.now()});
        fleet::Deficiency d;
        d.id = environment.newId<fleet::Deficiency>();
        d.unit = unit.id;
        w.put(d);
        w.addMove(unit.id, d.id,
                  {fleet::DeficiencyState::raised, environment.now(), "A", fleet::Role::agent, ""});
      }
    });
    fleet::FactKey key;
    committed(*project, "Import", [&](Writer& w) {
      const auto batch = w.newBatch("readings.csv");
      for (int i = 0; i < 5; ++i) key = w.addReading(batch, a.id, inventedReading(400 + i));
    });
    committed(*project, "Type",
              [&](Writer& w) { w.addReading(w.newBatch("typed"), b.id, inventedReading(120)); });
    committed(*project, "Strike", [&](Writer& w) { w.withdraw(key, "slip"); });
    EXPECT_TRUE(project->undo("A. Invented", fleet::Role::agent));
    EXPECT_TRUE(project->redo("A. Invented", fleet::Role::agent));
    committed(*project, "Sign", [&](Writer& w) {
      fleet::SignOff signOff;
      signOff.id = environment.newId<fleet::SignOff>();
      signOff.unit = a.id;
      signOff.person = "C. Invented";
      w.sign(signOff, {1, "what was seen"});
    });
    EXPECT_EQ(findingsOf(*project), "");
  }

  // What a person is told of the file; empty where nothing is.
  static std::string told(const fs::path& path) {
    const Opening opening = ProjectFile::open(path, fixedEnvironment(), Access::read);
    if (opening.project == nullptr) return opening.sentence;
    return findingsOf(*opening.project);
  }

  TemporaryFolder folder;
  fs::path path = folder / "tower.ductwright";
};

TEST_F(VerifyTest, everyColumnOfEveryTableWhenChangedIsFound) {
  makeFull(path);
  const std::string good = bytesOf(path);
  std::vector<std::pair<std::string, std::string>> columns;  // table.column, its type
  for (const auto& table : Raw(path).rows("SELECT name FROM sqlite_schema WHERE type = 'table'"))
    for (const auto& c : Raw(path).rows("SELECT name, type FROM pragma_table_info('" + table[0] + "')"))
      columns.emplace_back(table[0] + "." + c[0], c[1]);
  ASSERT_GT(columns.size(), 200U);
  int changed = 0;
  for (const auto& [name, type] : columns) {
    const std::string table = name.substr(0, name.find('.')),
                      column = '"' + name.substr(name.find('.') + 1) + '"';
    std::string value;
    if (type == "INTEGER") value = "coalesce(" + column + " + 1, 1)";
    if (type == "REAL") value = "coalesce(" + column + " + 0.5, 1.5)";
    if (type == "TEXT") value = "coalesce(" + column + ", '') || 'x'";
    if (type == "BLOB") value = "coalesce(CAST(x'EE' || substr(" + column + ", 2) AS BLOB), x'00')";
    ASSERT_NE(value, "") << name << " is of type " << type;
    {
      Raw raw(path);
      const std::string last = "(SELECT max(" + column + ") FROM " + table + ")";
      const std::string which =
          raw.rows("SELECT count(*) FROM " + table + " WHERE " + column + " IS NOT NULL")[0][0] == "0"
              ? ""
              : " WHERE " + column + " = " + last;
      const bool done = raw.execute("UPDATE " + table + " SET " + column + " = " + value + which);
      if (!done) continue;  // a CHECK or a UNIQUE of the table itself says no
      ASSERT_GT(raw.changes(), 0) << name;
    }
    ++changed;
    EXPECT_NE(told(path), "") << name << " was changed and nobody noticed";
    writeBytes(path, good);
  }
  EXPECT_GT(changed, 200);
  EXPECT_EQ(told(path), "");
}

TEST_F(VerifyTest, everyRowWhenRemovedIsFound) {
  makeFull(path);
  const std::string good = bytesOf(path);
  for (const auto& table : Raw(path).rows("SELECT name FROM sqlite_schema WHERE type = 'table'")) {
    const int rows = std::stoi(Raw(path).rows("SELECT count(*) FROM " + table[0])[0][0]);
    EXPECT_GT(rows, 0) << table[0] << " is not tried";
    for (int i = 0; i < rows; ++i) {
      {
        Raw raw(path);
        const auto keys =
            raw.rows("SELECT group_concat('\"' || name || '\"', ', ') FROM pragma_table_info('" + table[0] +
                     "') WHERE pk > 0")[0][0];
        ASSERT_TRUE(raw.execute("DELETE FROM " + table[0] + " WHERE (" + keys + ") = (SELECT " + keys +
                                " FROM " + table[0] + " LIMIT 1 OFFSET " + std::to_string(i) + ")"));
        ASSERT_EQ(raw.changes(), 1) << table[0];
      }
      EXPECT_NE(told(path), "") << "row " << i << " of " << table[0] << " was removed and nobody noticed";
      writeBytes(path, good);
    }
  }
}

TEST_F(VerifyTest, aRowThatIsAddedIsFound) {
  makeFull(path);
  const std::string good = bytesOf(path);
  for (const char* sql : {
           "INSERT INTO building VALUES (randomblob(16), 'Annex', 0)",
           "INSERT INTO reading SELECT number + 1000, unit, procedure, run, step, quantity, value, taken_at, "
           "taken_offset, "
           "waited, outlet, typed, instrument, taken_by, note, hash FROM reading LIMIT 1",
           "INSERT INTO reading SELECT (77 << 32) + 1, unit, procedure, run, step, quantity, value, "
           "taken_at, taken_offset, "
           "waited, outlet, typed, instrument, taken_by, note, hash FROM reading LIMIT 1",
           "INSERT INTO batch SELECT randomblob(16), number + 10, entry, source, count, digest FROM batch "
           "LIMIT 1",
           "INSERT INTO batch SELECT randomblob(16), number + 10, 99, source, 0, digest FROM batch LIMIT 1",
           "INSERT INTO standing_batch VALUES (randomblob(16), '')",
           "INSERT INTO journal_parent SELECT hash, randomblob(32) FROM journal WHERE number = 3",
           "INSERT INTO journal SELECT randomblob(32), number + 1, kind, action, author, role, reason, "
           "device, at, at_offset, "
           "schema_version, about, stops_undo, content, size, changeset FROM journal ORDER BY number DESC "
           "LIMIT 1",
       }) {
    {
      Raw raw(path);
      ASSERT_TRUE(raw.execute(sql)) << sql;
      ASSERT_EQ(raw.changes(), 1) << sql;
    }
    EXPECT_NE(told(path), "") << sql;
    writeBytes(path, good);
  }
}

TEST_F(VerifyTest, readingsThatTradePlacesAreFound) {
  makeFull(path);
  Raw raw(path);
  ASSERT_TRUE(
      raw.execute("UPDATE reading SET number = number + 1000000; "
                  "UPDATE reading SET number = number - 1000000 + CASE number % 2 WHEN 0 THEN 1 ELSE -1 END "
                  "WHERE number < (1 << 32) + 1000004"));
  EXPECT_NE(told(path), "");
}

TEST_F(VerifyTest, aFindingSaysWhereAndWhat) {
  makeFull(path);
  Raw(path).execute("UPDATE reading SET value = value * 1.1 WHERE number = (1 << 32) + 2");
  const auto project = reopened(path, Access::read);
  const auto found = project->verify();
  ASSERT_TRUE(found.has_value());
  ASSERT_EQ(found->size(), 1U);
  EXPECT_EQ(found->at(0).place, Finding::Place::reading);
  EXPECT_EQ(found->at(0).where, "reading 2 of batch 1");
  EXPECT_EQ(found->at(0).sentence, "The reading is not as it was written.");
}

TEST_F(VerifyTest, aStateRowThatWasChangedIsNamedWithItsTableAndColumn) {
  makeFull(path);
  Raw(path).execute("UPDATE unit SET cooling_max = 9 WHERE tag = '2-15'");
  const std::string text = told(path);
  EXPECT_NE(text.find("unit: A row differs from what the journal says in \"cooling_max\"."),
            std::string::npos)
      << text;
}

TEST_F(VerifyTest, aCancelAnswers) {
  makeFull(path);
  std::stop_source stop;
  stop.request_stop();
  const auto found = reopened(path, Access::read)->verify({stop.get_token(), {}});
  ASSERT_FALSE(found.has_value());
  EXPECT_EQ(found.error().sentence, "Cancelled: the project was not checked to the end.");
}

// Whatever bit flips, the file opens as it was, or someone is told.
TEST_F(VerifyTest, flippedBitsAreFoundOrDoNoHarm) {
  makeFull(path);
  const std::string good = bytesOf(path);
  std::uint64_t state = 12345;
  const auto next = [&] { return (state = state * 6364136223846793005ULL + 1442695040888963407ULL) >> 33; };
  int found = 0;
  for (int i = 0; i < 150; ++i) {
    std::string bytes = good;
    const std::size_t at = next() % bytes.size();
    bytes[at] = static_cast<char>(bytes[at] ^ (1 << next() % 8));
    writeBytes(path, bytes);
    const std::string text = told(path);
    if (!text.empty()) {
      ++found;
      continue;
    }
    // Not told: then the flip was in unused room, and all rows are as they were.
    Raw flipped(path);
    for (const auto& table : flipped.rows("SELECT name FROM sqlite_schema WHERE type = 'table'")) {
      const auto now = flipped.rows("SELECT * FROM " + table[0]);
      writeBytes(folder / "good.ductwright", good);
      EXPECT_EQ(now, Raw(folder / "good.ductwright").rows("SELECT * FROM " + table[0]))
          << "bit of byte " << at;
    }
  }
  EXPECT_GT(found, 0);
}

}  // namespace
}  // namespace ductwright::store::testing
