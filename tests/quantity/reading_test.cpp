#include <gtest/gtest.h>

#include "quantity/quantity.h"
#include "quantity/unit.h"

namespace ductwright::quantity {
namespace {

using enum Dimension;

double read(std::string_view text, Dimension dimension, System system = System::ip) {
  const auto typed = readQuantity(text, dimension, system);
  EXPECT_TRUE(typed) << text << ": " << (typed ? "" : typed.error().sentence);
  return typed ? typed->si : -1e300;
}

std::string refusal(std::string_view text, Dimension dimension, bool decimalComma = false) {
  const auto typed = readQuantity(text, dimension, unitFor(dimension, System::ip), decimalComma);
  EXPECT_FALSE(typed) << text;
  return typed ? "" : typed.error().sentence;
}

TEST(ReadNumber, readsPlainNumbers) {
  EXPECT_EQ(readNumber("450"), 450);
  EXPECT_EQ(readNumber(" -0.25\t"), -0.25);
  EXPECT_EQ(readNumber("+7"), 7);
  EXPECT_EQ(readNumber(".5"), 0.5);
  EXPECT_EQ(readNumber("5."), 5);
  EXPECT_EQ(readNumber("-3e2"), -300);
  EXPECT_EQ(readNumber("1.5E+3"), 1500);
  EXPECT_EQ(readNumber("0012"), 12);
}

TEST(ReadNumber, readsWhatATypesetterWrites) {
  EXPECT_EQ(readNumber("\u22125.5"), -5.5);
  EXPECT_EQ(readNumber("\u00A0450\u202F"), 450);
  EXPECT_EQ(readNumber("\uFEFF450"), 450);
}

TEST(ReadNumber, readsThousands) {
  EXPECT_EQ(readNumber("1,250"), 1250);
  EXPECT_EQ(readNumber("-12,250,000.5"), -12250000.5);
  EXPECT_EQ(readNumber("1.250,5", true), 1250.5);
  EXPECT_EQ(readNumber("1.250", true), 1250);
}

TEST(ReadNumber, readsADecimalCommaOnlyWhereTheSourceUsesIt) {
  EXPECT_EQ(readNumber("0,5", true), 0.5);
  EXPECT_EQ(readNumber("1,25", true), 1.25);
  EXPECT_FALSE(readNumber("0,5"));
}

TEST(ReadNumber, refusesMarksThatCouldMeanTwoThings) {
  for (const auto* text : {"1,25", "0,500", "1234,567", "1,2345", "1,250,00", "00,125", "1,25,000"})
    EXPECT_FALSE(readNumber(text)) << text;
  for (const auto* text : {"1.25", "0.500", "1234.567", "1.2345"})
    EXPECT_FALSE(readNumber(text, true)) << text;
}

TEST(ReadNumber, refusesWhatIsNotANumber) {
  for (const auto* text :
       {"",    " ",    "-",   "+",   ".",  ",",   "e5",    "--5",  "+-5",    "1.2.3", "5 6",
        "abc", "0x1F", "nan", "inf", "1e", "1e+", "1e999", ",250", "1,,250", "250,"})
    EXPECT_FALSE(readNumber(text)) << text;
}

TEST(ReadNumber, refusesMoreDigitsThanItCanHold) {
  EXPECT_FALSE(readNumber(std::string(5000, '9')));
  EXPECT_FALSE(readNumber("0." + std::string(100, '1')));
}

TEST(ReadQuantity, takesTheProjectsUnitWhereNoneIsTyped) {
  EXPECT_DOUBLE_EQ(read("450", airflow), cfm(450).si());
  EXPECT_DOUBLE_EQ(read("450", airflow, System::si), 0.45);
  const auto typed = readQuantity("450", airflow, System::ip);
  EXPECT_FALSE(typed->unitWasTyped);
  EXPECT_EQ(typed->unit->symbol, "cfm");
  EXPECT_TRUE(readQuantity("450 cfm", airflow, System::si)->unitWasTyped);
}

TEST(ReadQuantity, understandsTheWaysToWriteAnAirflow) {
  for (const auto* text : {"450 cfm", "450cfm", "450 CFM", "450 c.f.m.", "450 ft3/min", "450 ft³/min",
                           "450 ft^3/min", "4.5e2 cfm"})
    EXPECT_DOUBLE_EQ(read(text, airflow, System::si), cfm(450).si()) << text;
  for (const auto* text :
       {"210 L/s", "210 l/s", "210 lps", "0.21 m3/s", "0.21 m³/s", "756 m3/h", "756 m³/hr", "756 cmh"})
    EXPECT_NEAR(read(text, airflow), 0.21, 1e-12) << text;
}

TEST(ReadQuantity, understandsTheWaysToWriteInchesOfWater) {
  for (const auto* text :
       {"0.5 in. w.g.", "0.5 in w.g.", "0.5in.wg", "0.5 inwg", "0.5 in. w.c.", "0.5 in wc", "0.5 inches w.g.",
        "0.5 in. H2O", "0.5 inH₂O", "0.5 in. of water", "0.5 inches of water", "0.5\" w.g.", "0.5\"",
        "0.5\u00A0in.\u00A0w.g.", "0.5″ wc", "0.5” w.g.", "0.5 iwc", "0.5"})
    EXPECT_DOUBLE_EQ(read(text, pressure), inchesOfWater(0.5).si()) << text;
  EXPECT_DOUBLE_EQ(read("0.5 kPa", pressure), 500);
  EXPECT_DOUBLE_EQ(read("125 Pa", pressure), 125);
  EXPECT_DOUBLE_EQ(read("1 mbar", pressure), 100);
}

TEST(ReadQuantity, knowsATemperatureFromADifference) {
  EXPECT_NEAR(read("55 °F", temperature), celsius(12.7777777778).si(), 1e-9);
  EXPECT_NEAR(read("32 F", temperature), 273.15, 1e-9);
  for (const auto* text : {"13 °C", "13°C", "13 ºC", "13 ˚C", "13 ℃", "13 deg C", "13 degrees C", "13 C"})
    EXPECT_NEAR(read(text, temperature), 286.15, 1e-9) << text;
  for (const auto* text : {"18 Δ°F", "18 ∆°F", "18 °F", "18 F", "18 deg F", "18"})
    EXPECT_NEAR(read(text, temperatureDifference), 10, 1e-12) << text;
  for (const auto* text : {"10 K", "10 ΔK", "10 °C", "10 Δ°C"})
    EXPECT_NEAR(read(text, temperatureDifference), 10, 1e-12) << text;
  EXPECT_NEAR(read("-40 °F", temperature), read("-40 °C", temperature), 1e-9);
}

TEST(ReadQuantity, readsAnElevation) {
  EXPECT_DOUBLE_EQ(read("1600 ft", elevation, System::si), 1600 * 0.3048);
  EXPECT_DOUBLE_EQ(read("1,600 ft", elevation), 1600 * 0.3048);
  EXPECT_DOUBLE_EQ(read("1600'", elevation), 1600 * 0.3048);
  EXPECT_DOUBLE_EQ(read("1600′", elevation), 1600 * 0.3048);
  EXPECT_DOUBLE_EQ(read("488 m", elevation), 488);
  EXPECT_DOUBLE_EQ(read("-10 m", elevation), -10);
}

TEST(ReadQuantity, readsTheOtherDimensions) {
  EXPECT_DOUBLE_EQ(read("8\"", length), 0.2032);
  EXPECT_DOUBLE_EQ(read("8 in.", length), 0.2032);
  EXPECT_DOUBLE_EQ(read("200 mm", length), 0.2);
  EXPECT_DOUBLE_EQ(read("5 kW", power), 5000);
  EXPECT_NEAR(read("17.06 MBH", power), 5000, 1);
  EXPECT_NEAR(read("17060 Btu/h", power), 5000, 1);
  EXPECT_DOUBLE_EQ(read("1.5 min", duration), 90);
  EXPECT_DOUBLE_EQ(read("75 %", ratio), 0.75);
  EXPECT_NEAR(read("2 gpm", waterFlow), 1.2618e-4, 1e-8);
  EXPECT_DOUBLE_EQ(read("904 cfm", flowCoefficient), read("904", flowCoefficient));
  EXPECT_DOUBLE_EQ(read("4,194,302", count), 4194302);
}

TEST(ReadQuantity, readsARatioAsPercentOrWhereAskedAsAFraction) {
  EXPECT_DOUBLE_EQ(read("75", ratio), 0.75);
  const Unit& fraction = unitsOf(ratio)[2];
  EXPECT_DOUBLE_EQ(readQuantity("0.75", ratio, fraction)->si, 0.75);
  EXPECT_DOUBLE_EQ(readQuantity("75 %", ratio, fraction)->si, 0.75);
}

TEST(ReadQuantity, readsYesAndNo) {
  for (const auto* text : {"1", "yes", "Y", "TRUE", "On", " 1 ", "1.0"})
    EXPECT_EQ(read(text, flag), 1) << text;
  for (const auto* text : {"0", "no", "N", "False", "off", "0.0"}) EXPECT_EQ(read(text, flag), 0) << text;
  EXPECT_EQ(refusal("2", flag), "“2” is neither yes nor no: write 1 or 0");
  EXPECT_EQ(refusal("yesterday", flag), "“yesterday” is neither yes nor no: write 1 or 0");
}

TEST(ReadQuantity, namesAnUnknownUnitAndThoseItKnows) {
  EXPECT_EQ(refusal("450 furlongs", airflow),
            "“furlongs” is not a unit of airflow: use cfm, L/s, m³/s, m³/h");
  EXPECT_EQ(refusal("450 °F", airflow), "“°F” is not a unit of airflow: use cfm, L/s, m³/s, m³/h");
  EXPECT_EQ(refusal("3 stages", count), "“stages” is not a unit of whole number: use a bare number");
}

TEST(ReadQuantity, doesNotDropTheBasisThatAFlowIsTypedWith) {
  EXPECT_EQ(refusal("450 scfm", airflow), "“scfm” is not a unit of airflow: use cfm, L/s, m³/s, m³/h");
}

TEST(ReadQuantity, saysWhereANumberCouldBeTwo) {
  EXPECT_EQ(refusal("1,25 cfm", airflow),
            "“1,25 cfm” could be read in two ways: write decimals with “.” and thousands in threes, or "
            "without a mark");
  EXPECT_EQ(refusal("0.500", pressure, true),
            "“0.500” could be read in two ways: write decimals with “,” and thousands in threes, or without "
            "a mark");
}

TEST(ReadQuantity, refusesTextThatIsNotOneNumber) {
  EXPECT_EQ(refusal("", airflow), "nothing was typed: give a number");
  EXPECT_EQ(refusal(" \u00A0 ", airflow), "nothing was typed: give a number");
  EXPECT_EQ(refusal("n/a", airflow), "“n/a” is not a number");
  EXPECT_EQ(refusal("1 250 cfm", airflow), "“1 250 cfm” is not a number");
  EXPECT_EQ(refusal("1.250,5", airflow), "“1.250,5” is not a number");
  EXPECT_EQ(refusal("2.5", count), "“2.5” is not a whole number");
  EXPECT_EQ(refusal("1e308 kPa", pressure), "“1e308 kPa” is too large to be a number");
}

TEST(ReadQuantity, quotesOnlyTheBeginningOfALongText) {
  const std::string sentence = refusal("5 " + std::string(1000, 'x'), airflow);
  EXPECT_LT(sentence.size(), 150U);
  // A character of two bytes is not cut in half: 39 of one byte, then one of two.
  EXPECT_EQ(refusal(std::string(39, 'x') + "ä" + std::string(50, 'x'), airflow),
            "“" + std::string(39, 'x') + "…” is not a number");
}

TEST(FindUnit, looksPastCaseBlanksDotsAndBrackets) {
  EXPECT_EQ(findUnit(airflow, "[CFM]")->symbol, "cfm");
  EXPECT_EQ(findUnit(airflow, "m 3 / h")->symbol, "m³/h");
  EXPECT_EQ(findUnit(pressure, "In. W.G.")->symbol, "in. w.g.");
  EXPECT_EQ(findUnit(airflow, ""), nullptr);
  EXPECT_EQ(findUnit(airflow, "..."), nullptr);
  EXPECT_EQ(findUnit(airflow, std::string(1000, 'c')), nullptr);
  EXPECT_EQ(findUnit(ratio, ""), nullptr);
}

}  // namespace
}  // namespace ductwright::quantity
