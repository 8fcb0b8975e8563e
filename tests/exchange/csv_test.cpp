#include <gmock/gmock.h>

#include <numeric>

#include "reading_files.h"

namespace ductwright::exchange::testing {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

std::vector<std::string> cells(const Table& table, std::size_t row) {
  std::vector<std::string> out;
  for (std::size_t c = 0; c < table.width(row); ++c) out.emplace_back(table.text(row, c));
  return out;
}

TEST(Csv, ReadsTheExamplesOfRfc4180) {
  const Table table = tableFrom("aaa,bbb,ccc\r\n\"a \"\"quote\"\"\",\"two\r\nlines\",\"x,y\"\r\nzzz,yyy,xxx");
  ASSERT_EQ(table.rows(), 3U);
  EXPECT_THAT(cells(table, 1), ElementsAre("a \"quote\"", "two\r\nlines", "x,y"));
  EXPECT_THAT(cells(table, 2), ElementsAre("zzz", "yyy", "xxx"));
  EXPECT_TRUE(table.problems().empty());
}

TEST(Csv, TakesLineEndsOfAnyKind) {
  for (const auto* text : {"a,b\n1,2\n", "a,b\r\n1,2\r\n", "a,b\r1,2\r", "a,b\n1,2"}) {
    const Table table = tableFrom(text);
    ASSERT_EQ(table.rows(), 2U) << text;
    EXPECT_THAT(cells(table, 1), ElementsAre("1", "2"));
  }
}

TEST(Csv, LeavesOutEmptyRowsButCountsThem) {
  const Table table = tableFrom("a,b\n\n,\n1,2\n");
  ASSERT_EQ(table.rows(), 2U);
  EXPECT_EQ(table.place(1), 4U);
}

TEST(Csv, RecognisesTheDelimiterByHowEvenlyItSplits) {
  EXPECT_EQ(tableFrom("unit,floor\n1,2\n").delimiter(), ',');
  EXPECT_EQ(tableFrom("unit;floor\n1;2\n").delimiter(), ';');
  EXPECT_EQ(tableFrom("unit\tfloor\n1\t2\n").delimiter(), '\t');
}

TEST(Csv, IsNotMisledByDecimalCommasOrListsInCells) {
  EXPECT_EQ(tableFrom("unit;floor;max;min\n1;1;0,21;0,07\n2;1;0,33;0,11\n3;1;0,40;0,10\n").delimiter(), ';');
  EXPECT_EQ(tableFrom("unit;max\n1;12,5\n").delimiter(), ';');
  EXPECT_EQ(tableFrom("profile,kinds\nA,reheat; exhaust\nB,reheat; exhaust\n").delimiter(), ',');
  EXPECT_EQ(tableFrom("unit\tnote\n1\ta, b, c\n2\td, e, f\n").delimiter(), '\t');
}

TEST(Csv, TheHeaderOutweighsRowsThatHappenToHaveOneCommaEach) {
  EXPECT_EQ(tableFrom("unit;floor;max\n1;1;0,21\n2;1;0,33;;\n3;0,4\n").delimiter(), ';');
}

TEST(Csv, TakesTheDelimiterThatAPersonChose) {
  const auto table = readTable(std::string("a,b;c\n1,2;3\n"), TableChoice{.delimiter = ';', .sheet = {}});
  ASSERT_TRUE(table);
  EXPECT_THAT(cells(*table, 0), ElementsAre("a,b", "c"));
}

TEST(Csv, HonoursTheLineThatNamesTheDelimiter) {
  const Table table = tableFrom("sep=;\na,b;c\n1;2\n");
  EXPECT_EQ(table.delimiter(), ';');
  EXPECT_THAT(cells(table, 0), ElementsAre("a,b", "c"));
  EXPECT_EQ(table.place(0), 2U);
}

TEST(Csv, KeepsAQuoteInsideAPlainCell) {
  EXPECT_THAT(cells(tableFrom("unit,inlet\n1-01,8\"\n"), 1), ElementsAre("1-01", "8\""));
}

TEST(Csv, ForgivesABlankBeforeAnOpeningQuote) {
  EXPECT_THAT(cells(tableFrom("a,b\n1, \"x,y\"\n"), 1), ElementsAre("1", "x,y"));
}

TEST(Csv, TellsAQuoteThatIsNeverClosed) {
  const Table table = tableFrom("a,b\n1,\"x\n2,y\n");
  EXPECT_THAT(linesOf(table.problems()), ElementsAre("f:2: a quote is opened and never closed, close it with \" or remove it"));
  EXPECT_EQ(table.problems().list()[0].column, 2U);
}

TEST(Csv, TellsTextBehindAClosingQuote) {
  EXPECT_THAT(linesOf(tableFrom("a,b\n\"x\"y,z\n").problems()),
              ElementsAre("f:2: text stands behind a closing quote, double the quotes inside the cell"));
}

TEST(Csv, TellsARowWithANulCharacter) {
  EXPECT_THAT(linesOf(tableFrom(std::string("a,b\n1,2\n3,\0004\n", 13)).problems()),
              ElementsAre("f:3: the row has a NUL character: the file is damaged, export it again"));
}

TEST(Csv, RefusesARowWiderThanAnyTable) {
  const auto table = readTable("a\n" + std::string(5000, ','));
  ASSERT_FALSE(table);
  EXPECT_EQ(table.error().sentence, "Row 2 has more than 1,024 cells: is this a CSV file?");
}

TEST(Csv, TellsACellOfAMillionCharacters) {
  const Table table = tableFrom("a,b\n1," + std::string(1'100'000, 'x') + "\n2,y\n");
  EXPECT_THAT(linesOf(table.problems()),
              ElementsAre("f:2: a cell is longer than a million characters, look for a quote that is never closed"));
  EXPECT_EQ(table.text(2, 1), "y");
}

TEST(Csv, RemovesTheGuardOfAFormula) {
  EXPECT_THAT(cells(tableFrom("a,b,c,d\n'=1+1,'-x,''=y,'plain\n"), 1), ElementsAre("=1+1", "-x", "'=y", "'plain"));
}

TEST(Csv, MarksAFormulaThatWasNotGuarded) {
  const Table table = tableFrom("a,b,c\n=1+1,'=1+1,1\n");
  EXPECT_TRUE(table.isFormula(1, 0));
  EXPECT_FALSE(table.isFormula(1, 1));
}

TEST(Csv, CanBeStopped) {
  std::stop_source stop;
  std::string text = "a,b\n";
  for (int i = 0; i < 20'000; ++i) text += "1,2\n";
  double last = 0;
  const Job job{stop.get_token(), [&](double share) {
                  last = share;
                  stop.request_stop();
                }};
  const auto table = readTable(std::move(text), {}, job);
  ASSERT_FALSE(table);
  EXPECT_EQ(table.error().sentence, "Stopped: nothing was imported.");
  EXPECT_LT(last, 0.5);
}

TEST(TableFile, SaysWhatIsWrongWithFilesOfOtherKinds) {
  EXPECT_EQ(readTable(std::string()).error().sentence, "The file is empty: choose another one.");
  EXPECT_THAT(readTable(std::string("%PDF-1.7 …")).error().sentence, HasSubstr("is a PDF"));
  EXPECT_THAT(readTable(std::string("\xD0\xCF\x11\xE0\xA1\xB1")).error().sentence, HasSubstr("old or password-protected workbook"));
  EXPECT_THAT(readTable(std::string("SQLite format 3\0", 16)).error().sentence, HasSubstr("database or a project"));
  std::string noise(5000, '\0');
  std::iota(noise.begin(), noise.end(), '\0');
  EXPECT_EQ(readTable(noise).error().sentence, "The file is neither text nor a workbook: save it as CSV UTF-8 or as XLSX.");
}

TEST(TableFile, SaysWhichFileIsNotThere) {
  const auto table = readTable(std::filesystem::path("/nowhere/schedule.csv"));
  ASSERT_FALSE(table);
  EXPECT_EQ(table.error().sentence, "“/nowhere/schedule.csv” cannot be opened (No such file or directory): check the name and the permission.");
  EXPECT_THAT(readTable(std::filesystem::path("/")).error().sentence, HasSubstr("is a folder"));
}

TEST(Pasted, IsSeparatedByTabs) {
  const Table table = readPasted("1-01\t450, about\n1-02\t500\n");
  ASSERT_EQ(table.rows(), 2U);
  EXPECT_THAT(cells(table, 0), ElementsAre("1-01", "450, about"));
  EXPECT_EQ(readPasted("").rows(), 0U);
}

}  // namespace
}  // namespace ductwright::exchange::testing
