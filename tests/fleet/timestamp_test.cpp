#include "fleet/timestamp.h"

#include <gtest/gtest.h>

#include <cstdint>
#include <limits>

namespace ductwright::fleet {
namespace {

std::string again(std::string_view text) {
  const auto t = Timestamp::fromText(text);
  return t ? t->text() : "nothing";
}

TEST(Timestamp, keepsTheOffsetItWasWrittenWith) {
  EXPECT_EQ(again("2026-03-04T10:15:00+01:00"), "2026-03-04T10:15:00+01:00");
  EXPECT_EQ(again("2026-03-04T10:15:00-07:00"), "2026-03-04T10:15:00-07:00");
  EXPECT_EQ(again("2026-03-04T10:15:00-0330"), "2026-03-04T10:15:00-03:30");
  EXPECT_EQ(again("2026-03-04T10:15:00+05"), "2026-03-04T10:15:00+05:00");
  EXPECT_EQ(again("2026-03-04T10:15:00Z"), "2026-03-04T10:15:00Z");
}

TEST(Timestamp, readsTheWaysToWriteAMoment) {
  EXPECT_EQ(again("2026-03-04 10:15"), "2026-03-04T10:15:00Z");
  EXPECT_EQ(again("  2026-03-04t10:15:59  "), "2026-03-04T10:15:59Z");
  EXPECT_EQ(again("2026-03-04T10:15:30.5Z"), "2026-03-04T10:15:30.500Z");
  EXPECT_EQ(again("2026-03-04T10:15:30,250Z"), "2026-03-04T10:15:30.250Z");
  EXPECT_EQ(again("2026-03-04T10:15:30.1234567Z"), "2026-03-04T10:15:30.123Z");
}

TEST(Timestamp, countsFromTheUnixEpoch) {
  EXPECT_EQ(Timestamp::fromText("1970-01-01T00:00:00Z")->utcMillis, 0);
  EXPECT_EQ(Timestamp::fromText("2026-03-04T10:15:00+01:00")->utcMillis, 1772615700000);
}

TEST(Timestamp, refusesDaysAndTimesThatDoNotExist) {
  for (const auto* text : {"2026-02-30T10:00", "2025-02-29T10:00", "2026-13-01T10:00", "2026-00-10T10:00",
                           "2026-03-04T24:00", "2026-03-04T10:60", "2026-03-04T10:15:60", "0026-03-04T10:15",
                           "2026-03-04T10:15+15:00", "2026-03-04T10:15+01:60"})
    EXPECT_EQ(again(text), "nothing") << text;
  EXPECT_EQ(again("2028-02-29T10:00"), "2028-02-29T10:00:00Z");
}

TEST(Timestamp, refusesWhatIsNotAMoment) {
  for (const auto* text :
       {"", "2026-03-04", "10:15", "2026-03-04T10", "2026/03/04 10:15", "04.03.2026 10:15",
        "2026-03-04T10:15x", "2026-03-04T10:15+1", "2026-03-04T10:15:3", "2026-03-04T10:15:30.",
        "2026-03-04T10:15:00 +01:00x", "2026-03-04T10:15:00+01:00:00"})
    EXPECT_EQ(again(text), "nothing") << text;
}

TEST(Timestamp, isOrderedByTheMomentNotByTheClockOnTheWall) {
  const auto here = Timestamp::fromText("2026-03-04T10:15:00+01:00").value();
  const auto there = Timestamp::fromText("2026-03-04T09:15:00Z").value();
  const auto later = Timestamp::fromText("2026-03-04T09:15:01Z").value();
  EXPECT_EQ(here, there);
  EXPECT_LT(here, later);
}

TEST(Timestamp, isShortForPeople) {
  EXPECT_EQ(Timestamp::fromText("2026-03-04T23:59:59+01:00")->shortText(), "2026-03-04 23:59");
}

TEST(Timestamp, ofADamagedFileIsStillWritten) {
  const Timestamp late{std::numeric_limits<std::int64_t>::max(), std::numeric_limits<std::int16_t>::max()};
  const Timestamp early{std::numeric_limits<std::int64_t>::min(), std::numeric_limits<std::int16_t>::min()};
  EXPECT_EQ(late.shortText(), "9999-12-31 23:59");
  EXPECT_EQ(early.shortText(), "0000-01-01 00:00");
  EXPECT_EQ(Day::of(early).year, 0);
}

TEST(Day, isTheDayWhereItWasWrittenDown) {
  EXPECT_EQ(Day::of(*Timestamp::fromText("2026-03-04T23:30:00-07:00")).text(), "2026-03-04");
  EXPECT_EQ(Day::of(*Timestamp::fromText("2026-03-05T06:30:00Z")).text(), "2026-03-05");
}

TEST(Day, isReadAndWritten) {
  EXPECT_EQ(Day::fromText("2026-11-25")->text(), "2026-11-25");
  for (const auto* text : {"", "2026-11-31", "2026-11-2", "25-11-2026", "2026-11-25T10:00", "2026-11-25 "})
    EXPECT_FALSE(Day::fromText(text)) << text;
  EXPECT_LT(*Day::fromText("2025-12-31"), *Day::fromText("2026-01-01"));
}

}  // namespace
}  // namespace ductwright::fleet
