#pragma once

#include <string>
#include <string_view>

namespace ductwright::exchange {

// The sign put before text that a spreadsheet would take for a formula.
inline constexpr char kGuard = '\'';

// Text that begins with = + - @, a tab or a line end, after any number of guards.
constexpr bool startsLikeFormula(std::string_view text) {
  while (!text.empty() && text.front() == kGuard) text.remove_prefix(1);
  return !text.empty() && std::string_view("=+-@\t\r\n").find(text.front()) != std::string_view::npos;
}

inline std::string guarded(std::string_view text) {
  return startsLikeFormula(text) ? kGuard + std::string(text) : std::string(text);
}

constexpr std::string_view unguarded(std::string_view text) {
  return !text.empty() && text.front() == kGuard && startsLikeFormula(text) ? text.substr(1) : text;
}

}  // namespace ductwright::exchange
