#include <gmock/gmock.h>

#include "exchange/import.h"
#include "reading_files.h"

namespace ductwright::exchange::testing {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

constexpr auto* kHeader = "unit,floor,kind,cooling max flow,cooling min flow";

Import<fleet::Unit> rows(const std::string& more, const std::string& row) {
  return scheduleFrom(std::string(kHeader) + more + "\n" + row + "\n");
}

// The only problem of a one-row schedule.
std::string problem(const std::string& more, const std::string& row) {
  const auto import = rows(more, row);
  EXPECT_EQ(import.problems.list().size(), 1U) << row;
  const bool isError = import.problems.errors() > 0;
  EXPECT_EQ(import.records.empty(), isError) << "an error keeps the row out, a warning does not";
  return (isError ? "" : "flagged ") + (import.problems.empty() ? "" : import.problems.list()[0].line("f"));
}

TEST(Schedule, ReadsEveryColumn) {
  const auto import = scheduleFrom(
      "unit,building,floor,zone,air handler,kind,inlet diameter,cooling max flow,cooling min flow,heating max flow,heating min flow,"
      "reheat flow,unoccupied flow,standby flow,fan flow,hot max flow,hot min flow,ventilation min flow,flow basis,heat,heater position,"
      "heater power,heater stages,heat enable ratio,coil water flow,coil entering water temperature,design entering air temperature,"
      "design discharge temperature,discharge limit,zone heating setpoint,zone cooling setpoint,flow coefficient,stroke time,"
      "controller profile,room sensor,network segment,mac address,device instance\n"
      "1-01,Invented,1,East,AH-1,Series Fan,8,450,120,300,100,200,50,60,500,400,90,70,standard,electric_staged,plenum-inlet,"
      "4.5,2,75 %,1.5,140,55,90,90,70,74,910,90,P1,S1,N1,12,260012\n");
  ASSERT_THAT(linesOf(import.problems), IsEmpty());
  ASSERT_EQ(import.records.size(), 1U);
  const fleet::Unit& u = import.records[0].record;
  using namespace quantity;
  EXPECT_EQ(u.tag, "1-01");
  EXPECT_EQ(u.building, "Invented");
  EXPECT_EQ(u.zone, "East");
  EXPECT_EQ(u.airHandler, "AH-1");
  EXPECT_EQ(u.kind, fleet::UnitKind::seriesFan);
  EXPECT_EQ(u.inletDiameter, inches(8));
  EXPECT_EQ(u.coolingMax, cfm(450));
  EXPECT_EQ(u.coolingMin, cfm(120));
  EXPECT_EQ(u.heatingMax, cfm(300));
  EXPECT_EQ(u.heatingMin, cfm(100));
  EXPECT_EQ(u.reheat, cfm(200));
  EXPECT_EQ(u.unoccupied, cfm(50));
  EXPECT_EQ(u.standby, cfm(60));
  EXPECT_EQ(u.fan, cfm(500));
  EXPECT_EQ(u.hotMax, cfm(400));
  EXPECT_EQ(u.hotMin, cfm(90));
  EXPECT_EQ(u.ventilationMin, cfm(70));
  EXPECT_EQ(u.flowBasis, fleet::FlowBasis::standard);
  EXPECT_EQ(u.heat, fleet::HeatKind::electricStaged);
  EXPECT_EQ(u.heaterPosition, fleet::HeaterPosition::plenumInlet);
  EXPECT_EQ(u.heaterPower, kilowatts(4.5));
  EXPECT_EQ(u.heaterStages, 2);
  EXPECT_EQ(u.heatEnableRatio, 0.75);
  EXPECT_EQ(u.coilWaterFlow, gallonsPerMinute(1.5));
  EXPECT_EQ(u.coilEnteringWater, fahrenheit(140));
  EXPECT_EQ(u.designEnteringAir, fahrenheit(55));
  EXPECT_EQ(u.designDischarge, fahrenheit(90));
  EXPECT_EQ(u.dischargeLimit, fahrenheit(90));
  EXPECT_EQ(u.zoneHeatingSetpoint, fahrenheit(70));
  EXPECT_EQ(u.zoneCoolingSetpoint, fahrenheit(74));
  EXPECT_NEAR(u.flowCoefficient->si(), 910 * kCfm / std::sqrt(kInchOfWater), 1e-9);
  EXPECT_EQ(u.strokeTime, seconds(90));
  EXPECT_EQ(u.profile, "P1");
  EXPECT_EQ(u.roomSensor, "S1");
  EXPECT_EQ(u.segment, "N1");
  EXPECT_EQ(u.macAddress, 12);
  EXPECT_EQ(u.deviceInstance, 260012);
}

TEST(Schedule, TakesUnitsFromTheCellThenTheHeaderThenTheProject) {
  const auto import = scheduleFrom("unit,floor,kind,cooling max flow [L/s],cooling min flow\n1,1,reheat,0.21 m3/s,100\n2,1,reheat,210,100\n",
                                   quantity::System::si);
  ASSERT_EQ(import.records.size(), 2U);
  EXPECT_DOUBLE_EQ(import.records[0].record.coolingMax->si(), 0.21);
  EXPECT_DOUBLE_EQ(import.records[1].record.coolingMax->si(), 0.21);
  EXPECT_DOUBLE_EQ(import.records[1].record.coolingMin->si(), 0.1);
}

TEST(Schedule, AnEmptyCellIsNotGiven) {
  const auto import = rows(",heating max flow,heat", "1,1,reheat,450,120,,");
  ASSERT_EQ(import.records.size(), 1U);
  EXPECT_EQ(import.records[0].record.heatingMax, std::nullopt);
  EXPECT_EQ(import.records[0].record.heat, fleet::HeatKind::none);
}

TEST(Schedule, ADashIsNotGivenWhereNumbersOrWordsBelong) {
  const auto import = rows(",heating max flow,heat,zone,heater stages", "1,1,reheat,450,120,-,—,-,N/A");
  ASSERT_THAT(linesOf(import.problems), IsEmpty());
  EXPECT_EQ(import.records[0].record.heatingMax, std::nullopt);
  EXPECT_EQ(import.records[0].record.heat, fleet::HeatKind::none);
  EXPECT_EQ(import.records[0].record.heaterStages, std::nullopt);
  EXPECT_EQ(import.records[0].record.zone, "-");
  EXPECT_EQ(problem("", "1,1,reheat,-,120"), "f:2: cooling max flow: the cell is empty, fill it in");
}

TEST(Schedule, TheHeatEnableRatioIsAShareOrAPercentage) {
  const auto ratio = [](const std::string& header, const std::string& cell) {
    const auto import = rows("," + header, "1,1,reheat,450,120," + cell);
    return import.records.empty() ? std::nullopt : import.records[0].record.heatEnableRatio;
  };
  EXPECT_EQ(ratio("heat enable ratio", "0.75"), 0.75);
  EXPECT_EQ(ratio("heat enable ratio", "75 %"), 0.75);
  EXPECT_EQ(ratio("heat enable ratio [%]", "75"), 0.75);
  EXPECT_EQ(ratio("heat enable ratio", "0"), 0.0);
}

TEST(Schedule, SaysWhatIsWrongWithEachCell) {
  EXPECT_EQ(problem("", "1,1,reheat,abc,120"), "f:2: cooling max flow: “abc” is not a number, write it as 450 or 450 cfm");
  EXPECT_EQ(problem("", "1,1,reheat,450 cubits,120"),
            "f:2: cooling max flow: “cubits” is not a unit of airflow, use cfm, L/s, m³/s or m³/h");
  EXPECT_EQ(problem("", "1,1,rehaet,450,120"),
            "f:2: kind: “rehaet” is not known here, use one of: cooling only, reheat, parallel fan, series fan, dual duct, exhaust");
  EXPECT_EQ(problem("", ",1,reheat,450,120"), "f:2: unit: the cell is empty, fill it in");
  EXPECT_EQ(problem("", "1,1,reheat,,120"), "f:2: cooling max flow: the cell is empty, fill it in");
  EXPECT_EQ(problem("", "1,1,reheat,=D1*2,120"), "f:2: cooling max flow: “=D1*2” is a formula, not a value, save the file with values");
  EXPECT_EQ(problem("", "1,1,reheat,\"12,5\",10"),
            "f:2: cooling max flow: “12,5” has a decimal comma where the file has decimal points, "
            "write it with a point or choose the decimal comma for the whole file");
  EXPECT_EQ(problem(",heater stages", "1,1,reheat,450,120,1.5"), "f:2: heater stages: “1.5” is not a whole number, write a whole number");
  EXPECT_EQ(problem("", "1,1,reheat,1e999,120"), "f:2: cooling max flow: “1e999” is too large to be a number, correct it");
  EXPECT_EQ(problem(",mac address", "1,1,reheat,450,120,99999999999"), "f:2: mac address: “99999999999” is too large, correct it");
}

TEST(Schedule, FlagsAndKeepsNegativeAndAbsurdValues) {
  EXPECT_EQ(problem("", "1,1,reheat,450,-120"), "flagged f:2: cooling min flow: -120 cfm is negative and is kept as it is, check it");
  EXPECT_EQ(problem("", "1,1,reheat,450000,120"),
            "flagged f:2: cooling max flow: 450000 cfm is unusually large and is kept as it is, check the value and its unit");
  EXPECT_EQ(problem(",zone heating setpoint", "1,1,reheat,450,120,700"),
            "flagged f:2: zone heating setpoint: 700.0 °F is unusually large and is kept as it is, check the value and its unit");
  EXPECT_EQ(problem(",inlet diameter", "1,1,reheat,450,120,0.5"),
            "flagged f:2: inlet diameter: 0.50 in. is unusually small and is kept as it is, check the value and its unit");
  EXPECT_EQ(problem(",heat enable ratio", "1,1,reheat,450,120,75"),
            "flagged f:2: heat enable ratio: “75” is 75 times the reference flow and is kept as it is, write 0.75 or 75 %");
  EXPECT_EQ(problem(",mac address", "1,1,reheat,450,120,-3"), "flagged f:2: mac address: -3 is negative and is kept as it is, check it");
  EXPECT_EQ(problem(",zone", "1,1,reheat,450,120,=A1"), "flagged f:2: zone: “=A1” looks like a formula and is kept as text, check it");
}

TEST(Schedule, TellsTagsThatStandTwice) {
  const auto import = scheduleFrom(std::string(kHeader) + "\n1-01,1,reheat,450,120\n1-02,1,reheat,450,120\n1-01,2,reheat,400,100\n1 02,1,reheat,1,1\n");
  EXPECT_THAT(linesOf(import.problems),
              ElementsAre("f:4: unit: “1-01” stands in row 2 already, remove one of the two rows or correct the name",
                          "f:5: unit: “1 02” differs from “1-02” only by case, blanks or hyphens, see whether they are the same"));
  EXPECT_EQ(import.records.size(), 3U);
}

TEST(Schedule, DoubtsExchangedColumns) {
  const auto import = scheduleFrom("unit,floor,kind,cooling min flow,cooling max flow\n1,1,reheat,450,120\n2,1,reheat,500,120\n3,1,reheat,90,420\n4,1,reheat,600,150\n");
  EXPECT_THAT(linesOf(import.problems),
              ElementsAre("f: “cooling min flow” is greater than “cooling max flow” in 3 of 4 rows, see whether the two columns are exchanged"));
  EXPECT_EQ(import.records.size(), 4U);
}

TEST(Schedule, DoubtsAFlowUnitThatMakesInletVelocitiesImpossible) {
  const std::string header = "unit,floor,kind,inlet diameter,cooling max flow,cooling min flow\n";
  const auto withFlow = [&](const std::string& flow) {
    std::string text = header;
    for (const auto* tag : {"1", "2", "3", "4", "5"}) text += std::string(tag) + ",1,reheat,8," + flow + ",50\n";
    return linesOf(scheduleFrom(text).problems);
  };
  EXPECT_THAT(withFlow("450"), IsEmpty());
  EXPECT_THAT(withFlow("212"), ElementsAre("f: the middle inlet velocity at the cooling maximum would be 607 fpm, as if flows in L/s were read as cfm, "
                                           "see which unit the flows have and write it in the headers"));
  EXPECT_THAT(withFlow("450 L/s"), IsEmpty()) << "a unit in the cell is a person's word, 2732 fpm is not impossible";
}

TEST(Schedule, ARowThatTheTableFoundBrokenStaysOut) {
  const auto import = scheduleFrom(std::string(kHeader) + ",note\n1,1,reheat,450,120,\"x\"y\n2,1,reheat,450,120,z\n");
  ASSERT_EQ(import.records.size(), 1U);
  EXPECT_EQ(import.records[0].record.tag, "2");
}

TEST(Schedule, NothingIsReadWithoutARequiredColumn) {
  const auto import = scheduleFrom("unit,kind\n1,reheat\n2,nonsense\n");
  EXPECT_TRUE(import.problems.blocked());
  EXPECT_TRUE(import.records.empty());
  EXPECT_EQ(import.problems.errors(), 3U);
}

TEST(ScheduleField, IsReadAndShownInTheProjectsUnits) {
  fleet::Unit unit;
  const auto column = scheduleColumn("cooling max flow");
  ASSERT_TRUE(column);
  EXPECT_TRUE(setScheduleText(unit, *column, "0.21 m3/s", quantity::System::ip));
  EXPECT_EQ(scheduleText(unit, *column, quantity::System::ip), "445 cfm");
  EXPECT_EQ(scheduleText(unit, *column, quantity::System::si), "210.0 L/s");
  const auto wrong = setScheduleText(unit, *column, "lots", quantity::System::ip);
  ASSERT_FALSE(wrong);
  EXPECT_EQ(wrong.error().sentence, "“lots” is not a number: write it as 450 or 450 cfm.");
  EXPECT_DOUBLE_EQ(unit.coolingMax->si(), 0.21);
  EXPECT_FALSE(setScheduleText(unit, *column, " ", quantity::System::ip));
  const auto reheat = scheduleColumn("Reheat");
  ASSERT_TRUE(reheat);
  EXPECT_TRUE(setScheduleText(unit, *reheat, "200", quantity::System::ip));
  EXPECT_TRUE(setScheduleText(unit, *reheat, "", quantity::System::ip));
  EXPECT_EQ(unit.reheat, std::nullopt);
}

TEST(Problems, AreAllCountedAndTheFirstTenThousandListed) {
  std::string text = std::string(kHeader) + "\n";
  for (int i = 0; i < 6'000; ++i) text += std::to_string(i) + ",1,reheat,x,y\n";
  const auto import = scheduleFrom(text);
  EXPECT_EQ(import.problems.errors(), 12'000U);
  EXPECT_EQ(import.problems.list().size(), Problems::kListed);
  EXPECT_EQ(import.problems.unlisted(), 2'000U);
}

}  // namespace
}  // namespace ductwright::exchange::testing
