#include "parts.h"

#include <fcntl.h>
#include <sodium.h>
#include <unistd.h>

namespace ductwright::store {
namespace {

bool syncPath(const char* path, int flags) {
  const int handle = ::open(path, flags | O_RDONLY | O_CLOEXEC);
  if (handle < 0) return false;
  const bool done = ::fsync(handle) == 0;
  ::close(handle);
  return done;
}

}  // namespace

void readyForDigests() {
  static const bool ready = sodium_init() >= 0;
  if (!ready) throw SqlError(SQLITE_INTERNAL, "the random source of the system does not answer");
}

void prepareForWriting(const Connection& db) {
  db.execute("PRAGMA journal_mode=DELETE");
  db.execute("PRAGMA synchronous=EXTRA");
}

bool syncFolderOf(const std::filesystem::path& path) {
  const auto folder = path.parent_path();
  return syncPath(folder.empty() ? "." : folder.c_str(), O_DIRECTORY);
}

bool syncFile(const std::filesystem::path& path) {
  return syncPath(path.c_str(), 0);
}

std::filesystem::path besideOf(const std::filesystem::path& target, const Environment& environment) {
  return target.string() + "." + environment.newUuid().text().substr(24) + ".new";
}

void discard(const std::filesystem::path& beside) {
  std::error_code ignored;
  std::filesystem::remove(beside, ignored);
  std::filesystem::remove(beside.string() + "-journal", ignored);
}

}  // namespace ductwright::store
