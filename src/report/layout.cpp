#include "layout.h"

#include <algorithm>

namespace ductwright::report {
namespace {

QString toText(const std::string& utf8) { return QString::fromUtf8(utf8.data(), static_cast<qsizetype>(utf8.size())); }

Type typeOf(Rank rank) { return rank == Rank::title ? Type::title : rank == Rank::part ? Type::part : Type::heading; }

Type typeOf(Weight weight) {
  return weight == Weight::strong ? Type::strong : weight == Weight::small ? Type::cell : Type::body;
}

// Cuts each kind of block into pieces.
class Cutter {
 public:
  Cutter(SectionLayout& out, const Paper& paper, const Typeface& typeface)
      : m_out(out), m_width(paper.textWidth()), m_typeface(typeface) {}

  void cut(const Block& block) {
    m_block = &block;
    std::visit([this](const auto& content) { add(content); }, block);
  }

 private:
  Piece& push(double height, std::size_t row = 0) {
    Piece piece;
    piece.block = m_block;
    piece.row = row;
    piece.height = height;
    m_out.pieces.push_back(std::move(piece));
    return m_out.pieces.back();
  }

  void add(const Heading& heading) {
    const Type type = typeOf(heading.rank);
    const double room = m_width - (heading.mark ? 20 : 0) - m_typeface.width(toText(heading.aside), Type::strong) - 10;
    QStringList lines = m_typeface.wrapped(toText(heading.text), type, room);
    const double above = m_out.pieces.empty() ? 0 : 6;
    Piece& piece = push(above + m_typeface.lineHeight(type) * static_cast<double>(lines.size()) + 2);
    piece.cells = {std::move(lines), {toText(heading.aside)}};
    piece.stays = true;
  }

  void add(const Paragraph& paragraph) {
    const Type type = typeOf(paragraph.weight);
    const QStringList lines = m_typeface.wrapped(toText(paragraph.text), type, m_width);
    for (qsizetype i = 0; i < lines.size(); ++i) {
      const bool last = i + 1 == lines.size();
      push(m_typeface.lineHeight(type) + (last ? 2 : 0), static_cast<std::size_t>(i)).cells = {{lines[i]}};
    }
  }

  void add(const Facts& facts) {
    const auto columns = static_cast<std::size_t>(facts.columns);
    const std::size_t rows = (facts.facts.size() + columns - 1) / columns;
    const double width = m_width / static_cast<double>(columns);
    const FactShape shape = factShape(facts);
    for (std::size_t row = 0; row < rows; ++row) {
      std::vector<QStringList> cells;
      qsizetype lines = 1;
      for (std::size_t column = 0; column < columns; ++column) {
        const std::size_t at = column * rows + row;  // down the columns, as people read lists
        if (at >= facts.facts.size()) break;
        cells.push_back({toText(facts.facts[at].name)});
        cells.push_back(m_typeface.wrapped(toText(facts.facts[at].value), shape.valueType, width - shape.name - 6));
        lines = std::max(lines, cells.back().size());
      }
      push(m_typeface.lineHeight(shape.valueType) * static_cast<double>(lines) + (row + 1 == rows ? 5 : 1), row).cells = std::move(cells);
    }
  }

  void add(const Table& table) {
    if (!table.caption.empty() || table.rows.empty()) addCaption(table);
    if (table.rows.empty()) return;
    const std::vector<ColumnBox> boxes = columnBoxes(table, m_width);
    std::vector<QStringList> titles;
    qsizetype lines = 1;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
      titles.push_back(m_typeface.wrapped(toText(table.columns[i].title), Type::cellHead, boxes[i].width));
      lines = std::max(lines, titles.back().size());
    }
    Piece& head = push(m_typeface.lineHeight(Type::cellHead) * static_cast<double>(lines) + 3);
    head.head = head.stays = true;
    head.cells = std::move(titles);
    for (std::size_t row = 0; row < table.rows.size(); ++row) addRow(table, boxes, row);
    m_out.pieces.back().height += 4;
  }

  // The caption is a piece without cells of its own row: row 0 of a piece that is neither head nor row.
  void addCaption(const Table& table) {
    Piece& caption = push(m_typeface.lineHeight(Type::heading) + (table.rows.empty() ? m_typeface.lineHeight(Type::body) + 4 : 1) + 3, 0);
    caption.cells = {{toText(table.caption)}};
    if (table.rows.empty()) caption.cells.push_back({toText(table.empty)});
    caption.stays = !table.rows.empty();
  }

