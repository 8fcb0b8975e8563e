#include <gmock/gmock.h>

#include <filesystem>
#include <map>

#include "reading_files.h"
#include "spreadsheet_date.h"
#include "zip_files.h"

namespace ductwright::exchange::testing {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

std::filesystem::path file(const char* name) { return std::filesystem::path(DUCTWRIGHT_SOURCE_DIR) / "tests/exchange/files" / name; }

Table opened(const char* name, std::string sheet = {}) {
  auto table = readTable(file(name), TableChoice{.delimiter = {}, .sheet = std::move(sheet)});
  EXPECT_TRUE(table) << (table ? "" : table.error().sentence);
  return table ? *table : readPasted("");
}

// First column to second column.
std::map<std::string, std::string> pairs(const Table& table) {
  std::map<std::string, std::string> out;
  for (std::size_t r = 1; r < table.rows(); ++r) out[std::string(table.text(r, 0))] = table.text(r, 1);
  return out;
}

TEST(Xlsx, ReadsEveryKindOfCellFromTheOtherWriter) {
  const Table table = opened("cells_openpyxl.xlsx");
  const auto cell = pairs(table);
  EXPECT_EQ(cell.at("whole"), "450");
  EXPECT_EQ(cell.at("share"), "0.1");
  EXPECT_EQ(cell.at("negative"), "-3.25");
  EXPECT_EQ(cell.at("text"), "Büro <2> & co");
  EXPECT_EQ(cell.at("true"), "1");
  EXPECT_EQ(cell.at("false"), "0");
  EXPECT_EQ(cell.at("day"), "2026-03-04");
  EXPECT_EQ(cell.at("moment"), "2026-03-04T10:15:30");
  EXPECT_EQ(cell.at("time"), "10:15:00");
  EXPECT_EQ(cell.at("blank ends"), "  x  ");
  EXPECT_EQ(cell.at("empty"), "");
  EXPECT_EQ(cell.at("guarded"), "=1+1");
  EXPECT_EQ(cell.at("percent"), "7.5 %");
  EXPECT_EQ(cell.at("quoted letters"), "12");
  EXPECT_EQ(cell.at("duration"), "00:02:30");
  EXPECT_EQ(cell.at("error"), "#REF!");
  EXPECT_EQ(table.kind(1, 1), CellKind::number);
  EXPECT_EQ(table.kind(4, 1), CellKind::text);
  EXPECT_EQ(table.kind(5, 1), CellKind::boolean);
  EXPECT_EQ(table.kind(7, 1), CellKind::date);
  EXPECT_EQ(table.kind(table.rows() - 1, 1), CellKind::error);
}

TEST(Xlsx, TakesTheFirstSheetThatHasCellsAndListsThemAll) {
  const Table table = opened("schedule_openpyxl.xlsx");
  EXPECT_EQ(table.sheet(), "Level 2");
  EXPECT_THAT(table.sheets(), ElementsAre("Cover", "Level 2"));
  EXPECT_EQ(table.description(), "XLSX, sheet “Level 2”");
  EXPECT_EQ(table.delimiter(), 0);
}

TEST(Xlsx, SaysWhichSheetsThereAre) {
  const auto table = readTable(file("schedule_openpyxl.xlsx"), TableChoice{.delimiter = {}, .sheet = "Level 3"});
  ASSERT_FALSE(table);
  EXPECT_EQ(table.error().sentence, "The workbook has no sheet “Level 3”: it has “Cover”, “Level 2”.");
}

TEST(Xlsx, TellsMergedCellsHiddenRowsAndFormulas) {
  EXPECT_THAT(linesOf(opened("schedule_openpyxl.xlsx").problems()),
              ElementsAre("f: the sheet has 1 merged cell, only the first cell of each holds the value, unmerge them",
                          "f: 1 hidden row of the sheet are read as well, delete what should not go in",
                          "f: 1 cell of the sheet are formulas, their last saved values are used, check that they are up to date"));
}

TEST(Xlsx, BecomesAScheduleWithTitlesAbbreviationsAndUnitsInHeaders) {
  const Table table = opened("schedule_openpyxl.xlsx");
  const auto import = readSchedule(table, layoutFrom(TableKind::schedule, table));
  ASSERT_EQ(import.records.size(), 2U);
  const fleet::Unit& first = import.records[0].record;
  EXPECT_EQ(import.records[0].row, 4U);
  EXPECT_EQ(first.tag, "2-01");
  EXPECT_EQ(first.floor, "2");
  EXPECT_EQ(first.kind, fleet::UnitKind::reheat);
  EXPECT_EQ(first.coolingMax, quantity::cfm(450));
  EXPECT_EQ(first.coolingMin, quantity::cfm(120.5));
  EXPECT_EQ(first.heatEnableRatio, 0.75);
  EXPECT_EQ(import.records[1].record.heaterPower, quantity::kilowatts(4.5));
  // The other writer saved no value with its formula.
  EXPECT_THAT(linesOf(import.problems), Contains("f:5: Clg Max\nCFM: the cell is empty, fill it in"));
}

TEST(Xlsx, ReadsDatesOfThe1904System) {
  const Table table = opened("since_1904_openpyxl.xlsx");
  EXPECT_EQ(table.text(1, 2), "2026-03-04");
}

TEST(Xlsx, TellsMissingParts) {
  Parts parts = workbookParts(R"(<row><c t="s"><v>0</v></c></row>)", "<si><t>unit</t></si>");
  parts.pop_back();
  const Table strings = tableFrom(zipOf(parts));
  EXPECT_TRUE(strings.problems().blocked());
  EXPECT_THAT(linesOf(strings.problems()), Contains("f: the part “xl/sharedStrings.xml” of the workbook is missing, export it again"));
  EXPECT_EQ(readTable(file("no_sheet.xlsx")).error().sentence, "The sheet “Level 2” is missing from the workbook: export it again.");
  EXPECT_EQ(readTable(file("no_workbook.xlsx")).error().sentence, "The file is a zip archive without a workbook in it: save it as XLSX or CSV.");
}

TEST(Xlsx, ReadsInlineStringsRichTextAndCachedFormulas) {
  const Table table = tableFrom(workbookOf(
      R"(<row r="1"><c r="A1" t="inlineStr"><is><r><t>cooling </t></r><r><t>max</t></r><rPh><t>no</t></rPh></is></c><c r="C1" t="s"><v>0</v></c></row>)"
      R"(<row r="3"><c t="str"><f>A1</f><v>from a formula</v></c><c><f>1+1</f><v>2</v></c><c><f>1/0</f></c></row>)",
      R"(<si><r><t xml:space="preserve">two </t></r><r><t>runs</t></r></si>)"));
  ASSERT_EQ(table.rows(), 2U);
  EXPECT_EQ(table.text(0, 0), "cooling max");
  EXPECT_EQ(table.text(0, 1), "");
  EXPECT_EQ(table.text(0, 2), "two runs");
  EXPECT_EQ(table.place(1), 3U);
  EXPECT_EQ(table.text(1, 0), "from a formula");
  EXPECT_TRUE(table.isFormula(1, 1));
  EXPECT_EQ(table.text(1, 2), "");
  EXPECT_TRUE(table.isFormula(1, 2));
}

TEST(Xlsx, TellsCellsThatMakeNoSense) {
  const Table table = tableFrom(workbookOf(R"(<row r="1"><c r="A1" t="s"><v>7</v></c><c r="B1"><v>12x</v></c></row>)"
                                           R"(<row r="2"><c r="A2"><v>1</v></c><c r="A2"><v>2</v></c></row><row r="1"><c><v>1</v></c></row>)"));
  EXPECT_THAT(linesOf(table.problems()), ElementsAre("f:1: the cell's text is missing from the workbook, export the workbook again",
                                                     "f:1: the cell is marked as a number and holds “12x”, export the workbook again",
                                                     "f:2: the sheet has this cell twice, export the workbook again",
                                                     "f:1: the rows of the sheet are not in order, export the workbook again"));
}

TEST(Xlsx, RefusesADocumentTypeDeclaration) {
  const std::string bomb = R"(<!DOCTYPE x [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;">]>)";
  const auto table = readTable(workbookOf(R"(<row><c t="inlineStr"><is><t>&b;</t></is></c></row>)", {}, bomb));
  ASSERT_FALSE(table);
  EXPECT_EQ(table.error().sentence,
            "The part “xl/worksheets/sheet1.xml” of the workbook has a document type declaration, which workbooks never have: export it again.");
}

