#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace ductwright::fleet {

// A moment, and the offset from UTC at which it was written down. Ordered by the moment.
struct Timestamp {
  std::int64_t utcMillis = 0;
  std::int16_t offsetMinutes = 0;

  friend bool operator==(Timestamp a, Timestamp b) { return a.utcMillis == b.utcMillis; }
  friend std::strong_ordering operator<=>(Timestamp a, Timestamp b) { return a.utcMillis <=> b.utcMillis; }

  // ISO 8601 with offset, "2026-03-04T10:15:00+01:00"; milliseconds only where there are any.
  [[nodiscard]] std::string text() const;
  // For people: "2026-03-04 10:15".
  [[nodiscard]] std::string shortText() const;
  // Reads date and time ("T" or a blank between, seconds and offset optional; without an offset: UTC).
  // A day that does not exist, or a date without a time, is nothing.
  static std::optional<Timestamp> fromText(std::string_view iso);
};

// A calendar day, for calibration dates.
struct Day {
  std::int16_t year = 0;
  std::uint8_t month = 0;
  std::uint8_t day = 0;

  friend auto operator<=>(const Day&, const Day&) = default;
  [[nodiscard]] std::string text() const;  // "2026-03-04"
  static std::optional<Day> fromText(std::string_view iso);
  static Day of(Timestamp t);  // the day where it was written down
};

}  // namespace ductwright::fleet