  void addRow(const Table& table, const std::vector<ColumnBox>& boxes, std::size_t row) {
    std::vector<QStringList> cells;
    qsizetype lines = 1;
    cells.reserve(table.rows[row].size());
    for (std::size_t i = 0; i < table.rows[row].size(); ++i) {
      const Cell& cell = table.rows[row][i];
      const double width = boxes[i].width - (cell.mark ? kMarkGap : 0);
      cells.push_back(cell.text.empty() ? QStringList() : m_typeface.wrapped(toText(cell.text), Type::cell, width));
      lines = std::max(lines, cells.back().size());
    }
    push(m_typeface.lineHeight(Type::cell) * static_cast<double>(lines) + 1.3, row + 1).cells = std::move(cells);
  }

  void add(const Figures& figures) { push(figures.height + 3); }
  void add(const CountBar&) { push(38); }
  void add(const Key&) { push(12); }
  void add(const SignatureLines& lines) { push(34.0 * static_cast<double>((lines.people.size() + 1) / 2)); }

  // Rows are counted through all groups; a group's name is a row of its own.
  void add(const MarkGrid& grid) {
    const GridShape shape = gridShape(grid, m_width, m_typeface);
    std::size_t row = 0;
    for (std::size_t g = 0; g < grid.groups.size(); ++g) {
      Piece& name = push(m_typeface.lineHeight(Type::heading) + 2, row++);
      name.cells = {{toText(grid.groups[g].name)}};
      name.stays = true;
      const auto& units = grid.groups[g].units;
      for (std::size_t first = 0; first < units.size(); first += shape.columns) {
        Piece& line = push(11.5, row++);
        QStringList tags;
        for (std::size_t i = first; i < std::min(units.size(), first + shape.columns); ++i) tags.append(toText(units[i].text));
        QStringList place{QString::number(g), QString::number(first)};
        line.cells = {std::move(tags), std::move(place)};
      }
    }
    if (!m_out.pieces.empty()) m_out.pieces.back().height += 6;
  }

  SectionLayout& m_out;
  double m_width;
  const Typeface& m_typeface;
  const Block* m_block = nullptr;
};

// The height of a piece with those that must follow it.
double chainHeight(const std::vector<Piece>& pieces, std::size_t at) {
  double height = pieces[at].height;
  while (pieces[at].stays && at + 1 < pieces.size()) height += pieces[++at].height;
  return height;
}

std::vector<PageLayout> paginate(const std::vector<Piece>& pieces, double room) {
  std::vector<PageLayout> pages(1);
  double y = 0;
  std::size_t head = 0;
  const Block* headed = nullptr;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const Piece& piece = pieces[i];
    if (piece.head) {
      head = i;
      headed = piece.block;
    }
    if (y + chainHeight(pieces, i) > room && !pages.back().empty()) {
      pages.emplace_back();
      y = 0;
      if (piece.block == headed && !piece.head) {
        pages.back().push_back({head, 0});
        y = pieces[head].height;
      }
    }
    pages.back().push_back({i, y});
    y += piece.height;
  }
  return pages;
}

}  // namespace

std::vector<ColumnBox> columnBoxes(const Table& table, double width) {
  double shares = 0;
  for (const Table::Column& column : table.columns) shares += column.share;
  std::vector<ColumnBox> boxes;
  double x = 0;
  for (const Table::Column& column : table.columns) {
    const double span = width * column.share / shares;
    boxes.push_back({x, span - 2 * kCellPad});
    x += span;
  }
  return boxes;
}

FactShape factShape(const Facts& facts) {
  if (facts.lead) return {84, Type::body, Type::lead};
  return {facts.columns == 1 ? 78.0 : 62.0, Type::cell, Type::body};
}

GridShape gridShape(const MarkGrid& grid, double width, const Typeface& typeface) {
  double widest = 20;
  for (const MarkGrid::Group& group : grid.groups) {
    for (const Cell& unit : group.units) widest = std::max(widest, typeface.width(toText(unit.text), Type::cell));
  }
  const double cell = widest + kMarkGap + 7;
  const auto columns = std::max<std::size_t>(1, static_cast<std::size_t>(width / cell));
  return {columns, width / static_cast<double>(columns)};
}

SectionLayout layOut(const Section& section, const Paper& paper, const Typeface& typeface) {
  SectionLayout layout;
  Cutter cutter(layout, paper, typeface);
  for (const Block& block : section.blocks) cutter.cut(block);
  if (!layout.pieces.empty()) layout.pages = paginate(layout.pieces, paper.textHeight());
  return layout;
}

}  // namespace ductwright::report
