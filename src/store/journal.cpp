#include "journal.h"

#include <algorithm>
#include <set>

#include "columns.h"

namespace ductwright::store {
namespace {

constexpr const char* kEntryColumns =
    "SELECT hash, number, kind, action, author, role, reason, device, at, at_offset, schema_version, about, "
    "stops_undo, content, size, changeset FROM journal ";

EntryKind kindFrom(std::string_view text) {
  for (const EntryKind kind :
       {EntryKind::create, EntryKind::edit, EntryKind::undo, EntryKind::redo, EntryKind::migration})
    if (word(kind) == text) return kind;
  throw SqlError(SQLITE_CORRUPT, "a journal entry of an unknown kind");
}

bool addsSignOff(Bytes changeset, int schemaVersion) {
  bool found = false;
  forEachChange(changeset, schemaVersion, [&](const RowChange& change) {
    found = found || (change.table().name == "sign_off" && change.operation() == SQLITE_INSERT);
  });
  return found;
}

void readParents(const Connection& db, Entry& entry) {
  Statement rows = db.prepare("SELECT parent FROM journal_parent WHERE entry = ? ORDER BY parent");
  rows.bind(1, Bytes(entry.hash));
  while (rows.step()) entry.parents.push_back(digestFrom(rows.blob(0)));
}

void readFacts(const Connection& db, Entry& entry) {
  Statement rows = db.prepare("SELECT id, source, count, digest FROM batch WHERE entry = ? ORDER BY number");
  rows.bind(1, entry.number);
  while (rows.step())
    entry.facts.push_back({{rows.uuid(0)},
                           std::string(rows.text(1)),
                           static_cast<std::uint32_t>(rows.integer(2)),
                           digestFrom(rows.blob(3))});
}

StoredEntry entryFrom(const Connection& db, const Statement& row) {
  StoredEntry out;
  Entry& entry = out.entry;
  entry.hash = digestFrom(row.blob(0));
  entry.number = row.integer(1);
  entry.kind = kindFrom(row.text(2));
  entry.action = {std::string(row.text(3)), std::string(row.text(4)), fromWord<fleet::Role>(row.text(5)),
                  std::string(row.text(6))};
  entry.device = row.text(7);
  entry.at = {row.integer(8), static_cast<std::int16_t>(row.integer(9))};
  entry.schemaVersion = static_cast<int>(row.integer(10));
  if (!row.isNull(11)) entry.about = digestFrom(row.blob(11));
  out.stopsUndo = row.integer(12);
  entry.content = digestFrom(row.blob(13));
  readParents(db, entry);
  readFacts(db, entry);
  try {
    out.changeset = unpacked(row.blob(15), static_cast<std::size_t>(row.integer(14)));
    out.hashHolds =
        entry.schemaVersion >= 1 && entry.schemaVersion <= kSchemaVersion && hashOf(out) == entry.hash;
  } catch (const SqlError& error) {
    if (error.family() != SQLITE_CORRUPT) throw;
  }
  if (!out.hashHolds) out.changeset.clear();
  return out;
}

StoredEntry onlyEntry(const Connection& db, Statement& row) {
  if (!row.step()) throw SqlError(SQLITE_CORRUPT, "a journal entry is missing");
  return entryFrom(db, row);
}

// A journal entry as the walk for undo and redo needs it: without its changes.
struct Step {
  Digest hash;
  EntryKind kind;
  std::optional<Digest> about;
  std::string action;
};

// This device's entries, newest first, back to where undo stops.
template <class Visit>
void walkBack(const Connection& db, const std::string& device, Visit visit) {
  Statement rows =
      db.prepare("SELECT hash, kind, about, action, device, stops_undo FROM journal ORDER BY number DESC");
  while (rows.step()) {
    if (rows.integer(5) != 0) return;
    if (rows.text(4) != device) continue;
    Step step{digestFrom(rows.blob(0)), kindFrom(rows.text(1)), std::nullopt, std::string(rows.text(3))};
    if (!rows.isNull(2)) step.about = digestFrom(rows.blob(2));
    if (!visit(step)) return;
  }
}

Value valueOf(const Cell& cell) {
  switch (cell.type) {
    case SQLITE_INTEGER:
      return cell.integer;
    case SQLITE_FLOAT:
      return cell.real;
    case SQLITE_TEXT:
      return std::string(cell.bytes.begin(), cell.bytes.end());
    case SQLITE_BLOB:
      return std::vector<std::uint8_t>(cell.bytes.begin(), cell.bytes.end());
    default:
      return std::monostate{};
  }
}

}  // namespace

std::string_view word(EntryKind kind) {
  switch (kind) {
    case EntryKind::create:
      return "create";
    case EntryKind::edit:
      return "edit";
    case EntryKind::undo:
      return "undo";
    case EntryKind::redo:
      return "redo";
    case EntryKind::migration:
      return "migration";
  }
  return {};
}

Digest digestFrom(Bytes bytes) {
  Digest out;
  if (bytes.size() != out.size()) throw SqlError(SQLITE_CORRUPT, "a digest has the wrong length");
  std::copy(bytes.begin(), bytes.end(), out.begin());
  return out;
}

Digest hashOf(const StoredEntry& stored) {
  const Entry& entry = stored.entry;
  Encoder e;
  e.number(static_cast<std::uint64_t>(entry.parents.size()));
  for (const Digest& parent : entry.parents) e.raw(parent);
  e.text(word(entry.kind));
  e.text(entry.action.name);
  e.text(entry.action.author);
  e.text(word(entry.action.role));
  e.text(entry.action.reason);
  e.text(entry.device);
  e.number(entry.at.utcMillis);
  e.number(static_cast<int>(entry.at.offsetMinutes));
  e.number(entry.schemaVersion);
  e.blob(entry.about ? Bytes(*entry.about) : Bytes());
  e.number(stored.stopsUndo);
  e.raw(entry.content);
  e.number(static_cast<std::uint64_t>(entry.facts.size()));
  for (const BroughtFacts& facts : entry.facts) {
    e.raw(facts.batch.uuid.bytes);
    e.text(facts.source);
    e.number(static_cast<std::uint64_t>(facts.count));
    e.raw(facts.digest);
  }
  e.blob(stored.changeset);
  return digestOf(e.bytes());
}

std::optional<Head> headOf(const Connection& db) {
  Statement row = db.prepare("SELECT number, hash, content FROM journal ORDER BY number DESC LIMIT 1");
  if (!row.step()) return std::nullopt;
  return Head{row.integer(0), digestFrom(row.blob(1)), digestFrom(row.blob(2))};
}

Entry appendEntry(const Connection& db, const Environment& environment, const Draft& draft) {
  const std::optional<Head> head = headOf(db);
  RowSum sum;
  if (draft.kind == EntryKind::migration) {
    sum = recomputedSum(db, draft.schemaVersion);
  } else {
    if (head) sum = storedSum(db);
    takeChanges(sum, db, draft.changeset, draft.schemaVersion);
  }
  storeSum(db, sum);

  StoredEntry stored;
  Entry& entry = stored.entry;
  entry.number = head ? head->number + 1 : 1;
  if (head) entry.parents = {head->hash};
  entry.kind = draft.kind;
  entry.action = draft.action;
  entry.device = environment.device;
  entry.at = environment.now();
  entry.schemaVersion = draft.schemaVersion;
  entry.about = draft.about;
  entry.content = sum.digest();
  readFacts(db, entry);
  stored.changeset = draft.changeset;
  const bool stops = draft.kind == EntryKind::create || draft.kind == EntryKind::migration ||
                     addsSignOff(draft.changeset, draft.schemaVersion);
  stored.stopsUndo = stops ? 1 : 0;
  entry.hash = hashOf(stored);

  Statement insert = db.prepare(
      "INSERT INTO journal (hash, number, kind, action, author, role, reason, device, at, "
      "at_offset, schema_version, about, stops_undo, content, size, changeset) "
      "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  insert.with(Bytes(entry.hash), entry.number, word(entry.kind), entry.action.name, entry.action.author,
              word(entry.action.role), entry.action.reason, entry.device, entry.at.utcMillis,
              static_cast<int>(entry.at.offsetMinutes), entry.schemaVersion);
  if (entry.about)
    insert.bind(12, Bytes(*entry.about));
  else
    insert.bindNull(12);
  insert.bind(13, stored.stopsUndo);
  insert.bind(14, Bytes(entry.content));
  insert.bind(15, static_cast<std::int64_t>(stored.changeset.size()));
  insert.bind(16, Bytes(packed(stored.changeset)));
  insert.run();
  for (const Digest& parent : entry.parents)
    db.prepare("INSERT INTO journal_parent (entry, parent) VALUES (?, ?)")
        .with(Bytes(entry.hash), Bytes(parent))
        .run();
  return entry;
}

StoredEntry entryNumbered(const Connection& db, std::int64_t number) {
  Statement row = db.prepare(std::string(kEntryColumns) + "WHERE number = ?");
  row.bind(1, number);
  return onlyEntry(db, row);
}

StoredEntry entryHashed(const Connection& db, const Digest& hash) {
  Statement row = db.prepare(std::string(kEntryColumns) + "WHERE hash = ?");
  row.bind(1, Bytes(hash));
  return onlyEntry(db, row);
}

void forEachEntry(const Connection& db, Order order, const std::function<bool(const StoredEntry&)>& visit) {
  const char* const by = order == Order::newestFirst ? "ORDER BY number DESC" : "ORDER BY number";
  Statement rows = db.prepare(std::string(kEntryColumns) + by);
  while (rows.step())
    if (!visit(entryFrom(db, rows))) return;
}

std::optional<Candidate> undoCandidate(const Connection& db, const std::string& device) {
  std::optional<Candidate> found;
  std::set<Digest> undone;                        // taken back, and not done again since
  std::vector<std::pair<Digest, Digest>> redone;  // the person's entry, the redo that did it again
  walkBack(db, device, [&](const Step& step) {
    const auto mentioned = [&](const Digest& hash) {
      return undone.count(hash) != 0 ||
             std::any_of(redone.begin(), redone.end(), [&](const auto& r) { return r.first == hash; });
    };
    if (step.kind == EntryKind::undo || step.kind == EntryKind::redo) {
      if (!step.about || mentioned(*step.about)) return true;
      if (step.kind == EntryKind::undo)
        undone.insert(*step.about);
      else
        redone.emplace_back(*step.about, step.hash);
      return true;
    }
    if (undone.count(step.hash) != 0) return true;
    const auto again =
        std::find_if(redone.begin(), redone.end(), [&](const auto& r) { return r.first == step.hash; });
    found = Candidate{step.hash, again == redone.end() ? step.hash : again->second, step.action};
    return false;
  });
  return found;
}

std::optional<Candidate> redoCandidate(const Connection& db, const std::string& device) {
  std::optional<Candidate> found;
  std::set<Digest> redone;
  walkBack(db, device, [&](const Step& step) {
    if (step.kind != EntryKind::undo && step.kind != EntryKind::redo) return false;
    if (!step.about || redone.count(*step.about) != 0) return true;
    if (step.kind == EntryKind::redo) {
      redone.insert(*step.about);
      return true;
    }
    found = Candidate{*step.about, step.hash, step.action};
    return false;
  });
  return found;
}

std::vector<Change> decodedChanges(Bytes changeset, int schemaVersion) {
  std::vector<Change> out;
  forEachChange(changeset, schemaVersion, [&](const RowChange& row) {
    Change change;
    change.table = row.table().name;
    change.kind = row.operation() == SQLITE_INSERT   ? Change::Kind::added
                  : row.operation() == SQLITE_DELETE ? Change::Kind::removed
                                                     : Change::Kind::changed;
    if (row.table().ofUnit()) change.unit = fleet::UnitId{uuidOf(row.key(0))};
    for (std::size_t i = 0; i < row.table().columns.size(); ++i) {
      const auto before = row.before(i), after = row.after(i);
      if (!before && !after) continue;
      ColumnChange column{std::string(row.table().columns[i]), std::nullopt, std::nullopt};
      if (before) column.before = valueOf(*before);
      if (after) column.after = valueOf(*after);
      // The key of a changed row stands before it only.
      if (change.kind == Change::Kind::changed && i < row.table().keys) column.after = column.before;
      change.columns.push_back(std::move(column));
    }
    out.push_back(std::move(change));
  });
  return out;
}

}  // namespace ductwright::store
