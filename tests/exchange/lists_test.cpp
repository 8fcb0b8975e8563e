#include <gmock/gmock.h>

#include "reading_files.h"

namespace ductwright::exchange::testing {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

TEST(AirHandlers, AreRead) {
  const Table table = tableFrom("air handler,design flow,supplies warm air,supply air temperature,duct static pressure\nAH-1,\"24,000\",yes,55,1.5\n");
  const auto import = readAirHandlers(table, layoutFrom(TableKind::airHandlers, table));
  ASSERT_THAT(linesOf(import.problems), IsEmpty());
  const fleet::AirHandler& a = import.records.at(0).record;
  EXPECT_EQ(a.name, "AH-1");
  EXPECT_EQ(a.designFlow, quantity::cfm(24000));
  EXPECT_EQ(a.suppliesWarmAir, true);
  EXPECT_EQ(a.supplyAirTemperature, quantity::fahrenheit(55));
  EXPECT_EQ(a.ductStaticPressure, quantity::inchesOfWater(1.5));
}

TEST(AirHandlers, SayWhatIsNeitherYesNorNo) {
  const Table table = tableFrom("air handler,supplies warm air\nAH-1,sometimes\n");
  EXPECT_THAT(linesOf(readAirHandlers(table, layoutFrom(TableKind::airHandlers, table)).problems),
              ElementsAre("f:2: supplies warm air: “sometimes” is neither yes nor no, write yes or no, or 1 or 0"));
}

TEST(Profiles, AreRead) {
  const Table table = tableFrom(
      "profile,kinds served,heat served,inlets,fan,exhaust,damper feedback,discharge sensor,schedules,trends,alarms,protocol,"
      "least controllable pressure,stroke time,unit load,document\n"
      "P1,\"cooling only, reheat and dual duct\",none,1,no,no,yes,yes,controller,front end,,MS/TP,0.01,60 s,1/8,Invented sheet\n"
      "P2,all,hot water; electric staged,2,yes,no,,,,,,,2.5 Pa,,,\n");
  const auto import = readProfiles(table, layoutFrom(TableKind::profiles, table));
  ASSERT_THAT(linesOf(import.problems), IsEmpty());
  const fleet::ControllerProfile& p = import.records.at(0).record;
  EXPECT_THAT(p.kindsServed, ElementsAre(fleet::UnitKind::coolingOnly, fleet::UnitKind::reheat, fleet::UnitKind::dualDuct));
  EXPECT_THAT(p.heatServed, IsEmpty());
  EXPECT_EQ(p.inlets, 1);
  EXPECT_EQ(p.fan, false);
  EXPECT_EQ(p.damperFeedback, true);
  EXPECT_EQ(p.schedules, fleet::Custody::controller);
  EXPECT_EQ(p.trends, fleet::Custody::frontEnd);
  EXPECT_EQ(p.alarms, fleet::Custody::unknown);
  EXPECT_EQ(p.protocol, "MS/TP");
  EXPECT_EQ(p.leastControllablePressure, quantity::inchesOfWater(0.01));
  EXPECT_EQ(p.strokeTime, quantity::seconds(60));
  EXPECT_EQ(p.unitLoad, 0.125);
  EXPECT_EQ(p.document, "Invented sheet");
  EXPECT_EQ(import.records.at(1).record.kindsServed.size(), 6U);
  EXPECT_THAT(import.records.at(1).record.heatServed, ElementsAre(fleet::HeatKind::hotWater, fleet::HeatKind::electricStaged));
  EXPECT_EQ(import.records.at(1).record.leastControllablePressure, quantity::pascals(2.5));
}

TEST(Profiles, SayWhichKindIsNotKnown) {
  const Table table = tableFrom("profile,kinds served,heat served,unit load\nP1,reheat; spaceship,none,1/0\n");
  EXPECT_THAT(linesOf(readProfiles(table, layoutFrom(TableKind::profiles, table)).problems),
              ElementsAre("f:2: kinds served: “spaceship” is not known here, use some of: cooling only; reheat; parallel fan; series fan; dual duct; exhaust",
                          "f:2: unit load: “1/0” is not a number, write it as 0.125 or 1/8"));
}

TEST(RoomSensors, AreRead) {
  const Table table = tableFrom("room sensor,display,adjustment,override,motion,can set up a controller\nS1,yes,no,1,0,\n");
  const fleet::RoomSensor s = readRoomSensors(table, layoutFrom(TableKind::roomSensors, table)).records.at(0).record;
  EXPECT_EQ(s.name, "S1");
  EXPECT_EQ(s.display, true);
  EXPECT_EQ(s.adjustment, false);
  EXPECT_EQ(s.override_, true);
  EXPECT_EQ(s.motion, false);
  EXPECT_EQ(s.canSetUpController, std::nullopt);
}

TEST(Segments, AreRead) {
  const Table table = tableFrom("segment,speed,highest address,load limit\nN1,38.4 kbit/s,127,32\nN2,76800,,\n");
  const auto import = readSegments(table, layoutFrom(TableKind::segments, table));
  ASSERT_THAT(linesOf(import.problems), IsEmpty());
  EXPECT_EQ(import.records.at(0).record.speed, 38400.0);
  EXPECT_EQ(import.records.at(0).record.highestAddress, 127);
  EXPECT_EQ(import.records.at(0).record.loadLimit, 32.0);
  EXPECT_EQ(import.records.at(1).record.speed, 76800.0);
}

TEST(Instruments, RowsOfOneSerialNumberBecomeOneInstrument) {
  const Table table = tableFrom(
      "serial,description,quantity,percent of reading,plus,resolution,flow basis,calibrated on,calibration due\n"
      "INV-1,Invented hood,flow,3,7 cfm,1,standard,2026-01-10,2027-01-10\n"
      "INV-1,Invented hood,discharge air temperature,,1,0.1,,,\n"
      "INV-2,Invented gauge,pressure,1 %,0.001,,,2026-02-01,\n");
  const auto import = readInstruments(table, layoutFrom(TableKind::instruments, table));
  ASSERT_THAT(linesOf(import.problems), IsEmpty());
  ASSERT_EQ(import.records.size(), 2U);
  const fleet::Instrument& hood = import.records[0].record;
  EXPECT_EQ(hood.description, "Invented hood");
  ASSERT_EQ(hood.accuracies.size(), 2U);
  EXPECT_DOUBLE_EQ(hood.accuracies[0].share, 0.03);
  EXPECT_DOUBLE_EQ(hood.accuracies[0].plus, quantity::cfm(7).si());
  EXPECT_DOUBLE_EQ(hood.accuracies[0].resolution, quantity::cfm(1).si());
  EXPECT_EQ(hood.accuracies[0].flowBasis, fleet::FlowBasis::standard);
  EXPECT_DOUBLE_EQ(hood.accuracies[1].plus, 5.0 / 9) << "a tolerance of a temperature is a difference, not a temperature";
  EXPECT_EQ(hood.calibratedOn, fleet::Day::fromText("2026-01-10"));
  EXPECT_EQ(hood.calibrationDue, fleet::Day::fromText("2027-01-10"));
  EXPECT_DOUBLE_EQ(import.records[1].record.accuracies[0].plus, quantity::inchesOfWater(0.001).si());
}

TEST(Instruments, AQuantityBySynonymIsFoundByReadings) {
  const Table table = tableFrom("serial,quantity,percent of reading\nINV-1,Supply Air Temp,2\n");
  const auto import = readInstruments(table, layoutFrom(TableKind::instruments, table));
  ASSERT_EQ(import.records.size(), 1U);
  EXPECT_NE(import.records[0].record.accuracyFor(fleet::ReadingQuantity::supplyAirTemperature), nullptr);
}

TEST(Instruments, SayWhatIsWrong) {
  const auto lines = [](const char* rows) {
    const Table table = tableFrom(std::string("serial,description,quantity,percent of reading,plus,calibrated on,calibration due\n") + rows);
    return linesOf(readInstruments(table, layoutFrom(TableKind::instruments, table)).problems);
  };
  EXPECT_THAT(lines("A,,colour,3,1,,\n"), ElementsAre("f:2: quantity: “colour” is not a quantity, use a reading's quantity, or flow, temperature, pressure or power"));
  EXPECT_THAT(lines("A,,flow,3,1,2026-02-30,\n"), ElementsAre("f:2: calibrated on: “2026-02-30” is not a day of the calendar, write it as 2026-03-04"));
  EXPECT_THAT(lines("A,,flow,3,1,04.03.2026,\n"), ElementsAre("f:2: calibrated on: “04.03.2026” is not a day of the calendar, write it as 2026-03-04"));
  EXPECT_THAT(lines("A,,flow,3,1,2026-03-04,2025-03-04\n"), ElementsAre("f:2: calibration due: the calibration is due before it was made, check both dates"));
  EXPECT_THAT(lines("A,,flow,3,1 °F,,\n"), ElementsAre("f:2: plus: “°F” is not a unit of airflow, use cfm, L/s, m³/s or m³/h"));
  EXPECT_THAT(lines("A,,flow,3,1,,\nA,,Flow,4,1,,\n"),
              ElementsAre("f:3: quantity: “Flow” of “A” stands in an earlier row already, remove one of the two rows"));
  EXPECT_THAT(lines("A,Hood,flow,3,1,,\nA,Gauge,pressure,4,1,,\n"),
              ElementsAre("f:3: description: an earlier row of the same instrument has “Hood”, which holds, correct one of the two"));
  EXPECT_THAT(lines(",,flow,3,1,,\n"), ElementsAre("f:2: serial: the cell is empty, fill it in"));
}

TEST(Settings, AreReadByTheSchedulesOwnColumns) {
  const auto project = projectWith({"1-01", "1-02"});
  const Table table = tableFrom("unit,setting,value,read at\n1-01,cooling max flow,450,2026-03-04T10:15:00+01:00\n1-02,Heat,hot water,\n1-02,heat enable ratio,75 %,\n");
  const auto import = readSettings(table, layoutFrom(TableKind::settings, table), project);
  ASSERT_THAT(linesOf(import.problems), IsEmpty());
  ASSERT_EQ(import.records.size(), 3U);
  EXPECT_EQ(import.records[0].record.unit, unitId(1));
  EXPECT_EQ(import.records[0].record.setting, "cooling max flow");
  EXPECT_EQ(import.records[0].record.typed, "450 cfm");
  EXPECT_EQ(import.records[0].record.value, quantity::cfm(450).si());
  EXPECT_EQ(import.records[1].record.setting, "heat");
  EXPECT_EQ(import.records[1].record.typed, "hot water");
  EXPECT_EQ(import.records[1].record.value, std::nullopt);
  EXPECT_EQ(import.records[2].record.value, 0.75);
}

TEST(Settings, SayWhatIsWrong) {
  const auto project = projectWith({"1-01"});
  const auto lines = [&](const char* row) {
    const Table table = tableFrom(std::string("unit,setting,value,read at\n") + row);
    return linesOf(readSettings(table, layoutFrom(TableKind::settings, table), project).problems);
  };
  EXPECT_THAT(lines("9-99,cooling max flow,450,\n"), ElementsAre("f:2: unit: the unit “9-99” is not in the project, correct the tag or import its schedule first"));
  EXPECT_THAT(lines("1-01,colour,450,\n"), ElementsAre("f:2: setting: “colour” is not a column of the schedule, use a header of the schedule, such as cooling max flow"));
  EXPECT_THAT(lines("1-01,cooling max flow,many,\n"), ElementsAre("f:2: value: “many” is not a number, write it as 450 or 450 cfm"));
  EXPECT_THAT(lines("1-01,cooling max flow,450,yesterday\n"), ElementsAre("f:2: read at: “yesterday” is not a day and time, write it as 2026-03-04T10:15"));
  EXPECT_THAT(lines("1-01,cooling max flow,,\n"), ElementsAre("f:2: value: the cell is empty, fill it in"));
}

}  // namespace
}  // namespace ductwright::exchange::testing
