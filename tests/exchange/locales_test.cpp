#include <gmock/gmock.h>

#include <cmath>

#include "reading_files.h"

namespace ductwright::exchange::testing {
namespace {

// How people of one place write a file.
struct Locale {
  char delimiter;
  bool decimalComma;
  std::string_view group;  // of thousands
  Encoding encoding;
  std::string_view lineEnd;
};

void PrintTo(const Locale& l, std::ostream* out) {
  *out << "delimiter " << l.delimiter << (l.decimalComma ? " comma" : " point") << " group '" << l.group << "' encoding "
       << static_cast<int>(l.encoding) << (l.lineEnd == "\n" ? " LF" : " CRLF");
}

std::string grouped(std::string digits, std::string_view group) {
  for (std::size_t at = digits.size(); at > 3; at -= 3) digits.insert(at - 3, group);
  return digits;
}

// A number as that place writes it, with `decimals` digits.
std::string written(double value, int decimals, const Locale& locale) {
  std::array<char, 40> buffer{};
  const int n = std::snprintf(buffer.data(), buffer.size(), "%.*f", decimals, value);
  std::string text(buffer.data(), static_cast<std::size_t>(n));
  const std::size_t point = std::min(text.find('.'), text.size());
  return grouped(text.substr(0, point), locale.group) + (point < text.size() ? (locale.decimalComma ? "," : ".") + text.substr(point + 1) : "");
}

std::string encoded(std::string_view utf8, Encoding encoding) {
  if (encoding == Encoding::utf8) return std::string(utf8);
  if (encoding == Encoding::utf8Marked) return "\xEF\xBB\xBF" + std::string(utf8);
  std::string out = encoding == Encoding::utf16Little ? "\xFF\xFE" : encoding == Encoding::utf16Big ? "\xFE\xFF" : "";
  for (std::size_t i = 0; i < utf8.size(); ++i) {
    unsigned code = static_cast<unsigned char>(utf8[i]);
    if (code >= 0xC0) code = (code & 0x1F) << 6 | (static_cast<unsigned char>(utf8[++i]) & 0x3F);  // up to U+07FF
    if (encoding == Encoding::windows1252) {
      out += static_cast<char>(code);
    } else {
      const char low = static_cast<char>(code & 0xFF), high = static_cast<char>(code >> 8);
      out += encoding == Encoding::utf16Little ? low : high;
      out += encoding == Encoding::utf16Little ? high : low;
    }
  }
  return out;
}

// What stands in the files: flows of four sizes, written with no, one and three decimals.
struct Truth {
  std::string zone;
  double coolingMax, coolingMin, reheat;
};
const std::vector<Truth> kTruth = {{"Büro 1, Süd", 1250, 120.5, 0.125}, {"Café; à côté", 450, 1250.75, 999.999}, {"Größe 3 m²", 12500, 0.5, 1234.5}, {"plain", 90, 1000, 2000}};

std::string fileOf(const Locale& locale) {
  std::string text;
  const auto row = [&](const std::vector<std::string>& cells) {
    for (std::size_t i = 0; i < cells.size(); ++i) {
      if (i > 0) text += locale.delimiter;
      const bool quote = cells[i].find_first_of(",;\t") != std::string::npos;
      text += quote ? "\"" + cells[i] + "\"" : cells[i];
    }
    text += locale.lineEnd;
  };
  row({"unit", "floor", "zone", "kind", "cooling max flow", "cooling min flow", "reheat flow"});
  int n = 0;
  for (const Truth& t : kTruth)
    row({"1-0" + std::to_string(++n), "1", t.zone, "reheat", written(t.coolingMax, 0, locale), written(t.coolingMin, 2, locale), written(t.reheat, 3, locale)});
  return encoded(text, locale.encoding);
}

std::vector<Locale> fiftyPlaces() {
  struct Style {
    char delimiter;
    bool decimalComma;
    std::string_view group;
  };
  const Style styles[] = {{',', false, ""}, {';', true, "."}, {';', true, "\xC2\xA0"}, {'\t', false, ","}, {'\t', true, "'"}};
  std::vector<Locale> out;
  for (const Style& s : styles)
    for (const auto encoding : {Encoding::utf8, Encoding::utf8Marked, Encoding::utf16Little, Encoding::utf16Big, Encoding::windows1252})
      for (const std::string_view lineEnd : {"\n", "\r\n"}) out.push_back({s.delimiter, s.decimalComma, s.group, encoding, lineEnd});
  return out;
}

class FromEverywhere : public ::testing::TestWithParam<Locale> {};

TEST_P(FromEverywhere, EveryValueIsReadAsItWasMeant) {
  const Table table = tableFrom(fileOf(GetParam()));
  EXPECT_EQ(table.delimiter(), GetParam().delimiter);
  EXPECT_EQ(table.encoding(), GetParam().encoding);
  const auto import = readSchedule(table, layoutFrom(TableKind::schedule, table));
  EXPECT_EQ(import.problems.errors(), 0U) << ::testing::PrintToString(linesOf(import.problems));
  ASSERT_EQ(import.records.size(), kTruth.size());
  for (std::size_t i = 0; i < kTruth.size(); ++i) {
    const fleet::Unit& unit = import.records[i].record;
    EXPECT_EQ(unit.zone, kTruth[i].zone);
    EXPECT_EQ(unit.coolingMax, quantity::cfm(kTruth[i].coolingMax));
    EXPECT_EQ(unit.coolingMin, quantity::cfm(kTruth[i].coolingMin));
    EXPECT_EQ(unit.reheat, quantity::cfm(kTruth[i].reheat));
  }
}

INSTANTIATE_TEST_SUITE_P(FiftyFiles, FromEverywhere, ::testing::ValuesIn(fiftyPlaces()));

// The hard ones: what cannot be known is told, never guessed.
struct Hard {
  const char* cells;      // of cooling max, one a row
  std::vector<double> read;  // cfm, of the rows that go in
  std::size_t errors;
};

std::string hardFile(char delimiter, const std::string& cells) {
  std::string text = "unit*floor*kind*cooling max flow*cooling min flow\n";
  int n = 0;
  for (std::size_t at = 0; at < cells.size();) {
    const std::size_t end = std::min(cells.find('|', at), cells.size());
    const std::string cell = cells.substr(at, end - at);
    text += std::to_string(++n) + "*1*reheat*" + (cell.find(delimiter) == std::string::npos ? cell : "\"" + cell + "\"") + "*1\n";
    at = end + 1;
  }
  std::replace(text.begin(), text.end(), '*', delimiter);
  return text;
}

Import<fleet::Unit> hard(char delimiter, const std::string& cells) { return scheduleFrom(hardFile(delimiter, cells)); }

void expectRead(char delimiter, const Hard& file) {
  const auto import = hard(delimiter, file.cells);
  EXPECT_EQ(import.problems.errors(), file.errors) << file.cells << ::testing::PrintToString(linesOf(import.problems));
  ASSERT_EQ(import.records.size(), file.read.size()) << file.cells;
  for (std::size_t i = 0; i < file.read.size(); ++i) EXPECT_EQ(import.records[i].record.coolingMax, quantity::cfm(file.read[i])) << file.cells;
}

TEST(Locales, ACommaBetweenCellsNeverMakesADecimalComma) {
  expectRead(',', {"450|1,250|12.5", {450, 1250, 12.5}, 0});
  expectRead(',', {"450|12,5", {450}, 1});
  expectRead(',', {"0,125|1,250", {}, 2});
  expectRead(',', {"1.250", {1.25}, 0});
}

TEST(Locales, ADecimalCommaIsRecognisedByACellThatCanOnlyBeReadSo) {
  expectRead(';', {"1.250|12,5|450", {1250, 12.5, 450}, 0});
  expectRead(';', {"1,250|12.5|450", {1250, 12.5, 450}, 0});
  expectRead('\t', {"1,250|0,5", {1.25, 0.5}, 0});
}

TEST(Locales, WhatCouldBeReadBothWaysIsTold) {
  expectRead(';', {"1,250|450", {450}, 1});
  expectRead('\t', {"1.250|450", {450}, 1});
  EXPECT_THAT(linesOf(hard(';', "1,250").problems),
              ::testing::ElementsAre("f:2: cooling max flow: “1,250” may be 1250 or 1.25, choose the decimal mark of the file"));
}

TEST(Locales, AContradictionIsToldAndTheMinorityStaysOut) {
  const auto import = hard(';', "12,5|13,5|12.5|1,250");
  EXPECT_THAT(linesOf(import.problems),
              ::testing::ElementsAre("f: some numbers have a decimal point and some a decimal comma, correct those that are told below",
                                     "f:4: cooling max flow: “12.5” has a decimal point where the file has decimal commas, "
                                     "write it with a comma or choose the decimal point for the whole file",
                                     "f:5: cooling max flow: “1,250” may be 1250 or 1.25, choose the decimal mark of the file"));
  EXPECT_EQ(import.records.size(), 2U);
}

TEST(Locales, APersonsChoiceSettlesIt) {
  const Table table = tableFrom("unit;floor;kind;cooling max flow;cooling min flow\n1;1;reheat;1,250;1\n");
  Mapping mapping = suggestMapping(TableKind::schedule, table);
  for (const auto& [decimal, value] : {std::pair{Decimal::comma, 1.25}, std::pair{Decimal::point, 1250.0}}) {
    mapping.decimal = decimal;
    const auto import = readSchedule(table, layoutOf(mapping, table, quantity::System::ip));
    ASSERT_EQ(import.records.size(), 1U);
    EXPECT_EQ(import.records[0].record.coolingMax, quantity::cfm(value));
  }
}

TEST(Locales, TagsDoNotDecideTheDecimalMark) {
  const Table table = tableFrom("unit;floor;kind;cooling max flow;cooling min flow\n2.14;1.5;reheat;12,5;1\n2.15;1.5;reheat;0,5;1\n");
  const auto import = readSchedule(table, layoutFrom(TableKind::schedule, table));
  EXPECT_EQ(import.problems.errors(), 0U);
  EXPECT_EQ(import.records.at(0).record.tag, "2.14");
}

// Every way to write these numbers, in every mix of three with every delimiter: what goes in is always what somebody
// meant who wrote the whole file in one manner.
TEST(Locales, NoMixIsReadSilentlyInTwoManners) {
  const std::vector<std::string> forms = {"450", "1,250", "1.250", "12,5", "12.5", "1,250.5", "1.250,5", "0,125", "0.125"};
  const auto& cfm = quantity::unitFor(quantity::Dimension::airflow, quantity::System::ip);
  for (const char delimiter : {',', ';', '\t'}) {
    const Mapping mapping = suggestMapping(TableKind::schedule, tableFrom(hardFile(delimiter, "450")));
    for (const auto& a : forms)
      for (const auto& b : forms)
        for (const auto& c : forms) {
          const std::vector<std::string> cells = {a, b, c};
          const auto table = readTable(hardFile(delimiter, a + "|" + b + "|" + c), TableChoice{.delimiter = delimiter, .sheet = {}});
          ASSERT_TRUE(table);
          const auto import = readSchedule(*table, layoutOf(mapping, *table, quantity::System::ip));
          const auto meant = [&](bool decimalComma) {
            return std::all_of(import.records.begin(), import.records.end(), [&](const auto& placed) {
              const auto typed = quantity::readQuantity(cells[placed.row - 2], quantity::Dimension::airflow, cfm, decimalComma);
              return typed && std::abs(typed->si - placed.record.coolingMax->si()) < 1e-12;
            });
          };
          EXPECT_TRUE(meant(false) || meant(true)) << delimiter << " " << a << " | " << b << " | " << c;
        }
  }
}

}  // namespace
}  // namespace ductwright::exchange::testing
