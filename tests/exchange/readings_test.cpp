#include "exchange/readings.h"

#include <gmock/gmock.h>

#include "reading_files.h"

namespace ductwright::exchange::testing {
namespace {

using fleet::Procedure;
using fleet::ReadingQuantity;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

constexpr auto* kHeader = "unit,run,procedure,step,outlet,quantity,value,instrument,taken at,taken by,waited,note\n";

fleet::Snapshot project() {
  auto out = projectWith({"1-01", "1-02"});
  out.instruments.emplace_back().serial = "INV-1";
  return out;
}

ReadingImport one(const std::string& rows) { return readingsFrom(kHeader + rows, project()); }

std::vector<std::string> lines(const std::string& row) {
  const auto import = one(row + "\n");
  EXPECT_EQ(import.readings.empty(), import.problems.errors() > 0);
  EXPECT_EQ(import.rowsWithErrors, import.problems.errors() > 0 ? 1U : 0U);
  return linesOf(import.problems);
}

TEST(Readings, AreReadWhole) {
  const auto import = one("1-02,2,Reheat Lockout,3,,measured flow,212 L/s,INV-1,2026-03-04T10:15:00+01:00,A. Nyone,120,windy\n");
  ASSERT_THAT(linesOf(import.problems), IsEmpty());
  ASSERT_EQ(import.readings.size(), 1U);
  const PlacedReading& placed = import.readings[0];
  EXPECT_EQ(placed.unit, unitId(2));
  EXPECT_EQ(placed.row, 2U);
  const fleet::Reading& r = placed.reading;
  EXPECT_EQ(r.run, 2);
  EXPECT_EQ(r.procedure, Procedure::reheatLockout);
  EXPECT_EQ(r.step, 3);
  EXPECT_EQ(r.quantity, ReadingQuantity::measuredFlow);
  EXPECT_DOUBLE_EQ(r.value, 0.212);
  EXPECT_EQ(r.typed.text(), "212 L/s");
  EXPECT_EQ(r.instrument.text(), "INV-1");
  EXPECT_EQ(r.takenAt, fleet::Timestamp::fromText("2026-03-04T09:15:00Z"));
  EXPECT_EQ(r.takenAt->offsetMinutes, 60);
  EXPECT_EQ(r.takenBy.text(), "A. Nyone");
  EXPECT_EQ(r.waited, 120.0F);
  EXPECT_EQ(r.note.text(), "windy");
  EXPECT_FALSE(r.withdrawn);
}

TEST(Readings, HaveDefaultsWhereNothingIsGiven) {
  const auto import = readingsFrom("unit,procedure,step,quantity,value\n1-01,airflow,cooling max,measured flow,450\n", project());
  const fleet::Reading& r = import.readings.at(0).reading;
  EXPECT_EQ(r.run, 1);
  EXPECT_EQ(r.step, fleet::code(fleet::AirflowStep::coolingMax));
  EXPECT_DOUBLE_EQ(r.value, quantity::cfm(450).si());
  EXPECT_EQ(r.typed.text(), "450 cfm") << "what was typed, with the unit that was understood";
  EXPECT_EQ(r.takenAt, std::nullopt);
  EXPECT_EQ(r.waited, std::nullopt);
}

TEST(Readings, KeepTheOrderOfTheFile) {
  const auto import = one("1-01,,airflow,shut,,measured flow,3,,,,,\n1-02,,airflow,fan,,fan flow,3,,,,,\n1-01,,airflow,fan,,fan flow,4,,,,,\n");
  ASSERT_EQ(import.readings.size(), 3U);
  for (std::uint32_t i = 0; i < 3; ++i) {
    EXPECT_EQ(import.readings[i].reading.key.ordinal, i);
    EXPECT_EQ(import.readings[i].row, i + 2);
  }
}

TEST(Readings, EachQuantityIsReadInItsOwnUnits) {
  const auto value = [](const char* quantity, const char* cell) {
    const auto import = one(std::string("1-01,,discharge rise,heat on,o,") + quantity + "," + cell + ",,,,,\n");
    EXPECT_THAT(linesOf(import.problems), IsEmpty()) << quantity;
    return import.readings.empty() ? -1.0 : import.readings[0].reading.value;
  };
  EXPECT_DOUBLE_EQ(value("discharge air temperature", "90"), quantity::fahrenheit(90).si());
  EXPECT_DOUBLE_EQ(value("discharge air temperature", "30 °C"), 303.15);
  EXPECT_DOUBLE_EQ(value("inlet pressure difference", "0.25"), quantity::inchesOfWater(0.25).si());
  EXPECT_DOUBLE_EQ(value("inlet pressure difference", "60 Pa"), 60);
  EXPECT_DOUBLE_EQ(value("damper position", "95"), 0.95);
  EXPECT_DOUBLE_EQ(value("damper position", "95 %"), 0.95);
  EXPECT_DOUBLE_EQ(value("heat call", "1"), 1);
  EXPECT_DOUBLE_EQ(value("heat on", "no"), 0);
  EXPECT_DOUBLE_EQ(value("stages on", "2"), 2);
  EXPECT_DOUBLE_EQ(value("mode", "4"), 4);
  EXPECT_DOUBLE_EQ(value("heater power", "4500 W"), 4500);
  EXPECT_DOUBLE_EQ(value("water flow", "1.5 gpm"), quantity::gallonsPerMinute(1.5).si());
  EXPECT_DOUBLE_EQ(value("measured flow", "\"1,250 cfm\""), quantity::cfm(1250).si());
}

TEST(Readings, SayWhatIsWrongWithEachCell) {
  EXPECT_THAT(lines("9-99,,airflow,cooling max,,measured flow,450,,,,,"),
              ElementsAre("f:2: unit: the unit “9-99” is not in the project, correct the tag or import its schedule first"));
  EXPECT_THAT(lines("1 01,,airflow,cooling max,,measured flow,450,,,,,"),
              ElementsAre("f:2: unit: the unit “1 01” is not in the project, write “1-01” if that is meant"));
  EXPECT_THAT(lines(",,airflow,cooling max,,measured flow,450,,,,,"), ElementsAre("f:2: unit: the cell is empty, fill it in"));
  EXPECT_THAT(lines("1-01,0,airflow,cooling max,,measured flow,450,,,,,"), ElementsAre("f:2: run: “0” is not the number of a run, count runs from 1"));
  EXPECT_THAT(lines("1-01,first,airflow,cooling max,,measured flow,450,,,,,"), ElementsAre("f:2: run: “first” is not a number, write it as a whole number"));
  EXPECT_THAT(lines("1-01,,painting,cooling max,,measured flow,450,,,,,"),
              ElementsAre("f:2: procedure: “painting” is not a procedure, use one of: airflow, reheat lockout, discharge rise"));
  EXPECT_THAT(lines("1-01,,discharge rise,cooling max,,measured flow,450,,,,,"),
              ElementsAre("f:2: step: “cooling max” is not a step of discharge rise, use one of: heat on, heat forced, heat off"));
  EXPECT_THAT(lines("1-01,,reheat lockout,first,,measured flow,450,,,,,"),
              ElementsAre("f:2: step: “first” is not a step of reheat lockout, use a number that the rows of one point share"));
  EXPECT_THAT(lines("1-01,,airflow,cooling max,,measured flow,lots,,,,,"), ElementsAre("f:2: value: “lots” is not a number, write it as 450 or 450 cfm"));
  EXPECT_THAT(lines("1-01,,airflow,cooling max,,measured flow,450 °F,,,,,"),
              ElementsAre("f:2: value: “°F” is not a unit of airflow, use cfm, L/s, m³/s or m³/h"));
  EXPECT_THAT(lines("1-01,,airflow,cooling max,,measured flow,,,,,,"), ElementsAre("f:2: value: the cell is empty, fill it in"));
  EXPECT_THAT(lines("1-01,,reheat lockout,1,,heat call,perhaps,,,,,"), ElementsAre("f:2: value: “perhaps” is neither yes nor no, write yes or no, or 1 or 0"));
  EXPECT_THAT(lines("1-01,,reheat lockout,1,,stages on,1.5,,,,,"), ElementsAre("f:2: value: “1.5” is not a whole number, write a whole number"));
  EXPECT_THAT(lines("1-01,,airflow,cooling max,,measured flow,450,,2026-02-30T10:00,,,"),
              ElementsAre("f:2: taken at: “2026-02-30T10:00” is not a day and time, write it as 2026-03-04T10:15:00+01:00"));
  EXPECT_THAT(lines("1-01,,airflow,cooling max,,measured flow,450,,2026-02-20,,,"),
              ElementsAre("f:2: taken at: “2026-02-20” has no time of day, write it as 2026-03-04T10:15:00+01:00"));
  EXPECT_THAT(lines("1-01,,airflow,cooling max,,measured flow,450,,3/4/2026 10:15,,,"),
              ElementsAre("f:2: taken at: “3/4/2026 10:15” is not a day and time, write it as 2026-03-04T10:15:00+01:00"));
  EXPECT_THAT(lines("1-01,,airflow,cooling max,,measured flow,450,,,,a while,"), ElementsAre("f:2: waited: “a while” is not a number, write it as 90 or 90 s"));
}

TEST(Readings, AllFaultsOfARowAreToldButNoneOfAValueWhoseQuantityIsNotKnown) {
  EXPECT_THAT(lines("9-99,,airflow,cooling max,,measured flow,lots,,,,,"),
              ElementsAre("f:2: unit: the unit “9-99” is not in the project, correct the tag or import its schedule first",
                          "f:2: value: “lots” is not a number, write it as 450 or 450 cfm"));
  EXPECT_EQ(lines("1-01,,airflow,cooling max,,warmth,55 °F,,,,,").size(), 1U);
}

TEST(Readings, SayWhereTwoColumnsAreExchanged) {
  EXPECT_THAT(lines("1-01,,measured flow,cooling max,,airflow,450,,,,,"),
              ElementsAre("f:2: procedure: “measured flow” is not a procedure, see whether this column and the quantity are exchanged",
                          "f:2: quantity: “airflow” is not a quantity, see whether this column and the procedure are exchanged"));
  EXPECT_THAT(linesOf(one("INV-1,,airflow,cooling max,,measured flow,450,1-01,,,,\nINV-1,,airflow,cooling min,,measured flow,150,1-02,,,,\n").problems),
              Contains("f: instrument: this column holds the tags of units, see whether it and “unit” are exchanged"));
}

TEST(Readings, FlagAndKeepWhatIsDoubtful) {
  EXPECT_THAT(lines("1-01,,airflow,cooling max,,measured flow,-4,,,,,"),
              ElementsAre("f:2: value: -4 cfm is negative and is kept as it is, check it"));
  EXPECT_THAT(lines("1-01,,discharge rise,heat on,,zone temperature,900,,,,,"),
              ElementsAre("f:2: value: 900.0 °F is unusually large and is kept as it is, check the value and its unit"));
  EXPECT_THAT(lines("1-01,,airflow,cooling max,,damper position,150,,,,,"),
              ElementsAre("f:2: value: 150.0 % is unusually large and is kept as it is, check the value and its unit"));
  EXPECT_THAT(lines("1-01,,airflow,cooling max,,outlet flow,120,,,,,"),
              ElementsAre("f:2: outlet: an outlet flow has no outlet and counts as the same outlet as the others without, name the outlet"));
  EXPECT_THAT(lines("1-01,,airflow,cooling max,,measured flow,450,INV-9,,,,"),
              ElementsAre("f:2: instrument: the instrument “INV-9” is not in the project, the default doubt holds, import the instruments"));
  EXPECT_THAT(lines("1-01,,airflow,cooling max,,measured flow,450,,,,-30,"), ElementsAre("f:2: waited: -30 s is negative and is kept as it is, check it"));
}

TEST(Readings, TheSameReadingAtTheSameMomentIsToldAndKept) {
  const std::string row = "1-01,,airflow,cooling max,,measured flow,450,,2026-03-04T10:15:00Z,,,\n";
  const auto import = one(row + row);
  EXPECT_EQ(import.readings.size(), 2U);
  EXPECT_THAT(linesOf(import.problems), ElementsAre("f:3: the row is the same as row 2, also in its time, and is kept, remove one if it was taken once"));
  const std::string untimed = "1-01,,airflow,cooling max,,measured flow,450,,,,,\n";
  EXPECT_THAT(linesOf(one(untimed + untimed).problems), IsEmpty()) << "repeated readings are good practice";
}

TEST(Readings, SharesThatWereReadAsPercentAreDoubted) {
  std::string text;
  for (int i = 0; i < 9; ++i) text += "1-01,,airflow,cooling max,,damper position,0." + std::to_string(i) + ",,,,,\n";
  EXPECT_THAT(linesOf(one(text).problems),
              ElementsAre("f: all bare percentages are between 0 and 1 and were read as percent, write the unit, 95 %, if they are shares of one"));
}

TEST(Readings, TimesWithAndWithoutAnOffsetAreToldApart) {
  EXPECT_THAT(linesOf(one("1-01,,airflow,shut,,measured flow,1,,2026-03-04T10:15:00+01:00,,,\n1-01,,airflow,shut,,measured flow,1,,2026-03-04 10:16,,,\n").problems),
              ElementsAre("f: 1 time without an offset from UTC stand beside others with one and are taken as UTC, write the offset, as in 2026-03-04T10:15+01:00"));
}

TEST(Readings, AUnitInTheHeaderHoldsOnlyForItsOwnDimension) {
  const auto import = readingsFrom("unit,procedure,step,quantity,value [L/s]\n1-01,airflow,shut,measured flow,210\n1-01,airflow,shut,zone temperature,70\n"
                                   "1-01,airflow,shut,zone temperature,70 °F\n1-01,airflow,shut,heat call,1\n",
                                   project());
  EXPECT_THAT(linesOf(import.problems), ElementsAre("f:3: value [L/s]: “L/s” in the header is not a unit of temperature, write the unit in the cell"));
  ASSERT_EQ(import.readings.size(), 3U);
  EXPECT_DOUBLE_EQ(import.readings[0].reading.value, 0.21);
  EXPECT_EQ(import.readings[0].reading.typed.text(), "210 L/s");
}

TEST(Readings, ADecimalCommaIsReadWhereTheFileShowsIt) {
  const auto import = readingsFrom("unit;procedure;step;quantity;value;waited\n1-01;airflow;shut;measured flow;0,212 m3/s;90,5\n1-01;airflow;shut;measured flow;1.250 cfm;60\n", project());
  ASSERT_THAT(linesOf(import.problems), IsEmpty());
  EXPECT_DOUBLE_EQ(import.readings.at(0).reading.value, 0.212);
  EXPECT_EQ(import.readings.at(0).reading.waited, 90.5F);
  EXPECT_DOUBLE_EQ(import.readings.at(1).reading.value, quantity::cfm(1250).si());
}

TEST(Readings, CanBeStoppedAndTellTheirProgress) {
  std::string text = kHeader;
  for (int i = 0; i < 10'000; ++i) text += "1-01,,airflow,shut,,measured flow,1,,,,,\n";
  const Table table = tableFrom(text);
  std::stop_source stop;
  std::vector<double> shares;
  const Job job{stop.get_token(), [&](double share) {
                  shares.push_back(share);
                  if (share > 0.3) stop.request_stop();
                }};
  const auto read = readReadings(table, layoutFrom(TableKind::readings, table), ReadingContext::of(project()), job);
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().sentence, "Stopped: nothing was imported.");
  EXPECT_GE(shares.size(), 2U);
  EXPECT_LT(shares.back(), 0.6);
}

TEST(KnownReadings, AreLeftOutSoThatImportingTwiceAddsNothing) {
  auto snapshot = project();
  const std::string first = "1-01,,airflow,shut,,measured flow,450,INV-1,2026-03-04T10:15:00Z,A,,\n1-02,,airflow,shut,,measured flow,450,,,,,\n";
  const auto before = readingsFrom(kHeader + first, snapshot);
  for (const PlacedReading& placed : before.readings) {
    auto& record = snapshot.units[placed.unit == unitId(1) ? 0 : 1];
    auto copy = std::make_shared<fleet::UnitRecord>(*record);
    copy->readings.push_back(placed.reading);
    record = copy;
  }
  auto again = readingsFrom(kHeader + first, snapshot);
  EXPECT_EQ(leaveOutKnown(again, snapshot), 2U);
  EXPECT_THAT(again.readings, IsEmpty());
  EXPECT_EQ(again.known, 2U);

  auto more = readingsFrom(kHeader + first + "1-02,,airflow,shut,,measured flow,450,,,,,\n1-02,,airflow,shut,,measured flow,451,,,,,\n", snapshot);
  EXPECT_EQ(leaveOutKnown(more, snapshot), 2U);
  ASSERT_EQ(more.readings.size(), 2U) << "a repetition beyond what is known is a new reading";
  EXPECT_EQ(more.readings[0].reading.key.ordinal, 0U);
  EXPECT_EQ(more.readings[1].reading.key.ordinal, 1U);
}

}  // namespace
}  // namespace ductwright::exchange::testing
