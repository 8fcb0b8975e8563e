#include "figure_plottable.h"

#include <QFontMetricsF>

#include "hatch.h"
#include "plot/mark.h"
#include "text_font.h"

namespace ductwright::plot {
namespace {

QString toText(const std::string& utf8) { return QString::fromUtf8(utf8.data(), static_cast<qsizetype>(utf8.size())); }

QRectF around(QPointF centre, double size) {
  return {centre.x() - size / 2, centre.y() - size / 2, size, size};
}

// A triangle that points left, its tip at the value.
QPolygonF pointer(QPointF tip, double size) {
  return {tip, tip + QPointF(size * 0.9, -size * 0.5), tip + QPointF(size * 0.9, size * 0.5)};
}

}  // namespace

FigurePlottable::FigurePlottable(QCPAxis* keyAxis, QCPAxis* valueAxis) : QCPAbstractPlottable(keyAxis, valueAxis) {
  setSelectable(QCP::stNone);
  setAntialiased(true);
}

void FigurePlottable::show(const Figure& figure, const Look& look) {
  m_figure = figure;
  m_look = look;
  m_font = textFont(look, look.text);
}

QPointF FigurePlottable::pixel(Place place) const {
  return {keyAxis()->coordToPixel(place.x), valueAxis()->coordToPixel(place.y)};
}

QRect FigurePlottable::clipRect() const { return parentPlot()->viewport(); }

void FigurePlottable::draw(QCPPainter* painter) {
  applyDefaultAntialiasingHint(painter);
  painter->setFont(m_font);
  drawHeading(*painter);
  if (!m_figure.stands) return;
  painter->save();
  painter->setClipRect(keyAxis()->axisRect()->rect());
  for (const Band& band : m_figure.bands) drawBand(*painter, band);
  for (const Line& line : m_figure.lines) drawLine(*painter, line);
  for (const Bar& bar : m_figure.bars) drawBar(*painter, bar);
  for (const Point& point : m_figure.points) drawUncertainty(*painter, point);
  for (const Point& point : m_figure.points) drawPoint(*painter, point);
  painter->restore();
}

void FigurePlottable::drawHeading(QCPPainter& painter) const {
  const QRectF area = parentPlot()->viewport();
  const double line = m_look.text * 1.3;
  painter.setPen(m_look.ink);
  painter.setFont(textFont(m_look, m_look.text, true));
  painter.drawText(area.topLeft() + QPointF(0, m_look.text), toText(m_figure.title));
  painter.setFont(m_font);
  if (!m_figure.remark.empty()) painter.drawText(area.topLeft() + QPointF(0, m_look.text + line), toText(m_figure.remark));
}

void FigurePlottable::drawBand(QCPPainter& painter, const Band& band) const {
  QPolygonF outline;
  for (const Place place : band.outline) outline.append(pixel(place));
  painter.setPen(Qt::NoPen);
  if (band.shade == Shade::forbidden) {
    painter.setPen(QPen(m_look.forbidden, m_look.stroke));
    painter.drawLines(hatch(outline.boundingRect() & QRectF(keyAxis()->axisRect()->rect()), m_look.text * 0.6, true));
    return;
  }
  painter.setBrush(band.shade == Shade::tolerance ? m_look.tolerance : m_look.bracket);
  painter.drawPolygon(outline);
}

void FigurePlottable::drawLine(QCPPainter& painter, const Line& line) const {
  static constexpr Qt::PenStyle kStyles[] = {Qt::SolidLine, Qt::DashLine, Qt::SolidLine, Qt::DashDotLine};
  painter.setPen(QPen(m_look.ink, m_look.stroke, kStyles[static_cast<std::size_t>(line.rule)]));
  const QPointF from = pixel(line.from), to = pixel(line.to);
  painter.drawLine(from, to);
  if (line.label.empty()) return;
  const QString label = toText(line.label);
  const double width = QFontMetricsF(m_font).horizontalAdvance(label);
  const double gap = m_look.text * 0.3;
  const bool upright = from.x() == to.x();
  const QRectF frame = keyAxis()->axisRect()->rect();
  // Beside an upright line, above a level one; inside the frame.
  QPointF at = upright ? QPointF(to.x() - gap - width, frame.top() + m_look.text) : QPointF(frame.left() + gap, to.y() - gap);
  if (at.x() < frame.left()) at.setX(to.x() + gap);
  if (at.y() < frame.top() + m_look.text) at.setY(to.y() + m_look.text);
  painter.drawText(at, label);
}

void FigurePlottable::drawBar(QCPPainter& painter, const Bar& bar) const {
  const double half = bar.width / 2;
  const Place a = bar.lying ? Place{bar.base.x, bar.base.y - half} : Place{bar.base.x - half, bar.base.y};
  const Place b = bar.lying ? Place{bar.base.x + bar.length, bar.base.y + half}
                            : Place{bar.base.x + half, bar.base.y + bar.length};
  const QRectF box = QRectF(pixel(a), pixel(b)).normalized();
  plot::drawBar(painter, bar.outcome, box, m_look);
  const QString label = toText(bar.label);
  const QFontMetricsF metrics(m_font);
  const double width = metrics.horizontalAdvance(label);
  if (width + 4 > box.width() || m_look.text + 2 > box.height()) return;
  const QRectF plate = around(box.center(), width + m_look.text * 0.4);
  const bool whole = bar.outcome == Outcome::pass;
  painter.setPen(whole ? m_look.paper : m_look.ink);
  if (!whole) painter.fillRect(QRectF(plate.left(), box.center().y() - m_look.text * 0.6, plate.width(), m_look.text * 1.2), m_look.paper);
  painter.drawText(QPointF(box.center().x() - width / 2, box.center().y() + m_look.text * 0.36), label);
}

void FigurePlottable::drawUncertainty(QCPPainter& painter, const Point& point) const {
  const double cap = m_look.mark * 0.35;
  QVector<QLineF> lines;
  if (std::isfinite(point.halfY)) {
    const QPointF a = pixel({point.at.x, point.at.y - point.halfY}), b = pixel({point.at.x, point.at.y + point.halfY});
    lines << QLineF(a, b) << QLineF(a.x() - cap, a.y(), a.x() + cap, a.y()) << QLineF(b.x() - cap, b.y(), b.x() + cap, b.y());
  }
  if (std::isfinite(point.halfX)) {
    const QPointF a = pixel({point.at.x - point.halfX, point.at.y}), b = pixel({point.at.x + point.halfX, point.at.y});
    lines << QLineF(a, b) << QLineF(a.x(), a.y() - cap, a.x(), a.y() + cap) << QLineF(b.x(), b.y() - cap, b.x(), b.y() + cap);
  }
  if (lines.isEmpty()) return;
  painter.setPen(QPen(colourOf(point.outcome, m_look), m_look.stroke));
  painter.drawLines(lines);
}

void FigurePlottable::drawPoint(QCPPainter& painter, const Point& point) const {
  const QPointF at = pixel(point.at);
  if (point.series == Series::measured) {
    drawMark(painter, point.outcome, around(at, m_look.mark), m_look);
    return;
  }
  const QPolygonF triangle = pointer(at, m_look.mark * 0.9);
  painter.setPen(QPen(colourOf(point.outcome, m_look), m_look.stroke * 1.3));
  painter.setBrush(m_look.paper);
  painter.drawPolygon(triangle);
  if (point.outcome == Outcome::pass) return;
  drawMark(painter, point.outcome, around(at + QPointF(m_look.mark * 1.5, 0), m_look.mark * 0.8), m_look);
}

std::optional<std::size_t> FigurePlottable::pointAt(QPointF position, double reach) const {
  std::optional<std::size_t> nearest;
  for (std::size_t i = 0; i < m_figure.points.size(); ++i) {
    const QPointF away = pixel(m_figure.points[i].at) - position;
    const double distance = std::hypot(away.x(), away.y());
    if (distance > reach) continue;
    reach = distance;
    nearest = i;
  }
  return nearest;
}

double FigurePlottable::selectTest(const QPointF& position, bool, QVariant*) const {
  const auto point = pointAt(position, parentPlot()->selectionTolerance());
  if (!point) return -1;
  const QPointF away = pixel(m_figure.points[*point].at) - position;
  return std::hypot(away.x(), away.y());
}

QCPRange FigurePlottable::getKeyRange(bool& found, QCP::SignDomain) const {
  found = true;
  return {m_figure.x.low, m_figure.x.high};
}

QCPRange FigurePlottable::getValueRange(bool& found, QCP::SignDomain, const QCPRange&) const {
  found = true;
  return {m_figure.y.low, m_figure.y.high};
}

}  // namespace ductwright::plot
