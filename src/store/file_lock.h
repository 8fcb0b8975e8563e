#pragma once

#include <sys/types.h>

#include <cstdint>
#include <filesystem>
#include <memory>
#include <utility>

namespace ductwright::store {

// Says that this program has the file open. Closing any handle of a file gives up all locks that the program
// has on it (POSIX), SQLite's too: such a file is not opened and closed beside SQLite.
class InUse {
 public:
  explicit InUse(const std::filesystem::path&);
  InUse(InUse&& other) noexcept : m_file(std::exchange(other.m_file, {})) {}
  InUse& operator=(InUse&&) = delete;
  ~InUse();
  static bool here(const std::filesystem::path&);

 private:
  std::pair<dev_t, ino_t> m_file;
};

// The right to write one project file, held while the object lives. The system gives it back when a program
// ends in any way, so that none is ever left behind. Readers do not need it.
class FileLock {
 public:
  enum class Refusal : std::uint8_t { none, heldElsewhere, notPermitted };
  // Null where refused. A file system without locks gives the right to everyone.
  static std::unique_ptr<FileLock> take(const std::filesystem::path&, Refusal&);
  ~FileLock();
  FileLock(const FileLock&) = delete;
  FileLock& operator=(const FileLock&) = delete;

 private:
  FileLock(int handle, std::pair<dev_t, ino_t> file) : m_handle(handle), m_file(file) {}
  int m_handle;
  std::pair<dev_t, ino_t> m_file;
};

// Whether the file lies on a drive of another computer, where locks and syncs are promises at best.
bool onNetworkDrive(const std::filesystem::path&);
// The same of a file system's number, as statfs(2) gives it.
bool isNetworkFileSystem(std::uint32_t magic);

}  // namespace ductwright::store
