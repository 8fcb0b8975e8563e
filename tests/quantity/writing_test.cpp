#include <gtest/gtest.h>

#include "quantity/quantity.h"
#include "quantity/unit.h"

namespace ductwright::quantity {
namespace {

using enum Dimension;

TEST(Write, givesSensibleDigitsAndTheSymbol) {
  EXPECT_EQ(write(cfm(449.6).si(), airflow, System::ip), "450 cfm");
  EXPECT_EQ(write(0.21, airflow, System::si), "210.0 L/s");
  EXPECT_EQ(write(inchesOfWater(0.0312).si(), pressure, System::ip), "0.031 in. w.g.");
  EXPECT_EQ(write(fahrenheit(55).si(), temperature, System::ip), "55.0 °F");
  EXPECT_EQ(write(kelvins(10).si(), temperatureDifference, System::ip), "18.0 °F");
  EXPECT_EQ(write(0.75, ratio, System::si), "75.0 %");
  EXPECT_EQ(write(3, count, System::ip), "3");
}

TEST(Write, saysYesAndNo) {
  EXPECT_EQ(write(1, flag, System::ip), "yes");
  EXPECT_EQ(write(0, flag, System::si), "no");
  EXPECT_EQ(write(1, unitFor(flag, System::ip)), "yes");
}

TEST(WriteNumber, hasNoNegativeZero) {
  EXPECT_EQ(writeNumber(cfm(-0.2).si(), unitFor(airflow, System::ip)), "0");
  EXPECT_EQ(writeNumber(-1e-9, unitFor(airflow, System::si)), "0.0");
  EXPECT_EQ(writeNumber(cfm(-0.6).si(), unitFor(airflow, System::ip)), "-1");
}

TEST(WriteExact, writesWhatWasTyped) {
  const Unit& flow = unitFor(airflow, System::ip);
  EXPECT_EQ(writeExact(cfm(450).si(), flow), "450");
  EXPECT_EQ(writeExact(cfm(0.1).si(), flow), "0.1");
  EXPECT_EQ(writeExact(cfm(12345.678).si(), flow), "12345.678");
  EXPECT_EQ(writeExact(fahrenheit(55.3).si(), unitFor(temperature, System::ip)), "55.3");
  EXPECT_EQ(writeExact(cfm(1234567.890123).si(), flow), "1234567.890123");
  EXPECT_EQ(writeExact(0, flow), "0");
}

TEST(WriteExact, findsTheNumberThatReadsBackNextToTheOneItWorksOut) {
  const Unit& degree = unitFor(temperature, System::ip);
  const double si = toSi(513.23948756234768, degree);
  ASSERT_NE(toSi(fromSi(si, degree), degree), si);  // the way there and back misses by a last digit
  EXPECT_EQ(readQuantity(writeExact(si, degree), temperature, degree)->si, si);
}

TEST(WriteExact, writesWholeNumbersWithoutAnExponent) {
  EXPECT_EQ(writeExact(4194302, unitFor(count, System::ip)), "4194302");
  EXPECT_EQ(writeExact(2000000, unitFor(count, System::ip)), "2000000");
}

}  // namespace
}  // namespace ductwright::quantity
