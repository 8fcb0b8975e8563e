#include <gmock/gmock.h>

#include "encoding.h"
#include "reading_files.h"

namespace ductwright::exchange::testing {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

constexpr auto* kText = "unit,note\n1-01,22 °C – Büro €\n";

std::string utf16(std::string_view ascii, bool little, bool mark) {
  std::string out = !mark ? "" : little ? "\xFF\xFE" : "\xFE\xFF";
  for (const char c : ascii) {
    if (!little) out += '\0';
    out += c;
    if (little) out += '\0';
  }
  return out;
}

TEST(Encoding, ReadsUtf8WithAndWithoutItsMark) {
  EXPECT_EQ(decode(kText)->text, kText);
  const auto marked = decode(std::string("\xEF\xBB\xBF") + kText);
  EXPECT_EQ(marked->text, kText);
  EXPECT_EQ(marked->encoding, Encoding::utf8Marked);
}

TEST(Encoding, ReadsUtf16OfBothOrdersWithAndWithoutTheMark) {
  for (const bool little : {true, false})
    for (const bool mark : {true, false}) {
      const auto read = decode(utf16("unit,floor\n1-01,1\n", little, mark));
      ASSERT_TRUE(read);
      EXPECT_EQ(read->text, "unit,floor\n1-01,1\n");
      EXPECT_EQ(read->encoding, little ? Encoding::utf16Little : Encoding::utf16Big);
    }
}

TEST(Encoding, ReadsUtf16BeyondTheFirstPlaneAndTellsHalfPairs) {
  EXPECT_EQ(decode(std::string("\xFF\xFE\x3D\xD8\x00\xDE", 6))->text, "😀");
  const auto half = decode(std::string("\xFF\xFE\x3D\xD8\x41\x00", 6));
  EXPECT_EQ(half->text, "\xEF\xBF\xBD" "A");
  EXPECT_THAT(linesOf(half->problems), ElementsAre("f: the UTF-16 text has 1 broken character, look for the sign � in the preview"));
}

TEST(Encoding, ReadsWindows1252AndSaysSo) {
  const auto read = decode("unit,note\n1-01,22 \xB0" "C \x96 B\xFCro \x80\n");
  ASSERT_TRUE(read);
  EXPECT_EQ(read->text, kText);
  EXPECT_EQ(read->encoding, Encoding::windows1252);
  EXPECT_THAT(linesOf(read->problems),
              ElementsAre("f: the file is not UTF-8 and was read as Windows-1252, check the signs ° ² ³ and accented letters in the preview"));
}

TEST(Encoding, TellsTheRowOfABrokenByteInUtf8) {
  const auto read = decode("unit,note\n1-01,Büro\n1-02,B\xFCro\n");
  ASSERT_TRUE(read);
  EXPECT_EQ(read->encoding, Encoding::utf8);
  EXPECT_THAT(linesOf(read->problems), ElementsAre("f:3: the row has bytes that are not UTF-8, save it as CSV UTF-8 or as XLSX"));
}

TEST(Encoding, RefusesOverlongAndSurrogateForms) {
  for (const auto* bad : {"é,\xC0\xAF", "é,\xED\xA0\x80", "é,\xF4\x90\x80\x80", "é,\xE2\x82"})
    EXPECT_EQ(decode(bad)->problems.errors(), 1U) << bad;
}

TEST(Encoding, RefusesWhatIsNoKnownText) {
  EXPECT_THAT(decode("unit,note\n1-01,\x81\x8D\x8F\n").error().sentence, HasSubstr("encoding is not known"));
  EXPECT_THAT(decode(std::string("\xFF\xFE\0\0a\0\0\0", 8)).error().sentence, HasSubstr("UTF-32"));
}

TEST(Encoding, IsShownInTheTablesDescription) {
  EXPECT_EQ(tableFrom("a;b\n1;2\n").description(), "CSV, UTF-8, semicolon");
  EXPECT_EQ(tableFrom("a\tb\n1\t\xFC\n").description(), "CSV, Windows-1252, tab");
}

}  // namespace
}  // namespace ductwright::exchange::testing
