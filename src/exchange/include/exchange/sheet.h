#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "fleet/timestamp.h"
#include "quantity/result.h"

// Tables on their way out. Text never starts a formula; numbers are written as numbers, with the unit in the header.
namespace ductwright::exchange {

enum class ColumnKind : std::uint8_t { text, number, date, time };

struct SheetColumn {
  std::string header;
  std::string unit = {};                // written behind the header as " [cfm]"
  ColumnKind kind = ColumnKind::text;
  int decimals = -1;                    // shown in a workbook; -1: as many as needed. CSV has full precision.
};

// Empty, text, a number (in the column's unit), a day, a moment.
using SheetValue = std::variant<std::monostate, std::string, double, fleet::Day, fleet::Timestamp>;
using SheetRow = std::vector<SheetValue>;

struct Sheet {
  std::string name;
  std::vector<SheetColumn> columns;
  std::vector<SheetRow> rows;
};

// Where the rows are too many to hold: `next` fills the row and returns true, or returns false at the end.
struct SheetStream {
  std::string name;
  std::vector<SheetColumn> columns;
  std::function<bool(SheetRow&)> next;
};

// RFC 4180: UTF-8, comma, CR LF, a header row. ISO 8601 dates. Text that begins with = + - @, tab or a line end is
// prefixed with ', which reading removes.
std::string toCsv(const Sheet&);

// A file is written beside its place and then renamed, so that a failure leaves the old one.
Result<void> writeCsv(const std::filesystem::path&, const Sheet&);
Result<void> writeCsv(const std::filesystem::path&, SheetStream);
// One worksheet each: header frozen and filtered, columns as wide as their text, numbers right-aligned.
Result<void> writeXlsx(const std::filesystem::path&, const std::vector<Sheet>&);
Result<void> writeXlsx(const std::filesystem::path&, SheetStream);

}  // namespace ductwright::exchange
