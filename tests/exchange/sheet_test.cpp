#include "exchange/sheet.h"

#include <gmock/gmock.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "reading_files.h"

namespace ductwright::exchange::testing {
namespace {

using ::testing::HasSubstr;

// A folder of its own for one test.
class Folder {
 public:
  Folder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "exchange_XXXXXX").string();
    m_path = ::mkdtemp(pattern.data());
  }
  ~Folder() { std::filesystem::remove_all(m_path); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  std::filesystem::path operator/(const char* name) const { return m_path / name; }

 private:
  std::filesystem::path m_path;
};

std::string contentOf(const std::filesystem::path& path) {
  std::ostringstream out;
  out << std::ifstream(path, std::ios::binary).rdbuf();
  return out.str();
}

Sheet sample() {
  return {"Results: 1/2",
          {{.header = "unit"}, {.header = "flow", .unit = "cfm", .kind = ColumnKind::number, .decimals = 1},
           {.header = "day", .kind = ColumnKind::date}, {.header = "at", .kind = ColumnKind::time}, {.header = "note"}},
          {{std::string("1-01"), 450.25, *fleet::Day::fromText("2026-03-04"), *fleet::Timestamp::fromText("2026-03-04T10:15:00+01:00"), std::string("=1+1")},
           {std::string("1,02"), -3.0, SheetValue{}, SheetValue{}, std::string("a \"b\"\nc")},
           {std::string("007"), SheetValue{}, SheetValue{}, SheetValue{}, std::string("'-x")}}};
}

TEST(CsvSheet, IsRfc4180WithGuardedText) {
  EXPECT_EQ(toCsv(sample()),
            "unit,flow [cfm],day,at,note\r\n"
            "1-01,450.25,2026-03-04,2026-03-04T10:15:00+01:00,'=1+1\r\n"
            "\"1,02\",-3,,,\"a \"\"b\"\"\nc\"\r\n"
            "007,,,,''-x\r\n");
}

TEST(CsvSheet, NoTextStartsAFormulaAndNoNumberIsGuarded) {
  Sheet sheet{"s", {{.header = "=header"}, {.header = "n", .kind = ColumnKind::number}}, {}};
  for (const auto* text : {"=1", "+1", "-1", "@x", "\tx", "\rx", "\nx"}) sheet.rows.push_back({std::string(text), -1.5});
  const std::string csv = toCsv(sheet);
  const Table table = tableFrom(csv);
  EXPECT_THAT(csv, ::testing::StartsWith("'=header,n\r\n"));
  for (std::size_t r = 1; r < table.rows(); ++r) {
    EXPECT_EQ(table.text(r, 0), std::get<std::string>(sheet.rows[r - 1][0]));
    EXPECT_FALSE(table.isFormula(r, 0));
    EXPECT_EQ(table.text(r, 1), "-1.5");
  }
  for (const auto* start : {"\r\n=", "\r\n+", "\r\n-", "\r\n@", "\n\"="}) EXPECT_EQ(csv.find(start), std::string::npos) << start;
}

TEST(XlsxSheet, IsReadAgainCellByCell) {
  const Folder folder;
  Sheet second = sample();
  second.name = "More";
  ASSERT_TRUE(writeXlsx(folder / "out.xlsx", {sample(), second}));
  const auto table = readTable(folder / "out.xlsx");
  ASSERT_TRUE(table);
  EXPECT_THAT(table->sheets(), ::testing::ElementsAre("Results  1 2", "More"));
  EXPECT_EQ(table->text(0, 1), "flow [cfm]");
  EXPECT_EQ(table->text(1, 0), "1-01");
  EXPECT_EQ(table->text(1, 1), "450.25");
  EXPECT_EQ(table->kind(1, 1), CellKind::number);
  EXPECT_EQ(table->text(1, 2), "2026-03-04");
  EXPECT_EQ(table->kind(1, 2), CellKind::date);
  EXPECT_EQ(table->text(1, 3), "2026-03-04T10:15:00+01:00");
  EXPECT_EQ(table->text(1, 4), "=1+1");
  EXPECT_EQ(table->kind(1, 4), CellKind::text);
  EXPECT_FALSE(table->isFormula(1, 4)) << "text never becomes a formula";
  EXPECT_EQ(table->text(2, 4), "a \"b\"\nc");
  EXPECT_EQ(table->text(3, 0), "007");
  EXPECT_EQ(table->text(3, 4), "'-x");
}

TEST(XlsxSheet, KeepsItsLongestTextWithinACellsLimit) {
  const Folder folder;
  ASSERT_TRUE(writeXlsx(folder / "out.xlsx", {Sheet{"s", {{.header = "note"}}, {{std::string(40'000, 'x')}, {std::string("é") + std::string(40'000, 'y')}}}}));
  const auto table = readTable(folder / "out.xlsx");
  ASSERT_TRUE(table);
  EXPECT_EQ(table->rows(), 3U);
  EXPECT_TRUE(table->text(1, 0).ends_with("x…"));
}

TEST(WrittenFile, StreamsAreWrittenLikeSheets) {
  const Folder folder;
  const Sheet sheet = sample();
  std::size_t next = 0;
  const SheetStream stream{sheet.name, sheet.columns, [&](SheetRow& row) {
                             if (next == sheet.rows.size()) return false;
                             row = sheet.rows[next++];
                             return true;
                           }};
  ASSERT_TRUE(writeCsv(folder / "a.csv", sheet));
  ASSERT_TRUE(writeCsv(folder / "b.csv", stream));
  EXPECT_EQ(contentOf(folder / "a.csv"), toCsv(sheet));
  EXPECT_EQ(contentOf(folder / "b.csv"), toCsv(sheet));
}

TEST(WrittenFile, AFailureIsASentenceAndLeavesTheOldFile) {
  const Folder folder;
  ASSERT_TRUE(writeCsv(folder / "a.csv", sample()));
  const auto missing = writeCsv(folder / "no/such/a.csv", sample());
  ASSERT_FALSE(missing);
  EXPECT_THAT(missing.error().sentence, HasSubstr("could not be written (No such file or directory): choose another place or free some space."));
  EXPECT_FALSE(writeXlsx(folder / "no/such/a.xlsx", {sample()}));
  Sheet twice = sample();
  EXPECT_FALSE(writeXlsx(folder / "a.csv", {twice, twice})) << "two sheets of one name";
  EXPECT_EQ(contentOf(folder / "a.csv"), toCsv(sample()));
  std::size_t files = 0;
  for ([[maybe_unused]] const auto& entry : std::filesystem::directory_iterator(folder / "")) ++files;
  EXPECT_EQ(files, 1U) << "nothing is left beside it";
}

TEST(WrittenFile, AFullDiskIsTold) {
  if (!std::filesystem::exists("/dev/full")) GTEST_SKIP();
  const Folder folder;
  std::filesystem::create_symlink("/dev/full", folder / ("a.csv." + std::to_string(::getpid()) + ".part").c_str());
  const auto full = writeCsv(folder / "a.csv", sample());
  ASSERT_FALSE(full);
  EXPECT_THAT(full.error().sentence, HasSubstr("(No space left on device)"));
  EXPECT_FALSE(std::filesystem::exists(folder / "a.csv"));
}

}  // namespace
}  // namespace ductwright::exchange::testing
