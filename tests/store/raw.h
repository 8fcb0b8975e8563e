#pragma once

#include <gtest/gtest.h>
#include <sqlite3.h>

#include <filesystem>
#include <string>
#include <vector>

// The file as any other program may treat it.
namespace ductwright::store::testing {

class Raw {
 public:
  explicit Raw(const std::filesystem::path& path) { EXPECT_EQ(sqlite3_open(path.c_str(), &m_db), SQLITE_OK); }
  ~Raw() { sqlite3_close(m_db); }
  Raw(const Raw&) = delete;
  Raw& operator=(const Raw&) = delete;

  bool execute(const std::string& sql) {
    return sqlite3_exec(m_db, sql.c_str(), nullptr, nullptr, nullptr) == SQLITE_OK;
  }
  int changes() { return sqlite3_changes(m_db); }

  std::vector<std::vector<std::string>> rows(const std::string& sql) {
    std::vector<std::vector<std::string>> out;
    sqlite3_stmt* s = nullptr;
    EXPECT_EQ(sqlite3_prepare_v2(m_db, sql.c_str(), -1, &s, nullptr), SQLITE_OK) << sql;
    while (sqlite3_step(s) == SQLITE_ROW) {
      auto& row = out.emplace_back();
      for (int i = 0; i < sqlite3_column_count(s); ++i) {
        const auto* text = reinterpret_cast<const char*>(sqlite3_column_text(s, i));
        row.emplace_back(text == nullptr ? "" : text);
      }
    }
    sqlite3_finalize(s);
    return out;
  }

 private:
  sqlite3* m_db = nullptr;
};

std::string inline bytesOf(const std::filesystem::path& path) {
  std::FILE* file = std::fopen(path.c_str(), "rb");
  std::string out;
  if (file == nullptr) return out;
  char buffer[65536];
  for (std::size_t n; (n = std::fread(buffer, 1, sizeof buffer, file)) > 0;) out.append(buffer, n);
  std::fclose(file);
  return out;
}

void inline writeBytes(const std::filesystem::path& path, const std::string& bytes) {
  std::FILE* file = std::fopen(path.c_str(), "wb");
  ASSERT_NE(file, nullptr);
  ASSERT_EQ(std::fwrite(bytes.data(), 1, bytes.size(), file), bytes.size());
  std::fclose(file);
}

}  // namespace ductwright::store::testing
