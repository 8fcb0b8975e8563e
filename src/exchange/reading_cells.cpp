#include "reading_cells.h"

#include <charconv>
#include <cmath>

#include "text.h"

namespace ductwright::exchange {

using quantity::Dimension;
using quantity::Unit;

std::optional<PlainNumber> plainNumber(std::string_view text) {
  const auto isDigit = [](char c) { return c >= '0' && c <= '9'; };
  const std::size_t sign = text.starts_with('-') ? 1 : 0;
  if (text.size() <= sign || !isDigit(text[sign])) return std::nullopt;
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{}) return std::nullopt;
  const auto length = static_cast<std::size_t>(end - text.data());
  if (length < text.size()) {
    const char next = text[length];
    const bool blankGroup = next == ' ' && length + 1 < text.size() && isDigit(text[length + 1]);
    const bool letter = (next >= 'a' && next <= 'z') || (next >= 'A' && next <= 'Z') || next == '%' || next == '"';
    if (blankGroup || (next != ' ' && !letter)) return std::nullopt;
  }
  return PlainNumber{value, trimmed(text.substr(length))};
}

ValueReader::Family& ValueReader::familyOf(Dimension dimension) {
  Family& family = m_families[static_cast<std::size_t>(dimension)];
  if (!family.known) {
    family.known = true;
    const bool unitless = quantity::unitFor(dimension, m_system).symbol.empty();
    family.bare = m_headerUnit.empty() || unitless ? &quantity::unitFor(dimension, m_system) : quantity::findUnit(dimension, m_headerUnit);
  }
  return family;
}

Read<Measured> ValueReader::read(CellInput cell, fleet::ReadingQuantity what) {
  const Dimension dimension = fleet::dimensionOf(what);
  Family& family = familyOf(dimension);
  cell.unit = family.bare;
  if (!cell.decimalComma && !cell.decimalUnclear && dimension != Dimension::flag && dimension != Dimension::count) {
    if (const auto plain = plainNumber(cell.text)) {
      const bool bare = plain->rest.empty();
      const Unit* unit = bare ? family.bare
                              : family.units.of(plain->rest, [&](std::string_view t) { return quantity::findUnit(dimension, t); });
      const double si = unit ? quantity::toSi(plain->value, *unit) : HUGE_VAL;
      if (unit && std::isfinite(si)) return Measured{si, unit, plain->value, 0, !bare};
    }
  }
  const auto read = readMeasured(cell, dimension);
  if (!read && cell.unit == nullptr && readBareNumber(cell))
    return fault(cited(m_headerUnit) + " in the header is not a unit of " + std::string(quantity::name(dimension)),
                 "write the unit in the cell");
  return read;
}

}  // namespace ductwright::exchange
