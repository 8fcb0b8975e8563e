#pragma once

#include <qcustomplot.h>

#include <memory>

#include "layout.h"
#include "plot/look.h"

namespace ductwright::report {

// What stands at the head and foot of each page.
struct PageFrame {
  QString project, section, title, date, digest;
  std::size_t number = 1, of = 1;
};

// Paints pieces in points on a painter that is already scaled to them.
class PagePainter {
 public:
  PagePainter(QCPPainter& painter, const Paper& paper, const Typeface& typeface);

  void frame(const PageFrame& frame);
  void page(const SectionLayout& layout, const PageLayout& page);

 private:
  void piece(const Piece& piece, double y);
  void paint(const Heading& heading, const Piece& piece, double y);
  void paint(const Paragraph& paragraph, const Piece& piece, double y);
  void paint(const Facts& facts, const Piece& piece, double y);
  void paint(const Table& table, const Piece& piece, double y);
  void paint(const Figures& figures, const Piece& piece, double y);
  void paint(const CountBar& bar, const Piece& piece, double y);
  void paint(const MarkGrid& grid, const Piece& piece, double y);
  void paint(const Key& key, const Piece& piece, double y);
  void paint(const SignatureLines& lines, const Piece& piece, double y);

  void paintHead(const Table& table, const Piece& piece, double y);
  void paintRow(const Table& table, const Piece& piece, double y);
  void line(const QString& text, Type type, double x, double y);       // `y` is the top of the line
  void lineRight(const QString& text, Type type, double right, double y);
  void rule(double x1, double x2, double y, bool strong);
  void mark(Outcome outcome, double x, double y, Type beside);
  double markedWord(Outcome outcome, const QString& word, double x, double y);  // gives the x after it

  QCPPainter& m_painter;
  Paper m_paper;
  const Typeface& m_typeface;
  plot::Look m_look;
  QPen m_strong, m_faint;
  std::vector<std::unique_ptr<QCustomPlot>> m_plots;  // one a place in a row of figures, used again on each page
};

}  // namespace ductwright::report
