#pragma once

#include <QWidget>
#include <optional>

#include "plot/figure.h"

class QCustomPlot;
class QLabel;

namespace ductwright::ui {

// A figure in the window. A click on a point tells which reading it is.
class FigureView : public QWidget {
  Q_OBJECT

 public:
  explicit FigureView(QWidget* parent = nullptr);
  void show(const plot::Figure& figure);
  [[nodiscard]] const plot::Figure& figure() const { return m_figure; }
  [[nodiscard]] QCustomPlot& plot() { return *m_plot; }

 signals:
  void pointChosen(const ductwright::plot::Source& source);

 protected:
  void changeEvent(QEvent* event) override;

 private:
  void draw();
  void choose(QPointF position);

  QCustomPlot* m_plot;
  QLabel* m_words;
  plot::Figure m_figure;
};

}  // namespace ductwright::ui
