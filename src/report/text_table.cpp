#include "text_table.h"

#include <algorithm>

namespace ductwright::report {

std::size_t characters(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

std::string TextTable::text() const {
  std::vector<std::size_t> widths;
  for (const Head& head : m_heads) widths.push_back(characters(head.title));
  for (const auto& row : m_rows) {
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], characters(row[i]));
  }
  std::string out;
  const auto line = [&](auto&& cellAt) {
    std::string made;
    for (std::size_t i = 0; i < m_heads.size(); ++i) {
      const std::string& cell = cellAt(i);
      const std::string pad(widths[i] - characters(cell), ' ');
      if (i > 0) made += "  ";
      made += m_heads[i].side == Side::right ? pad + cell : cell + pad;
    }
    made.erase(made.find_last_not_of(' ') + 1);
    out += made + "\n";
  };
  const std::string none;
  line([&](std::size_t i) -> const std::string& { return m_heads[i].title; });
  for (const auto& row : m_rows) line([&](std::size_t i) -> const std::string& { return i < row.size() ? row[i] : none; });
  return out;
}

}  // namespace ductwright::report
