#include "file_lock.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <sys/vfs.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <iterator>
#include <mutex>
#include <optional>
#include <set>

namespace ductwright::store {
namespace {

// One byte far from those that SQLite locks (0x40000000 and the 511 after it).
constexpr off_t kByte = 0x60000000;

using File = std::pair<dev_t, ino_t>;

std::optional<File> fileAt(const std::filesystem::path& path) {
  struct stat info {};
  if (::stat(path.c_str(), &info) != 0) return std::nullopt;
  return File{info.st_dev, info.st_ino};
}

// What this program has open, and what it has the right to write.
struct Files {
  std::mutex mutex;
  std::multiset<File> open;
  std::set<File> locked;
};
Files& files() {
  static Files all;
  return all;
}

}  // namespace

InUse::InUse(const std::filesystem::path& path) {
  const auto file = fileAt(path);
  if (!file) return;
  m_file = *file;
  const std::lock_guard guard(files().mutex);
  files().open.insert(m_file);
}

InUse::~InUse() {
  const std::lock_guard guard(files().mutex);
  if (const auto it = files().open.find(m_file); it != files().open.end()) files().open.erase(it);
}

bool InUse::here(const std::filesystem::path& path) {
  const auto file = fileAt(path);
  const std::lock_guard guard(files().mutex);
  return file && files().open.count(*file) != 0;
}

std::unique_ptr<FileLock> FileLock::take(const std::filesystem::path& path, Refusal& refusal) {
  refusal = Refusal::heldElsewhere;
  const std::lock_guard guard(files().mutex);
  const auto file = fileAt(path);
  if (file && files().locked.count(*file) != 0) return nullptr;
  const int handle = ::open(path.c_str(), O_RDWR | O_CLOEXEC);
  if (handle < 0) {
    refusal = Refusal::notPermitted;
    return nullptr;
  }
  // A lock of this handle, not of the process, so that closing another handle of the file does not give it
  // up.
  struct flock lock {};
  lock.l_type = F_WRLCK;
  lock.l_whence = SEEK_SET;
  lock.l_start = kByte;
  lock.l_len = 1;
  if (::fcntl(handle, F_OFD_SETLK, &lock) != 0 && (errno == EAGAIN || errno == EACCES)) {
    ::close(handle);
    return nullptr;
  }
  struct stat info {};
  ::fstat(handle, &info);
  const File locked{info.st_dev, info.st_ino};
  files().locked.insert(locked);
  refusal = Refusal::none;
  return std::unique_ptr<FileLock>(new FileLock(handle, locked));
}

FileLock::~FileLock() {
  const std::lock_guard guard(files().mutex);
  files().locked.erase(m_file);
  ::close(m_handle);
}

bool isNetworkFileSystem(std::uint32_t magic) {
  // statfs(2): NFS, SMB, CIFS, SMB2, AFS, Ceph, 9P, and FUSE, under which most others are mounted.
  constexpr std::uint32_t network[] = {0x6969,     0x517B,     0xFF534D42, 0xFE534D42,
                                       0x5346414F, 0x00C36400, 0x01021997, 0x65735546};
  return std::find(std::begin(network), std::end(network), magic) != std::end(network);
}

bool onNetworkDrive(const std::filesystem::path& path) {
  struct statfs info {};
  return ::statfs(path.c_str(), &info) == 0 && isNetworkFileSystem(static_cast<std::uint32_t>(info.f_type));
}

}  // namespace ductwright::store
