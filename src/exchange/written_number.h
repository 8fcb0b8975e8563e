#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

namespace ductwright::exchange {

// What a written number says about the decimal mark of whoever wrote it.
enum class DecimalMark : std::uint8_t {
  none,     // "450", "1 250"
  point,    // "12.5", "0.125", "1,250.5", "1,250,000"
  comma,    // "12,5", "0,125", "1.250,5", "1.250.000"
  unclear,  // "1,250" or "1.250": a decimal mark or a group of thousands
};

// The number at the beginning of a text, before it is known whether its decimals follow a point or a comma. Thousands
// may be grouped in threes by the other mark, by blanks or by apostrophes; any other grouping is no number.
class WrittenNumber {
 public:
  static std::optional<WrittenNumber> leading(std::string_view text);

  [[nodiscard]] std::size_t length() const { return m_length; }
  [[nodiscard]] DecimalMark mark() const { return m_mark; }
  // Nothing when it cannot be read with that mark, or is not finite.
  [[nodiscard]] std::optional<double> value(bool decimalComma) const;
  // Digits behind the decimal mark.
  [[nodiscard]] int decimals(bool decimalComma) const { return splits(decimalComma) ? static_cast<int>(m_digits - m_split) : 0; }

 private:
  [[nodiscard]] bool splits(bool decimalComma) const {
    return m_hasSplit && (m_mark != DecimalMark::unclear || m_commaSplits == decimalComma);
  }
  static constexpr std::size_t kMostDigits = 40;
  std::array<char, kMostDigits> m_digit{};
  std::size_t m_digits = 0, m_split = 0, m_length = 0;
  int m_exponent = 0;
  bool m_negative = false, m_hasSplit = false, m_commaSplits = false;
  DecimalMark m_mark = DecimalMark::none;
};

}  // namespace ductwright::exchange
