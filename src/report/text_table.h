#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace ductwright::report {

// Columns for a terminal: as wide as their widest text, numbers to the right.
class TextTable {
 public:
  enum class Side : bool { left, right };
  struct Head {
    std::string title;
    Side side = Side::left;
  };

  explicit TextTable(std::vector<Head> heads) : m_heads(std::move(heads)) {}
  void add(std::vector<std::string> row) { m_rows.push_back(std::move(row)); }
  [[nodiscard]] std::string text() const;

 private:
  std::vector<Head> m_heads;
  std::vector<std::vector<std::string>> m_rows;
};

// Characters of UTF-8 text.
std::size_t characters(std::string_view text);

}  // namespace ductwright::report
