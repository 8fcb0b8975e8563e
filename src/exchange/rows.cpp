#include "rows.h"

#include <algorithm>
#include <utility>

#include "text.h"

namespace ductwright::exchange {

Rows::Rows(const Table& table, const Layout& layout, Problems& problems)
    : m_table(table), m_layout(layout), m_problems(problems) {
  m_problems.add(table.problems());
  m_problems.add(layout.problems);
  for (const Problem& problem : m_problems.list())
    if (problem.weight == Weight::error && problem.row != 0) m_spoilt.insert(problem.row);
}

std::string_view Rows::text(std::size_t row, std::size_t column) const {
  const auto& source = m_layout.places[column].source;
  return source ? trimmed(m_table.text(row, *source)) : std::string_view{};
}

CellInput Rows::cell(std::size_t row, std::size_t column) const {
  const Layout::Place& place = m_layout.places[column];
  return {text(row, column), place.source ? m_table.kind(row, *place.source) : CellKind::text, place.unit, place.unitFromHeader,
          m_layout.decimalComma, m_layout.decimalUnclear};
}

void Rows::tell(std::size_t row, std::size_t column, Fault fault) {
  const Layout::Place& place = m_layout.places[column];
  const std::string_view found = text(row, column);
  m_problems.add({fault.weight, m_table.place(row), place.source ? static_cast<std::uint32_t>(*place.source + 1) : 0,
                  place.source ? place.header : std::string(columnsOf(m_layout.kind)[column].name),
                  std::string(found.substr(0, std::min<std::size_t>(found.size(), 120))), std::move(fault.what), std::move(fault.todo)});
}

bool Rows::require(std::size_t row, std::size_t column) {
  return !text(row, column).empty() || missing(row, column);
}

bool Rows::missing(std::size_t row, std::size_t column) {
  tell(row, column, {Weight::error, "the cell is empty", "fill it in"});
  return false;
}

}  // namespace ductwright::exchange
