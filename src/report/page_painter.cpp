#include "page_painter.h"

#include <array>

#include "plot/draw.h"
#include "plot/mark.h"

namespace ductwright::report {
namespace {

QString toText(const std::string& utf8) { return QString::fromUtf8(utf8.data(), static_cast<qsizetype>(utf8.size())); }

constexpr std::array kStates{Outcome::pass, Outcome::fail, Outcome::cannotTell, Outcome::untested, Outcome::notApplicable};

QString wordOf(Outcome outcome) {
  const std::string_view word = verdict::name(outcome);
  return QString::fromUtf8(word.data(), static_cast<qsizetype>(word.size()));
}

}  // namespace

PagePainter::PagePainter(QCPPainter& painter, const Paper& paper, const Typeface& typeface)
    : m_painter(painter), m_paper(paper), m_typeface(typeface), m_look(plot::printLook()),
      m_strong(m_look.ink, 0.6), m_faint(m_look.faint, 0.4) {}

void PagePainter::line(const QString& text, Type type, double x, double y) {
  if (text.isEmpty()) return;
  m_painter.setFont(m_typeface.font(type));
  m_painter.drawText(QPointF(x, y + m_typeface.baseline(type)), text);
}

void PagePainter::lineRight(const QString& text, Type type, double right, double y) {
  line(text, type, right - m_typeface.width(text, type), y);
}

void PagePainter::rule(double x1, double x2, double y, bool strong) {
  m_painter.setPen(strong ? m_strong : m_faint);
  m_painter.drawLine(QPointF(x1, y), QPointF(x2, y));
  m_painter.setPen(m_strong);
}

void PagePainter::mark(Outcome outcome, double x, double y, Type beside) {
  const double middle = y + m_typeface.baseline(beside) * 0.66;
  const double size = beside == Type::part ? 12 : kMarkSize;
  plot::drawMark(m_painter, outcome, QRectF(x, middle - size / 2, size, size), m_look);
}

double PagePainter::markedWord(Outcome outcome, const QString& word, double x, double y) {
  mark(outcome, x, y, Type::cell);
  line(word, Type::cell, x + kMarkGap, y);
  return x + kMarkGap + m_typeface.width(word, Type::cell);
}

void PagePainter::frame(const PageFrame& frame) {
  const double left = m_paper.side, right = m_paper.width - m_paper.side;
  m_painter.setPen(m_strong);
  line(frame.project, Type::cell, left, 24);
  lineRight(frame.section, Type::cell, right, 24);
  rule(left, right, 35, true);
  const double foot = m_paper.height - m_paper.bottom + 9;
  rule(left, right, foot - 3, false);
  line(frame.title + QStringLiteral(", ") + frame.date, Type::cell, left, foot);
  lineRight(QStringLiteral("page %1 of %2").arg(frame.number).arg(frame.of), Type::cell, right, foot);
  if (!frame.digest.isEmpty()) line(QStringLiteral("digest ") + frame.digest, Type::small, left, foot + 10);
}

void PagePainter::page(const SectionLayout& layout, const PageLayout& page) {
  for (const PlacedPiece& placed : page) piece(layout.pieces[placed.piece], m_paper.top + placed.y);
}

void PagePainter::piece(const Piece& piece, double y) {
  std::visit([&](const auto& content) { paint(content, piece, y); }, *piece.block);
}

void PagePainter::paint(const Heading& heading, const Piece& piece, double y) {
  const Type type = heading.rank == Rank::title ? Type::title : heading.rank == Rank::part ? Type::part : Type::heading;
  const auto lines = static_cast<double>(piece.cells[0].size());
  double at = y + piece.height - 2 - lines * m_typeface.lineHeight(type);
  const double x = m_paper.side + (heading.mark ? 18 : 0);
  if (heading.mark) mark(*heading.mark, m_paper.side, at, Type::part);
  if (!heading.aside.empty())
    lineRight(piece.cells[1][0], Type::strong, m_paper.width - m_paper.side, at + m_typeface.baseline(type) - m_typeface.baseline(Type::strong));
  for (const QString& text : piece.cells[0]) {
    line(text, type, x, at);
    at += m_typeface.lineHeight(type);
  }
}

void PagePainter::paint(const Paragraph& paragraph, const Piece& piece, double y) {
  const Type type = paragraph.weight == Weight::strong ? Type::strong : paragraph.weight == Weight::small ? Type::cell : Type::body;
  line(piece.cells[0][0], type, m_paper.side, y);
}

void PagePainter::paint(const Facts& facts, const Piece& piece, double y) {
  const double span = m_paper.textWidth() / facts.columns;
  const FactShape shape = factShape(facts);
  for (std::size_t i = 0; i + 1 < piece.cells.size(); i += 2) {
    const double x = m_paper.side + span * static_cast<double>(i / 2);
    line(piece.cells[i][0], shape.nameType, x, y + 1);
    double at = y;
    for (const QString& text : piece.cells[i + 1]) {
      line(text, shape.valueType, x + shape.name, at);
      at += m_typeface.lineHeight(shape.valueType);
    }
  }
}

void PagePainter::paint(const Table& table, const Piece& piece, double y) {
  if (piece.head) return paintHead(table, piece, y);
  if (piece.row > 0) return paintRow(table, piece, y);
  line(piece.cells[0][0], Type::heading, m_paper.side, y + 3);
  if (piece.cells.size() > 1) line(piece.cells[1][0], Type::body, m_paper.side, y + 4 + m_typeface.lineHeight(Type::heading));
}

void PagePainter::paintHead(const Table& table, const Piece& piece, double y) {
  const std::vector<ColumnBox> boxes = columnBoxes(table, m_paper.textWidth());
  const double bottom = y + piece.height - 2;
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    const double x = m_paper.side + boxes[i].x;
    double at = bottom - 1 - m_typeface.lineHeight(Type::cellHead) * static_cast<double>(piece.cells[i].size());
    for (const QString& text : piece.cells[i]) {
      if (table.columns[i].align == Align::right) lineRight(text, Type::cellHead, x + boxes[i].width, at);
      else line(text, Type::cellHead, x, at);
      at += m_typeface.lineHeight(Type::cellHead);
    }
  }
  rule(m_paper.side, m_paper.width - m_paper.side, bottom, true);
}

