#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <stop_token>
#include <string>
#include <string_view>
#include <vector>

#include "exchange/problem.h"
#include "quantity/result.h"

namespace ductwright::exchange {

enum class Encoding : std::uint8_t { utf8, utf8Marked, utf16Little, utf16Big, windows1252 };
enum class CellKind : std::uint8_t {
  text,     // as written; what it means is for the reader of the table
  number,   // a typed number of a workbook, decimals after a point
  date,     // ISO 8601: "2026-03-04", "2026-03-04T10:15:00", "10:15:00"
  boolean,  // "1" or "0"
  error,    // "#REF!"
};

// Long work can be watched and stopped: `progress` is called with 0 to 1, on the worker's thread.
struct Job {
  std::stop_token stop;
  std::function<void(double share)> progress;
};

// A CSV file or one sheet of a workbook as plain cells. Rows without any text are left out but counted, so
// `place` gives the row that a spreadsheet would show. Immutable and cheap to copy.
class Table {
 public:
  [[nodiscard]] std::size_t rows() const;
  [[nodiscard]] std::size_t columns() const;  // of the widest row
  // The cell's text without the guard of a formula; empty beyond the end of a short row.
  [[nodiscard]] std::string_view text(std::size_t row, std::size_t column) const;
  [[nodiscard]] CellKind kind(std::size_t row, std::size_t column) const;
  [[nodiscard]] bool isFormula(std::size_t row, std::size_t column) const;
  [[nodiscard]] std::uint32_t place(std::size_t row) const;
  [[nodiscard]] std::size_t width(std::size_t row) const;

  // What was recognised, for the preview: "CSV, UTF-8, semicolon" or "XLSX, sheet “Level 2”".
  [[nodiscard]] std::string description() const;
  [[nodiscard]] char delimiter() const;  // ',', ';' or '\t'; 0 for a workbook
  [[nodiscard]] Encoding encoding() const;
  [[nodiscard]] const std::string& sheet() const;
  [[nodiscard]] const std::vector<std::string>& sheets() const;  // all of the workbook
  // Broken quotes, NUL characters, a converted encoding, merged cells, …
  [[nodiscard]] const Problems& problems() const;

  struct Content;  // private to this folder
  explicit Table(std::shared_ptr<const Content> content) : m_content(std::move(content)) {}

 private:
  std::shared_ptr<const Content> m_content;
};

// What the person chose instead of what would be recognised.
struct TableChoice {
  std::optional<char> delimiter;  // ',', ';' or '\t'
  std::string sheet;              // empty: the first one that has any cells
};

// Reads a CSV or XLSX file, told apart by content, not by name. Fails, with a sentence that says what to do, on a
// file that is neither, that is larger than 1 GiB, or that was made to exhaust memory.
Result<Table> readTable(const std::filesystem::path& file, const TableChoice& = {}, const Job& = {});
// The same from memory.
Result<Table> readTable(std::string bytes, const TableChoice& = {}, const Job& = {});
// Text that was copied from a spreadsheet: cells separated by tabs.
Table readPasted(std::string_view text);

}  // namespace ductwright::exchange
