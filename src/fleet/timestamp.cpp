#include "fleet/timestamp.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>
#include <cstdio>

namespace ductwright::fleet {
namespace {

using namespace std::chrono;

std::optional<int> number(std::string_view text, std::size_t at, std::size_t length) {
  if (at + length > text.size()) return std::nullopt;
  int value = 0;
  for (std::size_t i = at; i < at + length; ++i) {
    if (text[i] < '0' || text[i] > '9') return std::nullopt;
    value = value * 10 + (text[i] - '0');
  }
  return value;
}

std::optional<year_month_day> calendarDay(std::string_view text) {
  const auto y = number(text, 0, 4), m = number(text, 5, 2), d = number(text, 8, 2);
  if (!y || !m || !d || text[4] != '-' || text[7] != '-' || *y < 1900) return std::nullopt;
  const year_month_day date{year{*y}, month{static_cast<unsigned>(*m)}, day{static_cast<unsigned>(*d)}};
  if (!date.ok()) return std::nullopt;
  return date;
}

struct Local {
  year_month_day date;
  std::int64_t inDay;  // milliseconds
};

// The time where it was written down, within the years 0 to 9999 also where a damaged file says otherwise.
Local localOf(Timestamp t) {
  constexpr std::int64_t first = -62'167'219'200'000;  // 0000-01-01
  constexpr std::int64_t last = 253'402'300'799'999;   // 9999-12-31
  const std::int64_t local =
      std::clamp(std::clamp(t.utcMillis, first, last) + std::int64_t{t.offsetMinutes} * 60'000, first, last);
  const auto day = floor<std::chrono::days>(milliseconds{local});
  return {year_month_day{sys_days{day}}, local - duration_cast<milliseconds>(day).count()};
}

std::string written(Timestamp t, const char* format, bool millis) {
  const auto [date, inDay] = localOf(t);
  std::array<char, 48> buffer{};
  const int n = std::snprintf(buffer.data(), buffer.size(), format, static_cast<int>(date.year()),
                              static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()),
                              static_cast<int>(inDay / 3'600'000), static_cast<int>(inDay / 60'000 % 60),
                              static_cast<int>(inDay / 1'000 % 60));
  std::string out(buffer.data(), static_cast<std::size_t>(n));
  if (millis && inDay % 1000 != 0) {
    std::snprintf(buffer.data(), buffer.size(), ".%03d", static_cast<int>(inDay % 1000));
    out += buffer.data();
  }
  return out;
}

Day dayOf(const year_month_day& date) {
  return {static_cast<std::int16_t>(static_cast<int>(date.year())),
          static_cast<std::uint8_t>(static_cast<unsigned>(date.month())),
          static_cast<std::uint8_t>(static_cast<unsigned>(date.day()))};
}

}  // namespace

std::string Timestamp::text() const {
  std::string out = written(*this, "%04d-%02u-%02uT%02d:%02d:%02d", true);
  if (offsetMinutes == 0) return out + "Z";
  const int minutes = offsetMinutes < 0 ? -offsetMinutes : offsetMinutes;
  std::array<char, 16> buffer{};
  std::snprintf(buffer.data(), buffer.size(), "%c%02d:%02d", offsetMinutes < 0 ? '-' : '+', minutes / 60, minutes % 60);
  return out + buffer.data();
}

std::string Timestamp::shortText() const { return written(*this, "%04d-%02u-%02u %02d:%02d", false); }

std::optional<Timestamp> Timestamp::fromText(std::string_view iso) {
  while (!iso.empty() && iso.back() == ' ') iso.remove_suffix(1);
  while (!iso.empty() && iso.front() == ' ') iso.remove_prefix(1);
  if (iso.size() < 16) return std::nullopt;
  const auto date = calendarDay(iso);
  const auto hour = number(iso, 11, 2), minute = number(iso, 14, 2);
  if (!date || !hour || !minute || (iso[10] != 'T' && iso[10] != ' ' && iso[10] != 't') || iso[13] != ':')
    return std::nullopt;
  std::size_t at = 16;
  int second = 0;
  int milli = 0;
  if (at < iso.size() && iso[at] == ':') {
    const auto s = number(iso, at + 1, 2);
    if (!s) return std::nullopt;
    second = *s;
    at += 3;
    if (at < iso.size() && (iso[at] == '.' || iso[at] == ',')) {
      ++at;
      int scale = 100;
      const std::size_t from = at;
      for (; at < iso.size() && iso[at] >= '0' && iso[at] <= '9'; ++at, scale /= 10) milli += (iso[at] - '0') * scale;
      if (at == from) return std::nullopt;
    }
  }
  if (*hour > 23 || *minute > 59 || second > 59) return std::nullopt;
  int offset = 0;
  const std::string_view zone = iso.substr(at);
  if (!zone.empty() && zone != "Z" && zone != "z") {
    if (zone[0] != '+' && zone[0] != '-') return std::nullopt;
    const auto h = number(zone, 1, 2);
    const std::size_t minuteAt = zone.size() == 6 && zone[3] == ':' ? 4 : 3;
    const auto m = zone.size() == 3 ? std::optional<int>(0) : number(zone, minuteAt, 2);
    if (!h || !m || *h > 14 || *m > 59 || (zone.size() != 3 && zone.size() != minuteAt + 2)) return std::nullopt;
    offset = (*h * 60 + *m) * (zone[0] == '-' ? -1 : 1);
  }
  const std::int64_t days = sys_days{*date}.time_since_epoch().count();
  const std::int64_t local = ((days * 24 + *hour) * 60 + *minute) * 60'000 + second * 1000LL + milli;
  return Timestamp{local - offset * 60'000LL, static_cast<std::int16_t>(offset)};
}

std::string Day::text() const {
  std::array<char, 24> buffer{};
  std::snprintf(buffer.data(), buffer.size(), "%04d-%02u-%02u", year, static_cast<unsigned>(month), static_cast<unsigned>(day));
  return buffer.data();
}

std::optional<Day> Day::fromText(std::string_view iso) {
  if (iso.size() != 10) return std::nullopt;
  const auto date = calendarDay(iso);
  if (!date) return std::nullopt;
  return dayOf(*date);
}

Day Day::of(Timestamp t) { return dayOf(localOf(t).date); }

}  // namespace ductwright::fleet
