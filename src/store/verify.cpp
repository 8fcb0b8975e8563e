#include <algorithm>
#include <map>

#include "columns.h"
#include "content.h"
#include "facts.h"
#include "journal.h"
#include "parts.h"
#include "schema.h"
#include "writer_state.h"

namespace ductwright::store {
namespace {

using Place = Finding::Place;

// Findings of one place beyond this many say nothing new.
constexpr std::size_t kMost = 100;

class Findings {
 public:
  void add(Place place, std::string where, std::string sentence) {
    if (m_counts[place]++ < kMost) m_list.push_back({place, std::move(where), std::move(sentence)});
  }
  std::vector<Finding> take() { return std::move(m_list); }

 private:
  std::map<Place, std::size_t> m_counts;
  std::vector<Finding> m_list;
};

// A part of the check that cannot go on is itself a finding; the others still run.
template <class Part>
void checkPart(Findings& findings, Place place, const char* where, Part part) {
  try {
    part();
  } catch (const SqlError& error) {
    if (error.family() == SQLITE_IOERR || error.family() == SQLITE_NOMEM || error.family() == SQLITE_BUSY)
      throw;
    findings.add(place, where, std::string("Cannot be read: ") + error.what() + ".");
  }
}

void checkFile(const Connection& db, Findings& findings) {
  Statement rows = db.prepare("PRAGMA integrity_check(20)");
  while (rows.step())
    if (rows.text(0) != "ok") findings.add(Place::file, "file", std::string(rows.text(0)));
  Statement keys = db.prepare("PRAGMA foreign_key_check");
  while (keys.step())
    findings.add(Place::state, std::string(keys.text(0)), "A row refers to a row that is not there.");
}

struct ExpectedBatch : BatchRow {
  std::uint32_t count = 0;
  Digest digest{};
};

std::map<std::int64_t, ExpectedBatch> expectedBatches(const Connection& db) {
  std::map<std::int64_t, ExpectedBatch> out;
  Statement rows = db.prepare("SELECT id, number, count, digest FROM batch");
  while (rows.step())
    out[rows.integer(1)] = {{{rows.uuid(0)}, rows.integer(1)},
                            static_cast<std::uint32_t>(rows.integer(2)),
                            digestFrom(rows.blob(3))};
  return out;
}

// Adds up one batch while its rows go by.
struct BatchTally {
  std::uint32_t count = 0;
  Hasher hasher;
};

void checkReadings(const Connection& db, const Progress& progress, Findings& findings) {
  auto batches = expectedBatches(db);
  std::map<std::int64_t, BatchTally> tallies;
  ReadingDigest digest;
  const auto reader = std::make_unique<ReadingRow>();
  Statement rows = readingsBetween(db);
  rows.with(std::numeric_limits<std::int64_t>::min(), std::numeric_limits<std::int64_t>::max());
  std::uint64_t done = 0;
  while (rows.step()) {
    if (++done % 4096 == 0) {
      if (progress.stop.stop_requested()) throw Stopped{};
      if (progress.report) progress.report(done);
    }
    const std::int64_t number = rows.integer(0) >> 32;
    const std::string where =
        std::to_string(rows.integer(0) & 0xFFFF'FFFF) + " of batch " + std::to_string(number);
    const auto batch = batches.find(number);
    if (batch == batches.end()) {
      findings.add(Place::reading, "reading " + where, "The reading belongs to no batch.");
      continue;
    }
    fleet::Reading reading;
    reader->read(rows, batch->second, reading);
    const ShortDigest made = digest.of(reading.key, ReadingRow::unit(rows), reading);
    const Bytes kept = ReadingRow::digest(rows);
    if (!std::equal(made.begin(), made.end(), kept.begin(), kept.end()))
      findings.add(Place::reading, "reading " + where, "The reading is not as it was written.");
    BatchTally& tally = tallies[number];
    tally.hasher.add(kept);
    ++tally.count;
  }
  for (const auto& [number, batch] : batches) {
    BatchTally& tally = tallies[number];
    if (tally.count != batch.count || tally.hasher.finish() != batch.digest)
      findings.add(Place::batch, "batch " + std::to_string(number),
                   "The batch does not hold the readings that it was written with.");
  }
}

// Compares the rows of one table in two databases, in the order of its key.
void compareTable(const Connection& found, const Connection& expected, const StateTable& table,
                  Findings& findings) {
  std::string sql = "SELECT * FROM " + std::string(table.name) + " ORDER BY 1";
  for (std::size_t i = 1; i < table.keys; ++i) sql += ", " + std::to_string(i + 1);
  Statement a = found.prepare(sql), b = expected.prepare(sql);
  bool moreA = a.step(), moreB = b.step();
  while (moreA && moreB) {
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
      if (Cell::of(a, static_cast<int>(i)) == Cell::of(b, static_cast<int>(i))) continue;
      findings.add(Place::state, std::string(table.name),
                   "A row differs from what the journal says in \"" + std::string(table.columns[i]) + "\".");
      return;
    }
    moreA = a.step();
    moreB = b.step();
  }
  if (moreA || moreB)
    findings.add(Place::state, std::string(table.name),
                 moreA ? "A row is there that the journal does not know."
                       : "A row that the journal knows is missing.");
}

// Does every entry again in memory and compares the state after each with what the entry says.
class Replay {
 public:
  Replay() : m_db(Connection::inMemory()) {
    m_db.execute("PRAGMA foreign_keys=OFF");  // the facts are not there
    makeTables(m_db, 1);
  }

