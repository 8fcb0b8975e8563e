#include "../../src/report/layout.h"

#include <gmock/gmock.h>

#include <QFontMetricsF>

#include "qt_fixture.h"

namespace ductwright::report {
namespace {

struct Layout : QtFixture {
  static Table tableOf(std::size_t rows) {
    Table table;
    table.caption = "Invented";
    table.columns = {{"what"}, {"how much", 1, Align::right}};
    for (std::size_t i = 0; i < rows; ++i) table.rows.push_back({{"row " + std::to_string(i), {}}, {std::to_string(i), {}}});
    return table;
  }
  static double end(const SectionLayout& layout, const PageLayout& page) {
    return page.back().y + layout.pieces[page.back().piece].height;
  }
  Typeface typeface;
  Paper paper = Paper::of(quantity::System::ip);
};

TEST_F(Layout, NothingRunsOverTheFootOfAPage) {
  const Section section{"Invented", 0, {tableOf(400), Paragraph{std::string(9000, 'x'), Weight::normal}}};
  const SectionLayout layout = layOut(section, paper, typeface);
  ASSERT_GT(layout.pages.size(), 5U);
  for (const PageLayout& page : layout.pages) EXPECT_LE(end(layout, page), paper.textHeight() + 1e-9);
}

TEST_F(Layout, EveryPieceStandsOnceAndInOrder) {
  const Section section{"Invented", 0, {tableOf(200)}};
  const SectionLayout layout = layOut(section, paper, typeface);
  std::size_t next = 0;
  for (const PageLayout& page : layout.pages) {
    for (const PlacedPiece& placed : page) {
      if (layout.pieces[placed.piece].head && placed.piece != next) continue;  // repeated
      EXPECT_EQ(placed.piece, next++);
    }
  }
  EXPECT_EQ(next, layout.pieces.size());
}

TEST_F(Layout, ATableThatRunsOnRepeatsItsHead) {
  const Section section{"Invented", 0, {tableOf(200)}};
  const SectionLayout layout = layOut(section, paper, typeface);
  ASSERT_GT(layout.pages.size(), 1U);
  for (std::size_t i = 1; i < layout.pages.size(); ++i) EXPECT_TRUE(layout.pieces[layout.pages[i][0].piece].head);
}

TEST_F(Layout, AHeadingStaysWithWhatFollows) {
  for (std::size_t rows = 40; rows < 70; ++rows) {
    const Section section{"Invented", 0, {tableOf(rows), Heading{"Next", Rank::part, {}, ""}, tableOf(3)}};
    const SectionLayout layout = layOut(section, paper, typeface);
    for (const PageLayout& page : layout.pages) EXPECT_FALSE(layout.pieces[page.back().piece].stays) << rows;
  }
}

TEST_F(Layout, LinesAreNoWiderThanTheirColumn) {
  const QString text = QStringLiteral("measured flow 412 cfm; inlet pressure difference 0.165 in. w.g.; a verylongwordthatfitsnowhereatall");
  for (const double width : {60.0, 90.0, 200.0}) {
    for (const QString& line : typeface.wrapped(text, Type::cell, width)) EXPECT_LE(typeface.width(line, Type::cell), width) << width;
  }
}

TEST_F(Layout, WrappingLosesNoText) {
  const QString text = QStringLiteral("measured flow 412 cfm; inlet pressure difference 0.165 in. w.g.");
  EXPECT_EQ(typeface.wrapped(text, Type::cell, 70).join(u' '), text);
}

TEST_F(Layout, ANumberIsNotPartedFromItsUnit) {
  const QString text = QStringLiteral("flow 412 cfm flow 412 cfm flow 412 cfm flow 412 cfm");
  for (double width = 45; width < 120; width += 3) {
    for (const QString& line : typeface.wrapped(text, Type::cell, width)) EXPECT_FALSE(line.endsWith(QStringLiteral("412"))) << width;
  }
}

TEST_F(Layout, RightAlignedNumbersEndWhereTheirColumnEnds) {
  // A text is as wide as its letters: what the layout adds up is what the font draws.
  const QString number = QStringLiteral("1,234.5 cfm ± 12");
  EXPECT_NEAR(typeface.width(number, Type::cell), QFontMetricsF(typeface.font(Type::cell)).horizontalAdvance(number), 0.05);
}

}  // namespace
}  // namespace ductwright::report