void PagePainter::paintRow(const Table& table, const Piece& piece, double y) {
  const std::vector<ColumnBox> boxes = columnBoxes(table, m_paper.textWidth());
  const std::vector<Cell>& row = table.rows[piece.row - 1];
  double deepest = 1;
  for (std::size_t i = 0; i < row.size(); ++i) {
    double x = m_paper.side + boxes[i].x;
    if (row[i].mark) mark(*row[i].mark, x, y, Type::cell);
    double at = y;
    for (const QString& text : piece.cells[i]) {
      if (table.columns[i].align == Align::right) lineRight(text, Type::cell, x + boxes[i].width, at);
      else line(text, Type::cell, x + (row[i].mark ? kMarkGap : 0), at);
      at += m_typeface.lineHeight(Type::cell);
    }
    deepest = std::max(deepest, static_cast<double>(piece.cells[i].size()));
  }
  rule(m_paper.side, m_paper.width - m_paper.side, y + m_typeface.lineHeight(Type::cell) * deepest + 0.4, false);
}

void PagePainter::paint(const Figures& figures, const Piece&, double y) {
  while (m_plots.size() < figures.figures.size()) m_plots.push_back(std::make_unique<QCustomPlot>());
  constexpr double kGap = 8;
  double shares = 0;
  for (const double share : figures.shares) shares += share;
  const double room = m_paper.textWidth() - kGap * static_cast<double>(figures.figures.size() - 1);
  double x = m_paper.side;
  for (std::size_t i = 0; i < figures.figures.size(); ++i) {
    const double width = room * figures.shares[i] / shares;
    m_painter.save();
    m_painter.translate(x, y + 2);
    plot::draw(figures.figures[i], *m_plots[i], m_look);
    m_plots[i]->toPainter(&m_painter, static_cast<int>(width), static_cast<int>(figures.height));
    m_painter.restore();
    x += width + kGap;
  }
}

void PagePainter::paint(const CountBar& bar, const Piece&, double y) {
  std::size_t units = 0;
  for (const CountBar::Part& part : bar.parts) units += part.count;
  double x = m_paper.side, word = m_paper.side;
  for (const CountBar::Part& part : bar.parts) {
    const double width = units == 0 ? 0 : m_paper.textWidth() * static_cast<double>(part.count) / static_cast<double>(units);
    if (part.count > 0) plot::drawBar(m_painter, part.outcome, QRectF(x, y + 2, width, 14), m_look);
    x += width;
    m_painter.setPen(m_strong);
    word = markedWord(part.outcome, wordOf(part.outcome) + QStringLiteral(" %1").arg(part.count), word, y + 20) + 18;
  }
}

void PagePainter::paint(const MarkGrid& grid, const Piece& piece, double y) {
  if (piece.cells.size() == 1) return line(piece.cells[0][0], Type::heading, m_paper.side, y);
  const GridShape shape = gridShape(grid, m_paper.textWidth(), m_typeface);
  const auto& units = grid.groups[piece.cells[1][0].toULongLong()].units;
  const std::size_t first = piece.cells[1][1].toULongLong();
  for (qsizetype i = 0; i < piece.cells[0].size(); ++i) {
    const double x = m_paper.side + shape.cell * static_cast<double>(i);
    markedWord(units[first + static_cast<std::size_t>(i)].mark.value_or(Outcome::untested), piece.cells[0][i], x, y);
  }
}

void PagePainter::paint(const Key& key, const Piece&, double y) {
  if (!key.figures) {
    double x = m_paper.side;
    for (const Outcome state : kStates) x = markedWord(state, wordOf(state), x, y) + 14;
    return;
  }
  const double middle = y + m_typeface.baseline(Type::cell) * 0.66;
  m_painter.setBrush(Qt::NoBrush);
  m_painter.drawPolygon(QPolygonF{QPointF(m_paper.side, middle), QPointF(m_paper.side + 6, middle - 3), QPointF(m_paper.side + 6, middle + 3)});
  line(QStringLiteral("reported flow; bars: expanded uncertainty (k = 2); shaded: tolerance; hatched: where a point "
                      "fails; dark bar: where the heat was seen to switch"),
       Type::cell, m_paper.side + kMarkGap, y);
}

void PagePainter::paint(const SignatureLines& lines, const Piece&, double y) {
  const double width = m_paper.textWidth() / 2;
  for (std::size_t i = 0; i < lines.people.size(); ++i) {
    const double x = m_paper.side + (i % 2 == 0 ? 0 : width);
    const double foot = y + 34.0 * static_cast<double>(i / 2) + 24;
    rule(x, x + width - 20, foot, true);
    line(toText(lines.people[i]) + QStringLiteral(": name, signature, date"), Type::small, x, foot + 1);
  }
}

}  // namespace ductwright::report
