#pragma once

#include <filesystem>
#include <string_view>

#include "quantity/result.h"

namespace ductwright::exchange {

// A file that is written beside its place and put there when it is complete. Left alone, it disappears again.
class FileInPlace {
 public:
  explicit FileInPlace(std::filesystem::path target);
  ~FileInPlace();
  FileInPlace(const FileInPlace&) = delete;
  FileInPlace& operator=(const FileInPlace&) = delete;

  [[nodiscard]] const std::filesystem::path& temporary() const { return m_temporary; }
  Result<void> put();
  [[nodiscard]] tl::unexpected<Failure> failed(std::string_view why) const;

 private:
  std::filesystem::path m_target, m_temporary;
};

}  // namespace ductwright::exchange
