#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>

#include "exchange/problem.h"
#include "exchange/table.h"
#include "quantity/unit.h"

// One cell read as a quantity, a word or a flag. A fault is what `Problem` says, without its place.
namespace ductwright::exchange {

struct Fault {
  Weight weight = Weight::error;
  std::string what, todo;
};
template <class T>
using Read = tl::expected<T, Fault>;

inline tl::unexpected<Fault> fault(std::string what, std::string todo) {
  return tl::make_unexpected(Fault{Weight::error, std::move(what), std::move(todo)});
}

// A cell, trimmed, and how its numbers are to be understood.
struct CellInput {
  std::string_view text;
  CellKind kind = CellKind::text;
  const quantity::Unit* unit = nullptr;  // of a bare number
  bool unitFromHeader = false;
  bool decimalComma = false;
  bool decimalUnclear = false;
};

struct Measured {
  double si = 0;
  const quantity::Unit* unit = nullptr;
  double number = 0;  // as written, in that unit
  int decimals = 0;   // as written
  bool unitInCell = false;
};

// "450", "450 cfm", "75 %", for a time also "00:02:30".
Read<Measured> readMeasured(const CellInput& cell, quantity::Dimension dimension);
Read<double> readBareNumber(const CellInput& cell);
Read<bool> readYesNo(const CellInput& cell);

// Looks at a value that was read: a warning where it is negative or beyond what the trade ever sees (common practice,
// no source).
struct SaneRange {
  double low, high;  // SI
};
SaneRange saneRange(quantity::Dimension dimension);
std::optional<Fault> doubtOf(double si, const quantity::Unit& unit, SaneRange range);

// "use cfm, L/s, m³/s or m³/h"
std::string unitsToUse(quantity::Dimension dimension);
// "write it as 450 or 450 cfm"
std::string howToWrite(quantity::Dimension dimension);

}  // namespace ductwright::exchange