  // False where the entry cannot be done on the state before it.
  bool take(const StoredEntry& stored) {
    const Entry& entry = stored.entry;
    if (entry.schemaVersion < m_version || entry.schemaVersion > kSchemaVersion) return false;
    // A project made by a later version begins there; an older one gets there by its migrations.
    const bool further = entry.schemaVersion > m_version;
    if (further && entry.kind != EntryKind::migration && entry.kind != EntryKind::create) return false;
    while (m_version < entry.schemaVersion) takeOneStep(m_db, m_version++);
    if (further) m_sum = recomputedSum(m_db, m_version);
    m_db.execute("BEGIN");
    const bool done = applied(m_db, stored.changeset);
    if (done) takeChanges(m_sum, m_db, stored.changeset, m_version);
    m_db.execute("COMMIT");
    return done && m_sum.digest() == entry.content;
  }

  [[nodiscard]] const Connection& db() const { return m_db; }

 private:
  Connection m_db;
  int m_version = 1;
  RowSum m_sum;
};

struct Chain {
  std::vector<Digest> hashes;
  bool whole = true;
};

void checkLink(const Entry& entry, Chain& chain, Findings& findings) {
  const std::string where = "entry " + std::to_string(entry.number);
  const bool first = chain.hashes.empty();
  const std::vector<Digest> parents =
      first ? std::vector<Digest>{} : std::vector<Digest>{chain.hashes.back()};
  if (entry.number != static_cast<std::int64_t>(chain.hashes.size()) + 1 || entry.parents != parents ||
      (entry.kind == EntryKind::create) != first) {
    findings.add(Place::entry, where,
                 "The entry does not follow the one before it: entries are missing or moved.");
    chain.whole = false;
  }
  chain.hashes.push_back(entry.hash);
}

Chain checkJournal(const Connection& db, const Progress& progress, Findings& findings) {
  Chain chain;
  Replay replay;
  forEachEntry(db, Order::oldestFirst, [&](const StoredEntry& stored) {
    if (progress.stop.stop_requested()) throw Stopped{};
    const std::string where = "entry " + std::to_string(stored.entry.number);
    checkLink(stored.entry, chain, findings);
    if (!stored.hashHolds) {
      findings.add(Place::entry, where,
                   "The entry, or the readings that it brought, are not as they were written.");
      chain.whole = false;
    } else if (chain.whole && !replay.take(stored)) {
      findings.add(Place::entry, where, "The entry's changes do not lead to the state that it names.");
      chain.whole = false;
    }
    return true;
  });
  if (chain.hashes.empty()) findings.add(Place::entry, "journal", "The journal is empty.");
  if (chain.whole)
    for (const StateTable& table : stateTables(kSchemaVersion))
      compareTable(db, replay.db(), table, findings);
  const auto strays = db.number("SELECT count(*) FROM batch WHERE entry NOT IN (SELECT number FROM journal)");
  if (strays != 0)
    findings.add(Place::batch, "batches", "Readings are there that no entry of the journal brought.");
  return chain;
}

void checkContent(const Connection& db, Findings& findings) {
  const auto head = headOf(db);
  const RowSum made = recomputedSum(db, kSchemaVersion);
  if (!(storedSum(db) == made))
    findings.add(Place::state, "content", "The content is not what the program last wrote.");
  if (head && made.digest() != head->content)
    findings.add(Place::state, "content", "The content does not fit the last entry of the journal.");
}

void checkSignOffs(const Connection& db, const Chain& chain, Findings& findings) {
  Statement rows = db.prepare(
      "SELECT u.tag, s.person, s.digest, t.head, t.size, t.text FROM sign_off s LEFT JOIN signed_text t "
      "ON t.unit = s.unit AND t.sign_off = s.id LEFT JOIN unit u ON u.id = s.unit");
  while (rows.step()) {
    const std::string where = "sign-off of " + std::string(rows.text(0)) + " by " + std::string(rows.text(1));
    if (rows.isNull(5)) {
      findings.add(Place::signOff, where, "What was signed is missing.");
      continue;
    }
    try {
      const Blob text = unpacked(rows.blob(5), static_cast<std::size_t>(rows.integer(4)));
      if (hex(digestOf(text)) != rows.text(2))
        findings.add(Place::signOff, where, "What was signed does not have the digest that was signed.");
    } catch (const SqlError&) {
      findings.add(Place::signOff, where, "What was signed cannot be unpacked.");
    }
    const Bytes head = rows.blob(3);
    if (std::none_of(chain.hashes.begin(), chain.hashes.end(), [&](const Digest& h) {
          return std::equal(h.begin(), h.end(), head.begin(), head.end());
        }))
      findings.add(Place::signOff, where,
                   "The journal no longer holds the entry that was the last when it was signed.");
  }
}

}  // namespace

Result<std::vector<Finding>> ProjectFile::verify(const Progress& progress) const {
  return atEdge([&]() -> Result<std::vector<Finding>> {
    try {
      const Connection& db = m_parts->db;
      const ReadTransaction reading(db);
      Findings findings;
      Chain chain;
      checkPart(findings, Place::file, "file", [&] { checkFile(db, findings); });
      checkPart(findings, Place::schema, "tables", [&] {
        if (const auto difference = schemaDifference(db, kSchemaVersion))
          findings.add(Place::schema, "tables", "The tables are not this program's: " + *difference + ".");
      });
      checkPart(findings, Place::reading, "readings", [&] { checkReadings(db, progress, findings); });
      checkPart(findings, Place::entry, "journal", [&] { chain = checkJournal(db, progress, findings); });
      checkPart(findings, Place::state, "content", [&] { checkContent(db, findings); });
      checkPart(findings, Place::signOff, "sign-offs", [&] { checkSignOffs(db, chain, findings); });
      return findings.take();
    } catch (const Stopped&) {
      return failure("Cancelled: the project was not checked to the end.");
    }
  });
}

}  // namespace ductwright::store
