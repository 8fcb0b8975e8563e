#include "field.h"

#include <cmath>

namespace ductwright::exchange {

std::string exactNumber(double value) {
  std::array<char, 40> buffer{};
  const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
  return {buffer.data(), error == std::errc{} ? end : buffer.data()};
}

SheetValue fileNumber(double si, const quantity::Unit& header) {
  const auto exact = [&](double number, const quantity::Unit& unit) { return quantity::toSi(number, unit) == si; };
  const std::string digits = quantity::writeExact(si, header);
  double number = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), number);
  if (exact(number, header)) return number;
  for (const double toward : {-HUGE_VAL, HUGE_VAL}) {
    double near = number;
    for (int i = 0; i < 4; ++i) {
      near = std::nextafter(near, toward);
      if (exact(near, header)) return near;
    }
  }
  for (const quantity::Unit& unit : quantity::unitsOf(header.dimension))
    if (unit.factor == 1 && unit.offset == 0) return exactNumber(si) + " " + std::string(unit.symbol);
  return number;
}

}  // namespace ductwright::exchange
