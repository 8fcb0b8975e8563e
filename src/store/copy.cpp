#include <system_error>

#include "content.h"
#include "journal.h"
#include "parts.h"

namespace ductwright::store {
namespace {

namespace fs = std::filesystem;

// Whether the copy is whole and says the same as what it was made from.
bool isWhole(const fs::path& copy, const Environment& environment, const Head& expected) {
  const Connection db(copy.string(), SQLITE_OPEN_READONLY, environment.vfs, environment.patienceMillis);
  Statement row = db.prepare("PRAGMA quick_check(1)");
  if (!row.step() || row.text(0) != "ok") return false;
  const auto head = headOf(db);
  return head && head->hash == expected.hash &&
         recomputedSum(db, kSchemaVersion).digest() == expected.content;
}

}  // namespace

Result<void> ProjectFile::saveCopy(const fs::path& target) const {
  return atEdge([&]() -> Result<void> {
    std::error_code ignored;
    if (fs::equivalent(target, m_parts->path, ignored))
      return failure("A copy cannot replace the project that is open. Choose another name.");
    if (InUse::here(target))
      return failure("The file that the copy would replace is open. Choose another name.");
    const auto head = headOf(m_parts->db);
    if (!head) throw SqlError(SQLITE_CORRUPT, "the journal is empty");

    const fs::path beside = besideOf(target, m_parts->environment);
    try {
      // VACUUM INTO does not bring the file to the disk; that is ours to do.
      m_parts->db.prepare("VACUUM INTO ?").with(beside.string()).run();
      if (!syncFile(beside) || !isWhole(beside, m_parts->environment, *head)) {
        discard(beside);
        return failure("The copy was not whole and was thrown away. Check the disk and try again.");
      }
    } catch (...) {
      discard(beside);
      throw;
    }
    std::error_code renamed;
    fs::rename(beside, target, renamed);
    if (renamed) {
      discard(beside);
      return failure("The copy could not be given its name. Choose another folder.");
    }
    syncFolderOf(target);
    return {};
  });
}

}  // namespace ductwright::store
