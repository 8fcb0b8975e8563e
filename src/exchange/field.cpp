#include "field.h"

#include <optional>

namespace ductwright::exchange {

std::string exactNumber(double value) {
  std::array<char, 40> buffer{};
  const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
  return {buffer.data(), error == std::errc{} ? end : buffer.data()};
}

namespace {

constexpr int kWorkbookDigits = 16;  // that a workbook keeps of a number

// The number of at most `digits` digits that gives `si` again in that unit.
std::optional<double> shortNumber(double si, const quantity::Unit& unit, int digits) {
  std::array<char, 40> buffer{};
  for (int precision = 6; precision <= digits; precision += precision < 12 ? 3 : 1) {
    const char* end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), quantity::fromSi(si, unit), std::chars_format::general, precision).ptr;
    double number = 0;
    std::from_chars(buffer.data(), end, number);
    if (quantity::toSi(number, unit) == si) return number;
  }
  return std::nullopt;
}

std::string withUnit(double number, const quantity::Unit& unit) {
  const std::string digits = exactNumber(number);
  return unit.symbol.empty() ? digits : digits + " " + std::string(unit.symbol);
}

}  // namespace

SheetValue fileNumber(double si, const quantity::Unit& header) {
  if (const auto number = shortNumber(si, header, kWorkbookDigits)) return *number;
  for (const quantity::Unit& unit : quantity::unitsOf(header.dimension).first(2))
    if (const auto number = shortNumber(si, unit, 12)) return withUnit(*number, unit);
  if (const auto number = shortNumber(si, header, 17)) return withUnit(*number, header);
  for (const quantity::Unit& unit : quantity::unitsOf(header.dimension))
    if (unit.factor == 1 && unit.offset == 0) return withUnit(si, unit);
  return quantity::fromSi(si, header);
}

SheetValue fileNumber(double value) {
  return fileNumber(value, quantity::unitsOf(quantity::Dimension::number)[0]);
}

}  // namespace ductwright::exchange
