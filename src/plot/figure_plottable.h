#pragma once

#include <qcustomplot.h>

#include "plot/figure.h"
#include "plot/look.h"

namespace ductwright::plot {

// Draws a figure's content in the coordinates of a plot's axes: one object, where QCustomPlot's own would be one
// for each line and label, because a report draws thousands of figures.
class FigurePlottable : public QCPAbstractPlottable {
  Q_OBJECT

 public:
  FigurePlottable(QCPAxis* keyAxis, QCPAxis* valueAxis);

  void show(const Figure& figure, const Look& look);
  [[nodiscard]] std::optional<std::size_t> pointAt(QPointF position, double reach) const;

  double selectTest(const QPointF& position, bool onlySelectable, QVariant* details) const override;
  QCPRange getKeyRange(bool& found, QCP::SignDomain domain) const override;
  QCPRange getValueRange(bool& found, QCP::SignDomain domain, const QCPRange& keys) const override;

 protected:
  void draw(QCPPainter* painter) override;
  void drawLegendIcon(QCPPainter*, const QRectF&) const override {}
  QRect clipRect() const override;

 private:
  [[nodiscard]] QPointF pixel(Place place) const;
  void drawHeading(QCPPainter& painter) const;
  void drawBand(QCPPainter& painter, const Band& band) const;
  void drawLine(QCPPainter& painter, const Line& line) const;
  void drawBar(QCPPainter& painter, const Bar& bar) const;
  void drawUncertainty(QCPPainter& painter, const Point& point) const;
  void drawPoint(QCPPainter& painter, const Point& point) const;

  Figure m_figure;
  Look m_look;
  QFont m_font;
};

}  // namespace ductwright::plot
