#pragma once

#include <filesystem>
#include <memory>

#include "file_lock.h"
#include "sql.h"
#include "store/project_file.h"

namespace ductwright::store {

// What an open project holds. The connection is closed before the lock is given back.
struct ProjectFile::Parts {
  std::filesystem::path path;
  Environment environment;
  InUse inUse;
  std::unique_ptr<FileLock> lock;  // null: reading only
  Connection db;
  [[nodiscard]] bool writable() const { return lock != nullptr; }
};

// Runs what a call at this layer's edge does, and turns what is thrown into a sentence.
template <class Work>
auto atEdge(Work work) -> decltype(work()) {
  try {
    return work();
  } catch (const SqlError& error) {
    return failure(sentenceOf(error));
  } catch (const std::exception&) {  // memory, or a path that cannot be named
    return failure(sentenceOf(SqlError(SQLITE_NOMEM, "")));
  }
}

// Once in a program, before the first digest.
void readyForDigests();

// Settings of a connection that writes.
void prepareForWriting(const Connection&);

// Makes sure that a name in a folder is on the disk.
bool syncFolderOf(const std::filesystem::path&);
bool syncFile(const std::filesystem::path&);

// A file that is being made, under a name beside its target that nobody else uses.
std::filesystem::path besideOf(const std::filesystem::path& target, const Environment&);
// Takes away what was made, and what SQLite left beside it.
void discard(const std::filesystem::path& beside);

}  // namespace ductwright::store
