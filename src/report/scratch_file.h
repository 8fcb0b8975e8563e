#pragma once

#include <filesystem>
#include <string>
#include <system_error>

namespace ductwright::report {

// A file beside its final place, gone at the end of the scope unless it was kept.
class ScratchFile {
 public:
  ScratchFile(const std::string& path, const std::string& ending) : m_path(path + ending) {}
  ~ScratchFile() {
    std::error_code ignored;
    std::filesystem::remove(m_path, ignored);
  }
  ScratchFile(const ScratchFile&) = delete;
  ScratchFile& operator=(const ScratchFile&) = delete;

  [[nodiscard]] const std::string& path() const { return m_path; }

 private:
  std::string m_path;
};

}  // namespace ductwright::report
