#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "quantity/quantity.h"
#include "quantity/unit.h"

namespace ductwright::quantity {
namespace {

constexpr Dimension kDimensions[] = {Dimension::airflow,
                                     Dimension::velocity,
                                     Dimension::pressure,
                                     Dimension::temperature,
                                     Dimension::temperatureDifference,
                                     Dimension::power,
                                     Dimension::length,
                                     Dimension::elevation,
                                     Dimension::area,
                                     Dimension::duration,
                                     Dimension::waterFlow,
                                     Dimension::flowCoefficient,
                                     Dimension::ratio,
                                     Dimension::number};

// Numbers as people type them: one to six digits, with a decimal point somewhere or nowhere.
class TypedNumbers {
 public:
  double next() {
    const auto digits = static_cast<double>(m_bits() % 1'000'000);
    const double value = digits / std::pow(10.0, static_cast<double>(m_bits() % 5));
    return m_bits() % 8 == 0 ? -value : value;
  }

 private:
  std::mt19937_64 m_bits{7};
};

TEST(RoundTrip, ofEveryUnitIsTheSameNumber) {
  TypedNumbers numbers;
  for (const Dimension dimension : kDimensions)
    for (const Unit& unit : unitsOf(dimension))
      for (int i = 0; i < 200; ++i) {
        const double value = numbers.next();
        EXPECT_NEAR(fromSi(toSi(value, unit), unit), value, 1e-9 * (1 + std::abs(value))) << unit.symbol;
      }
}

TEST(RoundTrip, ofWhatIsWrittenExactlyIsTheSameValue) {
  TypedNumbers numbers;
  for (const Dimension dimension : kDimensions)
    for (const Unit& unit : unitsOf(dimension))
      for (int i = 0; i < 500; ++i) {
        const double si = toSi(numbers.next(), unit);
        const std::string text = writeExact(si, unit);
        const auto back = readQuantity(text, dimension, unit);
        ASSERT_TRUE(back) << text;
        ASSERT_EQ(back->si, si) << text << ' ' << unit.symbol;
      }
}

TEST(RoundTrip, ofWhatIsWrittenExactlyHasTheDigitsThatWereTyped) {
  std::mt19937_64 bits(14);
  for (const Dimension dimension : kDimensions)
    for (const Unit& unit : unitsOf(dimension))
      for (int i = 0; i < 300; ++i) {
        const std::string whole = std::to_string(1 + bits() % 9999);
        const std::string typed = whole + '.' + std::to_string(1 + bits() % 9'999'999) + '7';
        EXPECT_EQ(writeExact(readQuantity(typed, dimension, unit)->si, unit), typed) << unit.symbol;
      }
}

TEST(RoundTrip, ofANumberTypedToTheLastDigitIsTheSameValue) {
  std::mt19937_64 bits(13);
  for (const Dimension dimension : kDimensions)
    for (const Unit& unit : unitsOf(dimension))
      for (int i = 0; i < 300; ++i) {
        const double si = toSi(static_cast<double>(bits()) * 0x1p-55, unit);
        const auto back = readQuantity(writeExact(si, unit), dimension, unit);
        ASSERT_EQ(back->si, si) << unit.symbol;
      }
}

TEST(RoundTrip, ofAnyValueInItsOwnUnitIsTheSameBitForBit) {
  std::mt19937_64 bits(11);
  const Unit& si = *findUnit(Dimension::airflow, "m3/s");
  for (int i = 0; i < 2000; ++i) {
    const double value = static_cast<double>(bits()) * 0x1p-60;
    EXPECT_EQ(readQuantity(writeExact(value, si), Dimension::airflow, si)->si, value);
  }
}

TEST(RoundTrip, ofAnyValueInAnyUnitMissesByTwoLastDigitsAtMost) {
  std::mt19937_64 bits(12);
  for (const Unit& unit : unitsOf(Dimension::airflow))
    for (int i = 0; i < 500; ++i) {
      const double value = static_cast<double>(bits()) * 0x1p-62;
      EXPECT_NEAR(readQuantity(writeExact(value, unit), Dimension::airflow, unit)->si, value,
                  4.5e-16 * value);
    }
}

TEST(RoundTrip, ofWhatIsShownIsNearToItsLastDigit) {
  TypedNumbers numbers;
  for (const Dimension dimension : kDimensions)
    for (const System system : {System::ip, System::si})
      for (int i = 0; i < 200; ++i) {
        const Unit& unit = unitFor(dimension, system);
        const double value = numbers.next();
        const std::string text = write(toSi(value, unit), dimension, system);
        const auto back = readQuantity(text, dimension, system == System::ip ? System::si : System::ip);
        ASSERT_TRUE(back) << text;
        const double digit = std::pow(10.0, -unit.decimals);
        EXPECT_NEAR(fromSi(back->si, unit), value, 0.5001 * digit + 1e-9 * std::abs(value)) << text;
      }
}

TEST(RoundTrip, ofEverySymbolAndSpellingNamesItsUnit) {
  for (const Dimension dimension : kDimensions)
    for (const Unit& unit : unitsOf(dimension)) {
      if (!unit.symbol.empty()) {
        const Unit* found = findUnit(dimension, unit.symbol);
        ASSERT_NE(found, nullptr) << unit.symbol;
        EXPECT_EQ(found->symbol, unit.symbol);
      }
      std::string_view words = unit.spelling;
      while (!words.empty()) {
        const auto blank = words.find(' ');
        const Unit* found = findUnit(dimension, words.substr(0, blank));
        ASSERT_NE(found, nullptr) << words;
        EXPECT_EQ(found->symbol, unit.symbol) << words;
        words.remove_prefix(blank == std::string_view::npos ? words.size() : blank + 1);
      }
    }
}

TEST(Units, standWithTheImperialOneFirst) {
  EXPECT_EQ(unitFor(Dimension::airflow, System::ip).symbol, "cfm");
  EXPECT_EQ(unitFor(Dimension::airflow, System::si).symbol, "L/s");
  EXPECT_EQ(unitFor(Dimension::temperature, System::ip).symbol, "°F");
  for (const Dimension dimension : kDimensions) EXPECT_GE(unitsOf(dimension).size(), 2U) << name(dimension);
}

// NIST SP 811, appendix B.
TEST(Units, haveThePublishedFactors) {
  EXPECT_NEAR(kCfm, 4.719474e-4, 5e-11);
  EXPECT_NEAR(kFpm, 5.08e-3, 1e-15);
  EXPECT_NEAR(kInchOfWater, 249.0889, 5e-5);
  EXPECT_NEAR(kGpm, 6.309020e-5, 5e-12);
  EXPECT_NEAR(kBtuPerHour, 0.2930711, 5e-8);
  EXPECT_NEAR(toSi(1, *findUnit(Dimension::pressure, "psi")), 6894.757, 5e-4);
  EXPECT_NEAR(toSi(1, *findUnit(Dimension::pressure, "mmwg")), 9.80665, 1e-12);
  EXPECT_NEAR(toSi(1, *findUnit(Dimension::area, "ft2")), 9.290304e-2, 1e-12);
  const double k = toSi(1, *findUnit(Dimension::flowCoefficient, "cfm"));
  EXPECT_NEAR(k * std::sqrt(kInchOfWater), kCfm, 1e-12);
}

TEST(Units, agreeWithTheNamedConversions) {
  EXPECT_EQ(toSi(450, unitFor(Dimension::airflow, System::ip)), cfm(450).si());
  EXPECT_DOUBLE_EQ(toSi(55, unitFor(Dimension::temperature, System::ip)), fahrenheit(55).si());
  EXPECT_DOUBLE_EQ(toSi(1.5, unitFor(Dimension::waterFlow, System::ip)), gallonsPerMinute(1.5).si());
  EXPECT_NEAR(inFahrenheit(celsius(100)), 212, 1e-9);
  EXPECT_NEAR(inFahrenheit(celsius(-40)), -40, 1e-9);
}

}  // namespace
}  // namespace ductwright::quantity
