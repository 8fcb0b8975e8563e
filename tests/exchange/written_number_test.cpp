#include "written_number.h"

#include <gtest/gtest.h>

#include <string>

namespace ductwright::exchange {
namespace {

struct Case {
  const char* text;
  DecimalMark mark;
  std::optional<double> asPoint, asComma;
};

class Written : public ::testing::TestWithParam<Case> {};

TEST_P(Written, IsUnderstoodOnlyWhereItCanBe) {
  const auto& [text, mark, asPoint, asComma] = GetParam();
  const auto number = WrittenNumber::leading(text);
  ASSERT_TRUE(number) << text;
  EXPECT_EQ(number->length(), std::string_view(text).size()) << text;
  EXPECT_EQ(number->mark(), mark) << text;
  EXPECT_EQ(number->value(false), asPoint) << text;
  EXPECT_EQ(number->value(true), asComma) << text;
}

using enum DecimalMark;
INSTANTIATE_TEST_SUITE_P(
    Forms, Written,
    ::testing::Values(Case{"450", none, 450, 450}, Case{"-3e2", none, -300, -300}, Case{"+7", none, 7, 7}, Case{"−5", none, -5, -5},
                      Case{"12.5", point, 12.5, {}}, Case{"12,5", comma, {}, 12.5}, Case{"0.125", point, 0.125, {}},
                      Case{"0,125", comma, {}, 0.125}, Case{"1.250", unclear, 1.25, 1250}, Case{"1,250", unclear, 1250, 1.25},
                      Case{"1,250.5", point, 1250.5, {}}, Case{"1.250,5", comma, {}, 1250.5}, Case{"1,250,000", point, 1250000, {}},
                      Case{"1.250.000", comma, {}, 1250000}, Case{"1250.125", point, 1250.125, {}}, Case{"1 250", none, 1250, 1250},
                      Case{"1'250.5", point, 1250.5, {}}, Case{"1\xC2\xA0" "250,125", comma, {}, 1250.125}, Case{".5", point, 0.5, {}},
                      Case{",5", comma, {}, 0.5}, Case{"5.", point, 5, {}}, Case{"1.5e-3", point, 0.0015, {}},
                      Case{"12.3456", point, 12.3456, {}}));

TEST(WrittenNumber, RefusesOtherGroupings) {
  for (const auto* text : {"1,25,000", "1.25.000", "12,50.5", "1,2,3", "1234,567,890", "1 250.000,5", "", "abc", "-", "."})
    EXPECT_FALSE(WrittenNumber::leading(text)) << text;
}

TEST(WrittenNumber, LeavesWhatFollows) {
  EXPECT_EQ(WrittenNumber::leading("450 cfm")->length(), 3U);
  EXPECT_EQ(WrittenNumber::leading("8\"")->length(), 1U);
  EXPECT_EQ(WrittenNumber::leading("1 2500")->length(), 1U);
  EXPECT_EQ(WrittenNumber::leading("5 elephants")->length(), 1U);
}

TEST(WrittenNumber, IsNoInfinity) {
  EXPECT_FALSE(WrittenNumber::leading("1e999")->value(false));
  EXPECT_FALSE(WrittenNumber::leading("inf"));
  EXPECT_FALSE(WrittenNumber::leading("nan"));
}

TEST(WrittenNumber, CountsItsDecimals) {
  EXPECT_EQ(WrittenNumber::leading("1,250")->decimals(true), 3);
  EXPECT_EQ(WrittenNumber::leading("1,250")->decimals(false), 0);
  EXPECT_EQ(WrittenNumber::leading("12.50")->decimals(false), 2);
}

}  // namespace
}  // namespace ductwright::exchange
