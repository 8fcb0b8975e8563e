#include "file_in_place.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <string>
#include <system_error>
#include <utility>

namespace ductwright::exchange {
namespace {

bool flushed(const std::filesystem::path& path) {
  const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
  if (file < 0) return false;
  const bool done = ::fsync(file) == 0;
  ::close(file);
  return done;
}

}  // namespace

FileInPlace::FileInPlace(std::filesystem::path target) : m_target(std::move(target)), m_temporary(m_target) {
  m_temporary += "." + std::to_string(::getpid()) + ".part";
}

FileInPlace::~FileInPlace() {
  std::error_code ignored;
  std::filesystem::remove(m_temporary, ignored);
}

Result<void> FileInPlace::put() {
  if (!flushed(m_temporary)) return failed(std::strerror(errno));
  std::error_code error;
  std::filesystem::rename(m_temporary, m_target, error);
  if (error) return failed(error.message());
  return {};
}

tl::unexpected<Failure> FileInPlace::failed(std::string_view why) const {
  return failure("“" + m_target.string() + "” could not be written (" + std::string(why) + "): choose another place or free some space.");
}

}  // namespace ductwright::exchange
