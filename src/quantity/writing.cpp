#include <array>
#include <charconv>
#include <cmath>

#include "quantity/unit.h"

namespace ductwright::quantity {
namespace {

// The fewest digits that give the same number, without an exponent where it is of a size that people write.
std::string shortest(double value) {
  if (value == 0) return "0";
  const double size = std::abs(value);
  const auto format = size >= 1e-6 && size < 1e15 ? std::chars_format::fixed : std::chars_format::general;
  std::array<char, 64> buffer{};
  const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, format);
  return {buffer.data(), error == std::errc{} ? end : buffer.data()};
}

// A value rounded to so many significant digits.
double rounded(double value, int digits) {
  std::array<char, 64> buffer{};
  const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                          std::chars_format::scientific, digits - 1);
  double out = value;
  if (error == std::errc{}) std::from_chars(buffer.data(), end, out);
  return out;
}

}  // namespace

std::string writeNumber(double si, const Unit& unit) {
  std::array<char, 400> buffer{};
  const double value = fromSi(si, unit);
  const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                          std::chars_format::fixed, unit.decimals);
  std::string out(buffer.data(), error == std::errc{} ? end : buffer.data());
  if (out.starts_with('-') && out.find_first_not_of("-0.") == std::string::npos) out.erase(0, 1);
  return out;
}

std::string write(double si, const Unit& unit) {
  if (unit.dimension == Dimension::flag) return si != 0 ? "yes" : "no";
  std::string out = writeNumber(si, unit);
  if (!unit.symbol.empty()) (out += ' ') += unit.symbol;
  return out;
}

std::string write(double si, Dimension dimension, System system) {
  return write(si, unitFor(dimension, system));
}

std::string writeExact(double si, const Unit& unit) {
  const double value = fromSi(si, unit);
  for (int digits = 6; digits <= 16; ++digits) {
    const double back = rounded(value, digits);
    if (toSi(back, unit) == si) return shortest(back);
  }
  // The way there and back may be off by a last binary digit: a neighbour is the number that was typed.
  double above = value;
  double below = value;
  for (int step = 0; step < 4; ++step) {
    if (toSi(above, unit) == si) return shortest(above);
    if (toSi(below, unit) == si) return shortest(below);
    above = std::nextafter(above, HUGE_VAL);
    below = std::nextafter(below, -HUGE_VAL);
  }
  return shortest(value);
}

}  // namespace ductwright::quantity