TEST(Xlsx, RefusesDeepNesting) {
  std::string deep;
  for (int i = 0; i < 200; ++i) deep += "<x>";
  const auto table = readTable(workbookOf(deep));
  ASSERT_FALSE(table);
  EXPECT_THAT(table.error().sentence, HasSubstr("is nested too deep"));
}

TEST(Xlsx, RefusesAPartThatUnpacksToAHundredTimesItsSize) {
  const auto table = readTable(workbookOf("<row><c><v>1</v></c></row>" + std::string(20'000'000, ' ')));
  ASSERT_FALSE(table);
  EXPECT_THAT(table.error().sentence, HasSubstr("unpack to more than 100 times its size"));
}

TEST(Xlsx, RefusesMoreThan200MebibytesBeforeInflatingThem) {
  const auto table = readTable(announcing(workbookOf("<row><c><v>1</v></c></row>"), 201U << 20));
  ASSERT_FALSE(table);
  EXPECT_THAT(table.error().sentence, HasSubstr("unpack to more than 200 MiB"));
}

TEST(Xlsx, RefusesAPartThatIsLongerOrShorterThanAnnounced) {
  const std::string whole = workbookOf("<row><c><v>1</v></c></row>");
  for (const std::uint32_t size : {1U, 100U, 900'000U}) {
    const auto table = readTable(announcing(whole, size));
    ASSERT_FALSE(table) << size;
    EXPECT_EQ(table.error().sentence, "The workbook is damaged or cut off: export it again.");
  }
}

TEST(Xlsx, RefusesACellFarOutside) {
  for (const auto* place : {"XFD1", "ZZZ1", "A1048577", "A99999999"}) {
    const auto table = readTable(workbookOf(std::string("<row r=\"") + (place[0] == 'A' ? place + 1 : "1") + "\"><c r=\"" + place + "\"><v>1</v></c></row>"));
    ASSERT_FALSE(table) << place;
    EXPECT_THAT(table.error().sentence, HasSubstr("has cells far outside its table"));
  }
}

TEST(Xlsx, LeavesOutStyledCellsWithoutAValue) {
  EXPECT_EQ(tableFrom(workbookOf(R"(<row r="1"><c r="A1"><v>1</v></c><c r="XFD1" s="3"/></row>)")).columns(), 1U);
}

TEST(Xlsx, CanBeStoppedAndTellsItsProgress) {
  std::string rows;
  for (int i = 0; i < 60'000; ++i) rows += "<row><c><v>" + std::to_string(i * 7919 % 100'003) + "</v></c></row>";
  std::stop_source stop;
  double last = 0;
  const Job job{stop.get_token(), [&](double share) {
                  last = share;
                  if (share > 0.2) stop.request_stop();
                }};
  const auto table = readTable(workbookOf(rows), {}, job);
  ASSERT_FALSE(table);
  EXPECT_EQ(table.error().sentence, "Stopped: nothing was imported.");
  EXPECT_LT(last, 0.6);
}

TEST(Xlsx, NeverReadsAFileThatWasCutOffWithoutAWord) {
  const std::string whole = workbookOf(R"(<row><c t="inlineStr"><is><t>unit</t></is></c></row><row><c><v>1</v></c></row>)");
  for (std::size_t length = 4; length < whole.size(); ++length) EXPECT_FALSE(readTable(whole.substr(0, length))) << length;
}

TEST(Xlsx, NeverReadsADamagedByteAsADifferentCell) {
  const std::string whole = workbookOf(R"(<row><c t="inlineStr"><is><t>unit</t></is></c><c><v>450</v></c></row>)");
  std::size_t refused = 0;
  for (std::size_t i = 0; i < whole.size(); ++i) {
    std::string damaged = whole;
    damaged[i] = static_cast<char>(damaged[i] ^ 0x10);
    const auto table = readTable(damaged);
    refused += table ? 0 : 1;
    if (table && table->rows() == 1 && table->delimiter() == 0) {
      EXPECT_EQ(table->text(0, 0), "unit") << i;
      EXPECT_EQ(table->text(0, 1), "450") << i;
    }
  }
  EXPECT_GT(refused, whole.size() / 4);
}

// ECMA-376 Part 1, 18.17.4.1: day 1 is 1 January 1900 (or 0 is 1 January 1904); the common programs' day 60 never was.
TEST(SpreadsheetDate, CountsDaysInBothSystems) {
  EXPECT_EQ(dateText(1, false), "1900-01-01");
  EXPECT_EQ(dateText(59, false), "1900-02-28");
  EXPECT_EQ(dateText(60, false), std::nullopt);
  EXPECT_EQ(dateText(61, false), "1900-03-01");
  EXPECT_EQ(dateText(46085, false), "2026-03-04");
  EXPECT_EQ(dateText(0, true), "1904-01-01");
  EXPECT_EQ(dateText(46085 - 1462, true), "2026-03-04");
  EXPECT_EQ(dateText(46085.5, false), "2026-03-04T12:00:00");
  EXPECT_EQ(dateText(0.25, false), "06:00:00");
  EXPECT_EQ(dateText(-1, false), std::nullopt);
  EXPECT_EQ(dateText(3e6, false), std::nullopt);
  EXPECT_EQ(dateText(46085.999999999, false), "2026-03-05");
}

TEST(SpreadsheetDate, KnowsFormatsThatMeanDates) {
  for (const auto* format : {"yyyy-mm-dd", "d/m/yy", "[h]:mm:ss", "mm:ss.0", "[$-409]mmmm d, yyyy", "h:mm AM/PM"})
    EXPECT_EQ(styleOfFormat(format), NumberStyle::date) << format;
  for (const auto* format : {"General", "0.00", "#,##0", "0\" days\"", "[Red]0.0", "0.0E+00", "\\d0", "@", "_-* #,##0.00_-"})
    EXPECT_EQ(styleOfFormat(format), NumberStyle::plain) << format;
  EXPECT_EQ(styleOfFormat("0.0%"), NumberStyle::percent);
}

}  // namespace
}  // namespace ductwright::exchange::testing
