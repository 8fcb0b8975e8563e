#include "written_number.h"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace ductwright::exchange {
namespace {

bool isDigit(char c) { return c >= '0' && c <= '9'; }

enum class Separator : std::uint8_t { none, point, comma, blank };

struct Found {
  Separator kind = Separator::none;
  std::size_t length = 0;
};

// The separator at the beginning of `text`. A blank or apostrophe separates only before exactly three digits.
Found separatorAt(std::string_view text) {
  if (text.front() == '.') return {Separator::point, 1};
  if (text.front() == ',') return {Separator::comma, 1};
  std::size_t length = 0;
  for (const std::string_view blank : {" ", "'", "\xC2\xA0", "\xE2\x80\xAF", "\xE2\x80\x99", "\xE2\x80\x89"})
    if (text.starts_with(blank)) length = blank.size();
  if (length == 0) return {};
  const auto digits = [&](std::size_t i) { return length + i < text.size() && isDigit(text[length + i]); };
  return digits(0) && digits(1) && digits(2) && !digits(3) ? Found{Separator::blank, length} : Found{};
}

struct Separators {
  struct At {
    Separator kind;
    std::size_t digit;  // digits before it
  };
  std::array<At, 16> list{};
  std::size_t n = 0;

  [[nodiscard]] std::size_t count(Separator kind) const {
    return static_cast<std::size_t>(std::count_if(list.begin(), list.begin() + static_cast<std::ptrdiff_t>(n), [&](At a) { return a.kind == kind; }));
  }
  // All but the last `skip` stand before groups of three, and the first behind one to three digits.
  [[nodiscard]] bool inThrees(std::size_t digits, std::size_t skip) const {
    const std::size_t groups = n - skip;
    const std::size_t end = skip > 0 ? list[groups].digit : digits;
    for (std::size_t i = 0; i < groups; ++i)
      if ((i + 1 < groups ? list[i + 1].digit : end) - list[i].digit != 3 || list[i].kind != list[0].kind) return false;
    return groups == 0 || (list[0].digit >= 1 && list[0].digit <= 3);
  }
};

std::size_t signLength(std::string_view text, bool& negative) {
  negative = text.starts_with('-') || text.starts_with("\xE2\x88\x92");
  if (text.starts_with("\xE2\x88\x92")) return 3;
  return negative || text.starts_with('+') ? 1 : 0;
}

}  // namespace

std::optional<WrittenNumber> WrittenNumber::leading(std::string_view text) {
  WrittenNumber out;
  Separators separators;
  std::size_t i = signLength(text, out.m_negative);
  while (i < text.size()) {
    if (isDigit(text[i])) {
      if (out.m_digits == kMostDigits) return std::nullopt;
      out.m_digit[out.m_digits++] = text[i++];
      continue;
    }
    const Found found = separatorAt(text.substr(i));
    if (found.kind == Separator::none) break;
    const bool digitFollows = i + found.length < text.size() && isDigit(text[i + found.length]);
    if (!digitFollows && !(found.kind == Separator::point && out.m_digits > 0)) break;
    if (separators.n == separators.list.size()) return std::nullopt;
    separators.list[separators.n++] = {found.kind, out.m_digits};
    i += found.length;
    if (!digitFollows) break;
  }
  if (out.m_digits == 0) return std::nullopt;
  if (i + 1 < text.size() && (text[i] == 'e' || text[i] == 'E')) {
    const bool plus = text[i + 1] == '+';
    const auto [end, error] = std::from_chars(text.data() + i + (plus ? 2 : 1), text.data() + text.size(), out.m_exponent);
    if (error == std::errc{}) i = static_cast<std::size_t>(end - text.data());
  }
  out.m_length = i;

  const std::size_t points = separators.count(Separator::point), commas = separators.count(Separator::comma);
  const std::size_t blanks = separators.count(Separator::blank);
  if (points + commas == 0) return separators.inThrees(out.m_digits, 0) ? std::optional(out) : std::nullopt;
  const auto last = separators.list[separators.n - 1];
  const bool mixed = points > 0 && commas > 0;
  if (points + commas > 1 && !mixed) {  // groups of thousands only
    if (blanks > 0 || !separators.inThrees(out.m_digits, 0)) return std::nullopt;
    out.m_mark = commas > 0 ? DecimalMark::point : DecimalMark::comma;
    return out;
  }
  if (last.kind == Separator::blank || separators.count(last.kind) > 1 || (mixed && blanks > 0) ||
      !separators.inThrees(out.m_digits, 1))
    return std::nullopt;
  out.m_hasSplit = true;
  out.m_split = last.digit;
  out.m_commaSplits = last.kind == Separator::comma;
  out.m_mark = out.m_commaSplits ? DecimalMark::comma : DecimalMark::point;
  if (separators.n == 1 && out.m_digits - last.digit == 3 && last.digit >= 1 && last.digit <= 3 && out.m_digit[0] != '0' &&
      out.m_exponent == 0)
    out.m_mark = DecimalMark::unclear;
  return out;
}

std::optional<double> WrittenNumber::value(bool decimalComma) const {
  if ((m_mark == DecimalMark::comma && !decimalComma) || (m_mark == DecimalMark::point && decimalComma)) return std::nullopt;
  std::array<char, kMostDigits + 24> plain{};
  char* to = plain.data();
  if (m_negative) *to++ = '-';
  const std::size_t split = splits(decimalComma) ? m_split : m_digits;
  to = std::copy_n(m_digit.data(), split, to);
  if (split == 0) *to++ = '0';
  if (split < m_digits) {
    *to++ = '.';
    to = std::copy_n(m_digit.data() + split, m_digits - split, to);
  }
  *to++ = 'e';
  to = std::to_chars(to, plain.data() + plain.size(), m_exponent).ptr;
  double value = 0;
  const auto [end, error] = std::from_chars(plain.data(), to, value);
  if (error != std::errc{} || end != to || !std::isfinite(value)) return std::nullopt;
  return value;
}

}  // namespace ductwright::exchange
