#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "exchange/table.h"

namespace ductwright::exchange {

// Limits that no honest table reaches.
inline constexpr std::size_t kMostBytes = std::size_t{1} << 30;
inline constexpr std::size_t kMostColumns = 1'024;
inline constexpr std::size_t kMostCells = 60'000'000;
inline constexpr std::size_t kLongestCell = std::size_t{1} << 20;

struct Table::Content {
  struct Cell {
    std::uint32_t offset = 0;  // in `text`
    std::uint32_t length : 24 = 0;
    std::uint32_t kind : 7 = 0;
    std::uint32_t formula : 1 = 0;
  };
  struct Row {
    std::uint32_t firstCell = 0;
    std::uint32_t place = 0;
  };

  std::string text;
  std::vector<Cell> cells;
  std::vector<Row> rows;
  std::size_t widest = 0;
  char delimiter = 0;
  Encoding encoding = Encoding::utf8;
  std::string sheet;
  std::vector<std::string> sheets;
  Problems problems;

  [[nodiscard]] std::size_t width(std::size_t row) const {
    const std::size_t end = row + 1 < rows.size() ? rows[row + 1].firstCell : cells.size();
    return end - rows[row].firstCell;
  }
  [[nodiscard]] const Cell* cell(std::size_t row, std::size_t column) const {
    return column < width(row) ? &cells[rows[row].firstCell + column] : nullptr;
  }
  [[nodiscard]] std::string_view view(const Cell& c) const { return {text.data() + c.offset, c.length}; }
};
static_assert(sizeof(Table::Content::Cell) == 8);

}  // namespace ductwright::exchange
