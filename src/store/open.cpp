#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cstring>
#include <fstream>

#include "content.h"
#include "journal.h"
#include "parts.h"
#include "schema.h"

namespace ductwright::store {
namespace {

namespace fs = std::filesystem;

struct Verdict {
  Outcome outcome = Outcome::current;
  std::string sentence;
  int version = kSchemaVersion;
};

Verdict refused(Outcome outcome, std::string sentence) {
  return {outcome, std::move(sentence), 0};
}

Verdict refused(const SqlError& error) {
  switch (error.family()) {
    case SQLITE_BUSY:
      return refused(Outcome::locked, sentenceOf(error));
    case SQLITE_NOTADB:
      return refused(Outcome::notOurs, sentenceOf(error));
    case SQLITE_CORRUPT:
    case SQLITE_SCHEMA:
    case SQLITE_ERROR:
    case SQLITE_TOOBIG:
      return refused(Outcome::damaged, std::string("The project file is damaged (") + error.what() +
                                           "). It was left as it is; go back to a copy.");
    default:
      return refused(Outcome::failed, sentenceOf(error));
  }
}

// The length that the header names, in pages.
std::uint64_t bytesNamedBy(const std::array<char, 100>& header) {
  const auto number = [&](std::size_t at, std::size_t size) {
    std::uint64_t value = 0;
    for (std::size_t i = at; i < at + size; ++i) value = value << 8 | static_cast<std::uint8_t>(header[i]);
    return value;
  };
  const std::uint64_t pageSize = number(16, 2) == 1 ? 65536 : number(16, 2);
  return pageSize * number(28, 4);
}

// The file before SQLite reads it: there, a regular file, with our signature.
// https://www.sqlite.org/fileformat.html, "The Database Header".
std::optional<Verdict> refusedAtSight(const fs::path& path) {
  struct stat info {};
  if (::stat(path.c_str(), &info) != 0)
    return refused(errno == ENOENT || errno == ENOTDIR ? Outcome::missing : Outcome::failed,
                   errno == EACCES ? "The folder of the project cannot be read. Ask for the right to read it."
                                   : "There is no such file. Check the name and the folder.");
  if (!S_ISREG(info.st_mode))
    return refused(Outcome::notOurs, "This is not a file but a folder or a device.");
  if (info.st_size == 0)
    return refused(Outcome::empty, "The file is empty. Nothing was changed; go back to a copy.");
  if (InUse::here(path)) return std::nullopt;
  std::array<char, 100> header{};
  std::ifstream file(path, std::ios::binary);
  if (!file) return refused(Outcome::failed, "The file cannot be read. Ask for the right to read it.");
  file.read(header.data(), header.size());
  const auto length = static_cast<std::size_t>(file.gcount());
  constexpr std::array<char, 16> magic = {'S', 'Q', 'L', 'i', 't', 'e', ' ', 'f',
                                          'o', 'r', 'm', 'a', 't', ' ', '3', 0};
  if (std::memcmp(header.data(), magic.data(), std::min(length, magic.size())) != 0 || length < magic.size())
    return refused(Outcome::notOurs, "The file is not a Ductwright project.");
  if (length < header.size())
    return refused(Outcome::damaged, "The project file breaks off at its beginning. Go back to a copy.");
  if (std::memcmp(&header[68], "Dwrt", 4) != 0)
    return refused(Outcome::notOurs, "The file is a database, but not a Ductwright project.");
  // What a write that was interrupted left is SQLite's to restore, from the journal beside the file.
  std::error_code none;
  const bool interrupted = fs::file_size(fs::path(path.string() + "-journal"), none) != 0 && !none;
  if (!interrupted && static_cast<std::uint64_t>(info.st_size) < bytesNamedBy(header))
    return refused(Outcome::damaged,
                   "The project file breaks off before its end. It was left as it is; go back to a copy.");
  if (header[18] != 1 || header[19] != 1)
    return refused(Outcome::damaged,
                   "Another program has changed how the project file is written (write-ahead log). "
                   "It was left as it is; go back to a copy.");
  return std::nullopt;
}

// What the tables say, once SQLite can read them.
Verdict examined(const Connection& db, FirstCheck check) {
  try {
    const ReadTransaction reading(db);  // one state of the file, also while another program writes
    if (db.number("PRAGMA application_id") != kApplicationId)
      return refused(Outcome::notOurs, "The file is a database, but not a Ductwright project.");
    const auto version = db.number("PRAGMA user_version");
    if (version > kSchemaVersion)
      return refused(Outcome::tooNew,
                     "The project was made by a later version of Ductwright. Install that version; the "
                     "file was left as it is.");
    if (version < 1)
      return refused(Outcome::damaged, "The project file does not say its version. Go back to a copy.");
    if (const auto difference = schemaDifference(db, static_cast<int>(version)))
      return refused(Outcome::damaged,
                     "The project file is damaged: " + *difference + ". Go back to a copy.");
    if (check == FirstCheck::whole) {
      Statement row = db.prepare("PRAGMA quick_check(1)");
      if (!row.step() || row.text(0) != "ok")
        return refused(Outcome::damaged,
                       "The project file is damaged. It was left as it is; go back to a copy.");
    }
    const auto head = headOf(db);
    if (!head || storedSum(db).digest() != head->content)
      return refused(Outcome::damaged,
                     "The project file's journal does not fit its content. Go back to a copy.");
    return {Outcome::current, {}, static_cast<int>(version)};
  } catch (const SqlError& error) {
    return refused(error);
  }
}

void migrate(const Connection& db, const Environment& environment, int version) {
  for (; version < kSchemaVersion; ++version) {
    Transaction transaction(db);
    takeOneStep(db, version);
    Draft draft;
    draft.kind = EntryKind::migration;
    draft.action.name =
        "Bring the project from version " + std::to_string(version) + " to " + std::to_string(version + 1);
    draft.schemaVersion = version + 1;
    appendEntry(db, environment, draft);
    transaction.commit();
  }
}

Connection inMemoryCopy(const Connection& from) {
  Connection to = Connection::inMemory();
  sqlite3_backup* backup = sqlite3_backup_init(to.raw(), "main", from.raw(), "main");
  if (backup == nullptr) throw SqlError(sqlite3_extended_errcode(to.raw()), sqlite3_errmsg(to.raw()));
  sqlite3_backup_step(backup, -1);
  if (const int rc = sqlite3_backup_finish(backup); rc != SQLITE_OK) throw SqlError(rc, sqlite3_errstr(rc));
  return to;
}

bool hotJournal(const SqlError& error) {
  return error.code() == SQLITE_READONLY_ROLLBACK || error.code() == SQLITE_READONLY_RECOVERY;
}

Connection connect(const fs::path& path, const Environment& environment, int flags) {
  return {path.string(), flags, environment.vfs, environment.patienceMillis};
}

// Looks at the file with a connection that cannot write. A write that another program did not finish can only
// be rolled back by one that may; its verdict is left to that.
std::optional<Verdict> examinedReadOnly(const fs::path& path, const Environment& environment,
                                        FirstCheck check) {
  try {
    const Connection db = connect(path, environment, SQLITE_OPEN_READONLY);
    db.execute("SELECT count(*) FROM sqlite_schema");
    return examined(db, check);
  } catch (const SqlError& error) {
    if (hotJournal(error)) return std::nullopt;
    return refused(error);
  }
}

Opening opened(const fs::path& path, const Environment& environment, std::unique_ptr<FileLock> lock,
               Connection db, Outcome outcome, std::string sentence) {
  auto parts = std::unique_ptr<ProjectFile::Parts>(
      new ProjectFile::Parts{path, environment, InUse(path), std::move(lock), std::move(db)});
  return {outcome, std::move(sentence), std::make_unique<ProjectFile>(std::move(parts))};
}

Opening openedForReading(const fs::path& path, const Environment& environment, Outcome outcome,
                         std::string sentence) {
  Connection db = connect(path, environment, SQLITE_OPEN_READONLY);
  const int version = static_cast<int>(db.number("PRAGMA user_version"));
  if (version == kSchemaVersion)
    return opened(path, environment, nullptr, std::move(db), outcome, std::move(sentence));
  Connection copy = inMemoryCopy(db);
  migrate(copy, environment, version);
  if (outcome == Outcome::current) outcome = Outcome::migrated;
  return opened(path, environment, nullptr, std::move(copy), outcome, std::move(sentence));
}

Opening openedForWriting(const fs::path& path, const Environment& environment, std::unique_ptr<FileLock> lock,
                         bool alreadyExamined, FirstCheck check) {
  Connection db = connect(path, environment, SQLITE_OPEN_READWRITE);
  const Verdict verdict = examined(db, alreadyExamined ? FirstCheck::later : check);
  if (verdict.outcome != Outcome::current) return {verdict.outcome, verdict.sentence, nullptr};
  prepareForWriting(db);
  if (verdict.version == kSchemaVersion)
    return opened(path, environment, std::move(lock), std::move(db), Outcome::current, {});
  migrate(db, environment, verdict.version);
  return opened(path, environment, std::move(lock), std::move(db), Outcome::migrated,
                "The project was brought from version " + std::to_string(verdict.version) + " to " +
                    std::to_string(kSchemaVersion) + ".");
}

// SQLite keeps its rollback journal beside the file.
bool mayWriteIn(const fs::path& folder) {
  return ::faccessat(AT_FDCWD, folder.empty() ? "." : folder.c_str(), W_OK, AT_EACCESS) == 0;
}

constexpr const char* kReadOnly =
    "The project file, or its folder, cannot be written. It is open for reading; save a copy to work on it.";

Opening openFile(const fs::path& path, const Environment& environment, Access access, FirstCheck check) {
  if (const auto refusal = refusedAtSight(path)) return {refusal->outcome, refusal->sentence, nullptr};
  const auto verdict = examinedReadOnly(path, environment, check);
  if (verdict && verdict->outcome != Outcome::current) return {verdict->outcome, verdict->sentence, nullptr};
  if (access == Access::read) return openedForReading(path, environment, Outcome::current, {});

  FileLock::Refusal refusal{};
  auto lock = FileLock::take(path, refusal);
  if (refusal == FileLock::Refusal::heldElsewhere)
    return {Outcome::locked,
            "The project is open in another window or program. Close it there, or open it for reading.",
            nullptr};
  if (refusal == FileLock::Refusal::notPermitted || !mayWriteIn(path.parent_path())) {
    lock.reset();
    return openedForReading(path, environment, Outcome::readOnly, kReadOnly);
  }
  return openedForWriting(path, environment, std::move(lock), verdict.has_value(), check);
}

}  // namespace

Opening ProjectFile::open(const fs::path& path, const Environment& environment, Access access,
                          FirstCheck check) {
  try {
    readyForDigests();
    return openFile(path, environment, access, check);
  } catch (const SqlError& error) {
    const Verdict verdict = refused(error);
    return {verdict.outcome, verdict.sentence, nullptr};
  } catch (const std::exception&) {
    return {Outcome::failed, "There is not enough memory to open the project.", nullptr};
  }
}

}  // namespace ductwright::store
