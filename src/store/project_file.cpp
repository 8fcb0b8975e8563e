#include "store/project_file.h"

#include "journal.h"
#include "loader.h"
#include "parts.h"
#include "writer_state.h"

namespace ductwright::store {

ProjectFile::ProjectFile(std::unique_ptr<Parts> parts) : m_parts(std::move(parts)) {}
ProjectFile::~ProjectFile() = default;

const std::filesystem::path& ProjectFile::path() const {
  return m_parts->path;
}
bool ProjectFile::writable() const {
  return m_parts->writable();
}
std::string ProjectFile::caution() const {
  if (!onNetworkDrive(m_parts->path)) return {};
  return "The project lies on a network drive. Work on a copy on this computer, and save copies there for "
         "others.";
}
const Environment& ProjectFile::environment() const {
  return m_parts->environment;
}

Result<fleet::Snapshot> ProjectFile::load(const Progress& progress) const {
  return atEdge([&]() -> Result<fleet::Snapshot> {
    try {
      return loadSnapshot(m_parts->db, progress);
    } catch (const Stopped&) {
      return failure("Cancelled: the project was not read.");
    }
  });
}

Result<fleet::Snapshot> ProjectFile::refreshed(const fleet::Snapshot& before, const Changed& changed) const {
  return atEdge([&]() -> Result<fleet::Snapshot> { return refreshedSnapshot(m_parts->db, before, changed); });
}

Result<std::vector<StoredBatch>> ProjectFile::batches() const {
  return atEdge([&]() -> Result<std::vector<StoredBatch>> {
    std::vector<StoredBatch> out;
    Statement rows = m_parts->db.prepare(
        "SELECT b.id, b.source, b.count, s.batch IS NOT NULL, coalesce(s.withdrawn, '') FROM batch b "
        "LEFT JOIN standing_batch s ON s.batch = b.id ORDER BY b.number");
    while (rows.step())
      out.push_back({{rows.uuid(0)},
                     std::string(rows.text(1)),
                     static_cast<std::uint32_t>(rows.integer(2)),
                     rows.integer(3) != 0,
                     std::string(rows.text(4))});
    return out;
  });
}

Result<std::vector<Withdrawal>> ProjectFile::withdrawals(fleet::UnitId unit) const {
  return atEdge([&]() -> Result<std::vector<Withdrawal>> {
    std::vector<Withdrawal> out;
    Statement rows = m_parts->db.prepare(
        "SELECT batch, ordinal, reason FROM withdrawn_reading WHERE unit = ? ORDER BY 1, 2");
    rows.bind(1, unit.uuid);
    while (rows.step())
      out.push_back(
          {{{rows.uuid(0)}, static_cast<std::uint32_t>(rows.integer(1))}, std::string(rows.text(2))});
    return out;
  });
}

Result<std::vector<KeptMapping>> ProjectFile::mappings() const {
  return atEdge([&]() -> Result<std::vector<KeptMapping>> {
    std::vector<KeptMapping> out;
    Statement rows = m_parts->db.prepare("SELECT for_table, name, columns FROM mapping ORDER BY 1, 2");
    while (rows.step())
      out.push_back({std::string(rows.text(0)), std::string(rows.text(1)), std::string(rows.text(2))});
    return out;
  });
}

Result<void> ProjectFile::history(std::optional<fleet::UnitId> unit,
                                  const std::function<bool(const Entry&)>& visit) const {
  return atEdge([&]() -> Result<void> {
    std::optional<std::int64_t> broken;
    Statement touches = m_parts->db.prepare(
        "SELECT 1 FROM batch b JOIN reading r ON r.number BETWEEN b.number << 32 AND (b.number << 32) + "
        "4294967295 "
        "WHERE b.entry = ? AND r.unit = ? LIMIT 1");
    forEachEntry(m_parts->db, Order::newestFirst, [&](const StoredEntry& stored) {
      if (!stored.hashHolds) {
        broken = stored.entry.number;
        return false;
      }
      Entry entry = stored.entry;
      entry.changes = decodedChanges(stored.changeset, entry.schemaVersion);
      if (!unit) return visit(entry);
      std::erase_if(entry.changes, [&](const Change& change) { return change.unit != unit; });
      bool about = !entry.changes.empty();
      if (!about && !entry.facts.empty()) about = touches.with(entry.number, unit->uuid).step();
      touches.reset();
      return about ? visit(entry) : true;
    });
    if (broken)
      return failure(
          "Entry " + std::to_string(*broken) +
          " of the journal was changed from outside; what is older is not shown. Check the project.");
    return {};
  });
}

Result<Entry> ProjectFile::head() const {
  return atEdge([&]() -> Result<Entry> {
    const auto head = headOf(m_parts->db);
    if (!head) throw SqlError(SQLITE_CORRUPT, "the journal is empty");
    return entryNumbered(m_parts->db, head->number).entry;
  });
}

}  // namespace ductwright::store
