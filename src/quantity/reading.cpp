#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "quantity/unit.h"

namespace ductwright::quantity {
namespace {

constexpr std::string_view kMinus = "\u2212";  // as typesetters write it

bool digit(char c) {
  return c >= '0' && c <= '9';
}

// Whether a byte is, or is part of, something that may be a blank.
bool blankish(char c) {
  return c <= ' ' || static_cast<unsigned char>(c) >= 0x80;
}

std::string_view trimmed(std::string_view text) {
  for (bool cut = true; cut && !text.empty() && (blankish(text.front()) || blankish(text.back()));) {
    cut = false;
    for (const std::string_view blank : {" ", "\t", "\r", "\n", "\u00A0", "\u202F", "\uFEFF"}) {
      if (text.starts_with(blank)) text.remove_prefix(blank.size()), cut = true;
      if (text.ends_with(blank)) text.remove_suffix(blank.size()), cut = true;
    }
  }
  return text;
}

// Reads the number at the front of a text, mark by mark.
class NumberScan {
 public:
  NumberScan(std::string_view text, bool decimalComma)
      : m_text(text), m_decimal(decimalComma ? ',' : '.'), m_group(decimalComma ? '.' : ',') {
    sign();
    whole();
    decimals();
    exponent();
    if (!m_clear || m_size > m_plain.size()) return;
    double value = 0;
    const char* const last = m_plain.data() + m_size;
    const auto [end, error] = std::from_chars(m_plain.data(), last, value);
    if (error == std::errc{} && end == last && std::isfinite(value)) m_value = value;
  }

  [[nodiscard]] std::size_t length() const { return m_at; }
  [[nodiscard]] std::optional<double> value() const { return m_value; }
  // Whether its thousands are where thousands stand.
  [[nodiscard]] bool clear() const { return m_clear; }

 private:
  [[nodiscard]] bool at(std::size_t i, char c) const { return i < m_text.size() && m_text[i] == c; }
  [[nodiscard]] bool digitAt(std::size_t i) const { return i < m_text.size() && digit(m_text[i]); }

  void keep(char c) {
    if (m_size < m_plain.size()) m_plain[m_size] = c;
    m_size = std::min(m_size + 1, m_plain.size() + 1);
  }
  void keepDigits() {
    while (digitAt(m_at)) keep(m_text[m_at++]);
  }

  void sign() {
    if (m_text.starts_with(kMinus)) {
      keep('-');
      m_at = kMinus.size();
    } else if (at(0, '-') || at(0, '+')) {
      if (m_text[0] == '-') keep('-');
      m_at = 1;
    }
  }

  void whole() {
    const std::size_t first = m_at;
    keepDigits();
    std::size_t run = m_at - first;
    if (!at(m_at, m_group) || run == 0 || !digitAt(m_at + 1)) return;
    // "0,500" and "1234,567" are decimals with the wrong mark, not thousands.
    m_clear = run <= 3 && m_text[first] != '0';
    while (at(m_at, m_group) && digitAt(m_at + 1)) {
      const std::size_t group = ++m_at;
      keepDigits();
      run = m_at - group;
      m_clear = m_clear && run == 3;
    }
  }

  void decimals() {
    const bool before = m_at > 0 && digit(m_text[m_at - 1]);
    if (!at(m_at, m_decimal) || (!before && !digitAt(m_at + 1))) return;
    keep('.');
    ++m_at;
    keepDigits();
  }

  void exponent() {
    if (m_at == 0 || !(at(m_at, 'e') || at(m_at, 'E'))) return;
    std::size_t digits = m_at + 1;
    const bool negative = at(digits, '-');
    if (negative || at(digits, '+')) ++digits;
    if (!digitAt(digits)) return;
    keep('e');
    if (negative) keep('-');
    m_at = digits;
    keepDigits();
  }

  std::string_view m_text;
  char m_decimal, m_group;
  std::array<char, 64> m_plain{};
  std::size_t m_size = 0, m_at = 0;
  bool m_clear = true;
  std::optional<double> m_value;
};

// A text between quotation marks, shortened where it is long.
std::string quoted(std::string_view text) {
  constexpr std::size_t most = 40;
  if (text.size() <= most) return "“" + std::string(text) + "”";
  std::size_t end = most;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;
  return "“" + std::string(text.substr(0, end)) + "…”";
}

std::string understood(Dimension dimension) {
  std::string out;
  std::string_view last;
  for (const Unit& unit : unitsOf(dimension)) {
    if (unit.symbol.empty() || unit.symbol == last) continue;
    if (!out.empty()) out += ", ";
    out += last = unit.symbol;
  }
  return out.empty() ? "a bare number" : out;
}

Result<Typed> readFlag(std::string_view text, const Unit& unit) {
  std::string word(text.substr(0, 8));
  std::transform(word.begin(), word.end(), word.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  for (const auto* yes : {"yes", "y", "true", "on"})
    if (word == yes) return Typed{1, &unit, false};
  for (const auto* no : {"no", "n", "false", "off"})
    if (word == no) return Typed{0, &unit, false};
  const auto number = readNumber(text);
  if (number == 0.0 || number == 1.0) return Typed{*number, &unit, false};
  return failure(quoted(text) + " is neither yes nor no: write 1 or 0");
}

std::string notANumber(std::string_view text, const NumberScan& scan, bool decimalComma) {
  if (scan.length() == 0 || scan.clear()) return quoted(text) + " is not a number";
  return quoted(text) + " could be read in two ways: write decimals with “" + (decimalComma ? "," : ".") +
         "” and thousands in threes, or without a mark";
}

std::string notAUnit(std::string_view text, Dimension dimension) {
  return quoted(text) + " is not a unit of " + std::string(name(dimension)) + ": use " +
         understood(dimension);
}

}  // namespace

std::optional<double> readNumber(std::string_view text, bool decimalComma) {
  text = trimmed(text);
  const NumberScan scan(text, decimalComma);
  return scan.length() == text.size() ? scan.value() : std::nullopt;
}

Result<Typed> readQuantity(std::string_view text, Dimension dimension, const Unit& otherwise,
                           bool decimalComma) {
  text = trimmed(text);
  if (text.empty()) return failure("nothing was typed: give a number");
  if (dimension == Dimension::flag) return readFlag(text, otherwise);
  const NumberScan scan(text, decimalComma);
  const auto value = scan.value();
  if (!value) return failure(notANumber(text, scan, decimalComma));
  const std::string_view rest = trimmed(text.substr(scan.length()));
  if (!rest.empty() && (digit(rest[0]) || rest[0] == '.' || rest[0] == ','))
    return failure(quoted(text) + " is not a number");
  const Unit* unit = rest.empty() ? &otherwise : findUnit(dimension, rest);
  if (unit == nullptr) return failure(notAUnit(rest, dimension));
  if (dimension == Dimension::count && (*value != std::floor(*value) || std::abs(*value) > 9e15))
    return failure(quoted(text) + " is not a whole number");
  const double si = toSi(*value, *unit);
  if (!std::isfinite(si)) return failure(quoted(text) + " is too large to be a number");
  return Typed{si, unit, !rest.empty()};
}

Result<Typed> readQuantity(std::string_view text, Dimension dimension, System system) {
  return readQuantity(text, dimension, unitFor(dimension, system));
}

}  // namespace ductwright::quantity
