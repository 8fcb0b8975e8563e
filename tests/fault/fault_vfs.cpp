#include "fault_vfs.h"

#include <sqlite3.h>
#include <unistd.h>

#include <csignal>

namespace ductwright::store::testing {
namespace {

struct Disk {
  Fault fault;
  std::uint64_t calls = 0;
  bool tripped = false;
  std::vector<DiskStep>* steps = nullptr;
};
Disk disk;

bool changes(Call call) {
  return call == Call::write || call == Call::truncate || call == Call::sync || call == Call::remove;
}

int errorOf(Call call) {
  switch (call) {
    case Call::open:
      return SQLITE_CANTOPEN;
    case Call::read:
      return SQLITE_IOERR_READ;
    case Call::write:
      return SQLITE_IOERR_WRITE;
    case Call::truncate:
      return SQLITE_IOERR_TRUNCATE;
    case Call::sync:
      return SQLITE_IOERR_FSYNC;
    case Call::size:
      return SQLITE_IOERR_FSTAT;
    case Call::remove:
      return SQLITE_IOERR_DELETE;
    case Call::lock:
      return SQLITE_IOERR_LOCK;
    case Call::close:
      return SQLITE_IOERR_CLOSE;
  }
  return SQLITE_IOERR;
}

[[noreturn]] void die() {
  ::kill(::getpid(), SIGKILL);
  for (;;) ::pause();
}

// Counts a call; the error that it gives, or SQLITE_OK. `torn` does half of a write before a kill.
template <class Torn>
int count(Call call, Torn torn) {
  if (disk.fault.kind == Fault::Kind::none || disk.fault.kind == Fault::Kind::full) return SQLITE_OK;
  if (disk.fault.onlyChanges && !changes(call)) return SQLITE_OK;
  ++disk.calls;
  const bool now = disk.calls == disk.fault.at;
  switch (disk.fault.kind) {
    case Fault::Kind::kill:
      if (now) die();
      return SQLITE_OK;
    case Fault::Kind::killTorn:
      if (now) {
        torn();
        die();
      }
      return SQLITE_OK;
    case Fault::Kind::failForGood:
      if (disk.calls < disk.fault.at) return SQLITE_OK;
      disk.tripped = true;
      return errorOf(call);
    default:
      if (!now) return SQLITE_OK;
      disk.tripped = true;
      return errorOf(call);
  }
}
int count(Call call) {
  return count(call, [] {});
}

struct File {
  sqlite3_file base;
  std::string* name;
  [[nodiscard]] sqlite3_file* real() { return reinterpret_cast<sqlite3_file*>(this + 1); }
};
File* fileOf(sqlite3_file* file) {
  return reinterpret_cast<File*>(file);
}
sqlite3_file* real(sqlite3_file* file) {
  return fileOf(file)->real();
}

void note(Call call, const std::string& file, std::int64_t offset = 0, std::string bytes = {}) {
  if (disk.steps != nullptr) disk.steps->push_back({call, file, offset, std::move(bytes)});
}

int fileClose(sqlite3_file* file) {
  delete fileOf(file)->name;
  return real(file)->pMethods->xClose(real(file));  // a close that fails is not looked at by SQLite
}
int fileRead(sqlite3_file* file, void* to, int size, sqlite3_int64 offset) {
  if (const int rc = count(Call::read); rc != SQLITE_OK) return rc;
  return real(file)->pMethods->xRead(real(file), to, size, offset);
}
int fileWrite(sqlite3_file* file, const void* from, int size, sqlite3_int64 offset) {
  const auto half = [&] { real(file)->pMethods->xWrite(real(file), from, size / 2, offset); };
  if (const int rc = count(Call::write, half); rc != SQLITE_OK) return rc;
  if (disk.fault.kind == Fault::Kind::full && static_cast<std::uint64_t>(offset + size) > disk.fault.at) {
    disk.tripped = true;
    return SQLITE_FULL;
  }
  note(Call::write, *fileOf(file)->name, offset,
       {static_cast<const char*>(from), static_cast<std::size_t>(size)});
  return real(file)->pMethods->xWrite(real(file), from, size, offset);
}
int fileTruncate(sqlite3_file* file, sqlite3_int64 size) {
  if (const int rc = count(Call::truncate); rc != SQLITE_OK) return rc;
  note(Call::truncate, *fileOf(file)->name, size);
  return real(file)->pMethods->xTruncate(real(file), size);
}
int fileSync(sqlite3_file* file, int flags) {
  if (const int rc = count(Call::sync); rc != SQLITE_OK) return rc;
  note(Call::sync, *fileOf(file)->name);
  return real(file)->pMethods->xSync(real(file), flags);
}
int fileSize(sqlite3_file* file, sqlite3_int64* size) {
  if (const int rc = count(Call::size); rc != SQLITE_OK) return rc;
  return real(file)->pMethods->xFileSize(real(file), size);
}
int fileLock(sqlite3_file* file, int level) {
  if (const int rc = count(Call::lock); rc != SQLITE_OK) return rc;
  return real(file)->pMethods->xLock(real(file), level);
}
int fileUnlock(sqlite3_file* file, int level) {
  return real(file)->pMethods->xUnlock(real(file), level);
}
int fileReserved(sqlite3_file* file, int* held) {
  return real(file)->pMethods->xCheckReservedLock(real(file), held);
}
int fileControl(sqlite3_file* file, int op, void* arg) {
  return real(file)->pMethods->xFileControl(real(file), op, arg);
}
int sectorSize(sqlite3_file* file) {
  return real(file)->pMethods->xSectorSize(real(file));
}
// Nothing that a disk may promise: SQLite takes every precaution.
int characteristics(sqlite3_file*) {
  return 0;
}

const sqlite3_io_methods kMethods = {1,           fileClose,  fileRead,        fileWrite,  fileTruncate,
                                     fileSync,    fileSize,   fileLock,        fileUnlock, fileReserved,
                                     fileControl, sectorSize, characteristics, nullptr,    nullptr,
                                     nullptr,     nullptr,    nullptr,         nullptr};

sqlite3_vfs* realVfs() {
  static sqlite3_vfs* const vfs = sqlite3_vfs_find(nullptr);
  return vfs;
}

int vfsOpen(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* outFlags) {
  file->pMethods = nullptr;
  if (const int rc = count(Call::open); rc != SQLITE_OK) return rc;
  const int rc = realVfs()->xOpen(realVfs(), name, fileOf(file)->real(), flags, outFlags);
  if (fileOf(file)->real()->pMethods == nullptr) return rc;
  file->pMethods = &kMethods;
  fileOf(file)->name = new std::string(name == nullptr ? "" : name);
  return rc;
}
int vfsDelete(sqlite3_vfs*, const char* name, int syncDirectory) {
  if (const int rc = count(Call::remove); rc != SQLITE_OK) return rc;
  note(Call::remove, name);
  return realVfs()->xDelete(realVfs(), name, syncDirectory);
}

}  // namespace

const char* faultVfs() {
  static const bool registered = [] {
    static sqlite3_vfs vfs = *realVfs();
    vfs.zName = "fault";
    vfs.szOsFile = static_cast<int>(sizeof(File)) + realVfs()->szOsFile;
    vfs.xOpen = vfsOpen;
    vfs.xDelete = vfsDelete;
    return sqlite3_vfs_register(&vfs, 0) == SQLITE_OK;
  }();
  return registered ? "fault" : "";
}

void arm(const Fault& fault) {
  disk = {fault, 0, false, disk.steps};
}
std::uint64_t callsSinceArmed() {
  return disk.calls;
}
bool tripped() {
  return disk.tripped;
}
void record(std::vector<DiskStep>* steps) {
  disk.steps = steps;
}

}  // namespace ductwright::store::testing
