#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "exchange/columns.h"
#include "exchange/problem.h"
#include "exchange/table.h"
#include "quantity/result.h"
#include "quantity/unit.h"

namespace ductwright::exchange {

enum class Match : std::uint8_t {
  byHand,
  exact,    // our own header
  synonym,  // a known other word for it
  likely,   // looks like it: offered, not used until a person says so
  none,     // nothing like it, or set aside by hand
};

// What one header of a file means.
struct MappedHeader {
  std::string header;  // as written, with its unit
  std::string column;  // name of our column; empty: not used
  std::string unit;    // of bare numbers below it; empty: the project's system
  Match match = Match::none;
  std::size_t source = 0;  // column of the table, from 0
};

enum class Decimal : std::uint8_t { recognise, point, comma };

// How the columns of a file become ours. Kept as text, it serves the next file with the same headers.
struct Mapping {
  TableKind kind = TableKind::schedule;
  std::size_t headerRow = 0;  // row of the table, from 0
  Decimal decimal = Decimal::recognise;
  std::vector<MappedHeader> headers;  // in the order of the file

  // Puts `column` (empty: nothing) on the header at `source`, by hand; another header that had it loses it.
  void set(std::size_t source, std::string_view column, std::string_view unit = {});
  [[nodiscard]] std::string text() const;
};

// The mapping that the headers of a table suggest. The header row is looked for in the first 20 rows.
Mapping suggestMapping(TableKind kind, const Table& table);
// A kept mapping applied to the headers of a table; headers that it does not name are suggested.
Mapping applyMapping(const Mapping& kept, const Table& table);
// Reads `Mapping::text`.
Result<Mapping> readMapping(std::string_view text);

// A mapping made ready for reading: where each of our columns is, and what its bare numbers mean.
struct Layout {
  struct Place {
    std::optional<std::size_t> source;        // column of the table
    std::string header;                       // as written
    const quantity::Unit* unit = nullptr;     // from the header, else by the project's system; null for text
    bool unitFromHeader = false;
    std::string unitText;                     // where it cannot be known by column: the readings' `value`
  };
  TableKind kind = TableKind::schedule;
  quantity::System system = quantity::System::ip;
  std::size_t firstRow = 1;      // of the data
  bool decimalComma = false;
  bool decimalUnclear = false;   // "1,250" may be 1250 or 1.25: such cells are told, not guessed
  std::vector<Place> places;     // one for each of columnsOf(kind)
  Problems problems;             // missing or doubled columns, unknown units, unused headers
};

Layout layoutOf(const Mapping& mapping, const Table& table, quantity::System system);

// How a file was understood, for the preview: "CSV, UTF-8, semicolon, decimal comma".
std::string describe(const Table& table, const Layout& layout);

}  // namespace ductwright::exchange
