#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <unordered_set>

#include "cell.h"
#include "exchange/mapping.h"
#include "exchange/problem.h"
#include "exchange/table.h"

namespace ductwright::exchange {

// The rows of a table by our columns, and where their problems are noted. A problem that the table or the layout already
// found in a row keeps that row out.
class Rows {
 public:
  Rows(const Table& table, const Layout& layout, Problems& problems);

  [[nodiscard]] std::size_t first() const { return m_layout.firstRow; }
  // One past the last; nothing is read where a problem concerns the whole file.
  [[nodiscard]] std::size_t end() const { return m_problems.blocked() ? m_layout.firstRow : m_table.rows(); }
  [[nodiscard]] std::uint32_t place(std::size_t row) const { return m_table.place(row); }
  [[nodiscard]] bool isSpoilt(std::size_t row) const { return !m_spoilt.empty() && m_spoilt.contains(m_table.place(row)); }
  [[nodiscard]] bool has(std::size_t column) const { return m_layout.places[column].source.has_value(); }
  [[nodiscard]] std::string_view text(std::size_t row, std::size_t column) const;
  [[nodiscard]] CellInput cell(std::size_t row, std::size_t column) const;
  [[nodiscard]] const Layout::Place& layout(std::size_t column) const { return m_layout.places[column]; }
  [[nodiscard]] const Layout& layout() const { return m_layout; }

  void tell(std::size_t row, std::size_t column, Fault fault);
  // "is empty" for a required cell without text; true where there is something.
  bool require(std::size_t row, std::size_t column);
  bool missing(std::size_t row, std::size_t column);  // tells that it is; false

 private:
  const Table& m_table;
  const Layout& m_layout;
  Problems& m_problems;
  std::unordered_set<std::uint32_t> m_spoilt;
};

}  // namespace ductwright::exchange
