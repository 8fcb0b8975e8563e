#include "ui/unit/figure_view.h"

#include <qcustomplot.h>

#include <QEvent>
#include <QFontInfo>
#include <QLabel>
#include <QMouseEvent>
#include <QVBoxLayout>

#include "plot/draw.h"
#include "ui/look/look.h"
#include "ui/words/words.h"

namespace ductwright::ui {

FigureView::FigureView(QWidget* parent) : QWidget(parent), m_plot(new QCustomPlot(this)), m_words(quiet({}, this)) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins({});
  column->setSpacing(2);
  column->addWidget(m_plot, 1);
  column->addWidget(m_words);
  m_plot->setMinimumHeight(180);
  m_words->setAccessibleName(tr("What the chosen point says"));
  connect(m_plot, &QCustomPlot::mousePress, this, [this](QMouseEvent* event) { choose(event->position()); });
}

void FigureView::show(const plot::Figure& figure) {
  m_figure = figure;
  m_plot->setAccessibleName(text(figure.title));
  m_plot->setAccessibleDescription(text(figure.remark));
  m_words->clear();
  draw();
}

void FigureView::draw() {
  plot::draw(m_figure, *m_plot, plot::screenLook(palette(), QFontInfo(font()).pixelSize()));
  m_plot->replot(QCustomPlot::rpQueuedReplot);
}

void FigureView::choose(QPointF position) {
  const auto point = plot::pointAt(*m_plot, position);
  if (!point || *point >= m_figure.points.size()) return;
  m_words->setText(text(m_figure.points[*point].words));
  emit pointChosen(m_figure.points[*point].source);
}

void FigureView::changeEvent(QEvent* event) {
  if ((event->type() == QEvent::PaletteChange || event->type() == QEvent::FontChange) && m_plot) draw();
  QWidget::changeEvent(event);
}

}  // namespace ductwright::ui
