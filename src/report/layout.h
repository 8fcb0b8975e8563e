#pragma once

#include <QStringList>
#include <vector>

#include "paper.h"
#include "report/content.h"
#include "typeface.h"

namespace ductwright::report {

// A part of a block that no page break may divide: a line of a table, a row of figures.
struct Piece {
  const Block* block = nullptr;
  std::size_t row = 0;           // of the block, in its own counting
  double height = 0;
  bool stays = false;            // with what follows: a heading, a table's head
  bool head = false;             // a table's head, repeated on each page that the table runs over
  std::vector<QStringList> cells;  // wrapped text
};

struct PlacedPiece {
  std::size_t piece = 0;
  double y = 0;  // of its top, from the top of the text
};
using PageLayout = std::vector<PlacedPiece>;

// A section set on pages. It refers to the section's blocks, which must outlive it.
struct SectionLayout {
  std::vector<Piece> pieces;
  std::vector<PageLayout> pages;
};
SectionLayout layOut(const Section& section, const Paper& paper, const Typeface& typeface);

// Where the columns of a table stand: left edge and width.
struct ColumnBox {
  double x = 0, width = 0;
};
std::vector<ColumnBox> columnBoxes(const Table& table, double width);

// How many marks of a grid stand side by side, and how wide each is.
struct GridShape {
  std::size_t columns = 1;
  double cell = 0;
};
GridShape gridShape(const MarkGrid& grid, double width, const Typeface& typeface);

// The columns of a list of facts: how wide the names are, and the types of name and value.
struct FactShape {
  double name;
  Type nameType, valueType;
};
FactShape factShape(const Facts& facts);

inline constexpr double kCellPad = 3, kMarkSize = 6.5, kMarkGap = 9;

}  // namespace ductwright::report
