#include "spreadsheet_date.h"

#include <array>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <cstdio>

namespace ductwright::exchange {

NumberStyle styleOfFormat(std::string_view code) {
  code = code.substr(0, code.find(';'));  // the form of positive numbers
  for (std::size_t i = 0; i < code.size(); ++i) {
    switch (code[i]) {
      case '"':
        i = code.find('"', i + 1);
        if (i == std::string_view::npos) return NumberStyle::plain;
        break;
      case '\\':
      case '_':
      case '*': ++i; break;
      case '[': {
        const std::size_t end = code.find(']', i);
        if (end == std::string_view::npos) return NumberStyle::plain;
        const std::string_view inside = code.substr(i + 1, end - i - 1);
        if (!inside.empty() && inside.find_first_not_of("hHmMsS") == std::string_view::npos) return NumberStyle::date;
        i = end;
        break;
      }
      case '%': return NumberStyle::percent;
      case 'G':
      case 'g':
        if (code.substr(i, 7) == "General" || code.substr(i, 7) == "GENERAL") i += 6;
        break;
      case 'y': case 'Y': case 'm': case 'M': case 'd': case 'D': case 'h': case 'H': case 's': case 'S':
        return NumberStyle::date;
      default: break;
    }
  }
  return NumberStyle::plain;
}

NumberStyle styleOfBuiltIn(int id) {
  if (id == 9 || id == 10) return NumberStyle::percent;
  if ((id >= 14 && id <= 22) || (id >= 27 && id <= 36) || (id >= 45 && id <= 47) || (id >= 50 && id <= 58))
    return NumberStyle::date;
  return NumberStyle::plain;
}

std::optional<std::string> dateText(double serial, bool since1904) {
  using namespace std::chrono;
  if (!(serial >= 0) || serial >= 2'958'466) return std::nullopt;
  const std::int64_t millis = std::llround(serial * 86'400'000.0);
  const std::int64_t day = millis / 86'400'000, inDay = millis % 86'400'000;
  std::array<char, 48> buffer{};
  std::string out;
  if (serial >= 1 || since1904) {
    if (!since1904 && day == 60) return std::nullopt;
    // Day 1 of the 1900 system is 1 January 1900; after the false leap day everything is one later.
    const sys_days first = since1904 ? sys_days{year{1904} / 1 / 1} : sys_days{year{1899} / 12 / (day < 60 ? 31 : 30)};
    const year_month_day date{first + days{day}};
    std::snprintf(buffer.data(), buffer.size(), "%04d-%02u-%02u", static_cast<int>(date.year()),
                  static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
    out = buffer.data();
    if (inDay == 0) return out;
    out += 'T';
  }
  std::snprintf(buffer.data(), buffer.size(), "%02d:%02d:%02d", static_cast<int>(inDay / 3'600'000),
                static_cast<int>(inDay / 60'000 % 60), static_cast<int>(inDay / 1'000 % 60));
  out += buffer.data();
  if (inDay % 1000 != 0) {
    std::snprintf(buffer.data(), buffer.size(), ".%03d", static_cast<int>(inDay % 1000));
    out += buffer.data();
  }
  return out;
}

}  // namespace ductwright::exchange
