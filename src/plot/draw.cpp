#include "plot/draw.h"

#include <qcustomplot.h>

#include <algorithm>

#include "figure_plottable.h"
#include "text_font.h"

namespace ductwright::plot {
namespace {

FigurePlottable* figureIn(const QCustomPlot& plot) {
  for (int i = 0; i < plot.plottableCount(); ++i) {
    if (auto* figure = qobject_cast<FigurePlottable*>(const_cast<QCustomPlot&>(plot).plottable(i))) return figure;
  }
  return nullptr;
}

// The longest line of a label, in characters.
std::size_t lengthOf(const std::string& label) {
  std::size_t longest = 0, length = 0;
  for (const char c : label) {
    if (c == '\n') length = 0;
    else if ((static_cast<unsigned char>(c) & 0xC0) != 0x80) longest = std::max(longest, ++length);
  }
  return longest;
}

double linesOf(const Axis& axis) {
  std::ptrdiff_t most = 0;
  for (const Tick& tick : axis.ticks) most = std::max(most, std::count(tick.label.begin(), tick.label.end(), '\n'));
  return 1 + static_cast<double>(most);
}

// Fixed margins, so that figures side by side stand on one line and nothing is laid out twice.
QMargins marginsOf(const Figure& figure, const Look& look) {
  std::size_t longest = 4;
  for (const Tick& tick : figure.y.ticks) longest = std::max(longest, lengthOf(tick.label));
  const double left = 0.55 * static_cast<double>(longest) + 1.0 + (figure.y.title.empty() ? 0 : 1.5);
  const double bottom = 1.4 * linesOf(figure.x) + 0.8 + (figure.x.title.empty() ? 0 : 1.6);
  const auto pixels = [&](double ems) { return static_cast<int>(ems * look.text + 0.5); };
  return {pixels(left), pixels(2.8), pixels(0.9), pixels(bottom)};
}

void setTicks(QCPAxis& axis, const Axis& content) {
  if (content.ticks.empty()) {
    auto ticker = QSharedPointer<QCPAxisTicker>::create();
    ticker->setTickCount(5);
    axis.setTicker(ticker);
    return;
  }
  auto ticker = QSharedPointer<QCPAxisTickerText>::create();
  for (const Tick& tick : content.ticks) ticker->addTick(tick.at, QString::fromStdString(tick.label));
  axis.setTicker(ticker);
}

void setAxis(QCPAxis& axis, const Axis& content, const Look& look, bool stands) {
  axis.setVisible(stands);
  axis.grid()->setVisible(stands && content.ticks.empty());
  if (!stands) return;
  const QPen line(look.ink, look.stroke);
  const QFont font = textFont(look, look.text);
  axis.setRange(content.low, content.high);
  setTicks(axis, content);
  axis.setLabel(QString::fromStdString(content.title));
  axis.setBasePen(line);
  axis.setTickPen(line);
  axis.setSubTicks(false);
  axis.setTickLength(0, static_cast<int>(look.text * 0.4));
  axis.setTickLabelFont(font);
  axis.setTickLabelColor(look.ink);
  axis.setTickLabelPadding(static_cast<int>(look.text * 0.3));
  axis.setLabelFont(font);
  axis.setLabelColor(look.ink);
  axis.setLabelPadding(static_cast<int>(look.text * 0.2));
  axis.grid()->setPen(QPen(look.faint, look.stroke * 0.7));
  axis.grid()->setZeroLinePen(Qt::NoPen);
}

}  // namespace

void draw(const Figure& figure, QCustomPlot& plot, const Look& look) {
  FigurePlottable* content = figureIn(plot);
  if (!content) {
    plot.plotLayout()->setRowSpacing(0);
    plot.axisRect()->setAutoMargins(QCP::msNone);
    plot.axisRect()->setMinimumMargins(QMargins());
    content = new FigurePlottable(plot.xAxis, plot.yAxis);
  }
  plot.setBackground(look.paged ? QBrush(Qt::NoBrush) : QBrush(look.paper));
  plot.axisRect()->setMargins(marginsOf(figure, look));
  setAxis(*plot.xAxis, figure.x, look, figure.stands);
  setAxis(*plot.yAxis, figure.y, look, figure.stands);
  content->show(figure, look);
}

std::optional<std::size_t> pointAt(const QCustomPlot& plot, QPointF position, double reach) {
  const FigurePlottable* content = figureIn(plot);
  return content ? content->pointAt(position, reach) : std::nullopt;
}

}  // namespace ductwright::plot
