#include "plot/draw.h"

#include <gtest/gtest.h>
#include <qcustomplot.h>

#include <QApplication>

namespace ductwright::plot {
namespace {

struct Draw : testing::Test {
  static void SetUpTestSuite() {
    static int argc = 1;
    static char name[] = "test_plot";
    static char* argv[] = {name, nullptr};
    if (!QApplication::instance()) new QApplication(argc, argv);
  }
  Draw() {
    figure.title = "Invented";
    figure.x = {"x", 0, 10, {}};
    figure.y = {"y", 0, 10, {}};
    figure.points.push_back({.at = {2, 2}, .source = {}, .words = "low"});
    figure.points.push_back({.at = {8, 8}, .source = {}, .words = "high"});
    look = printLook();
    plot.resize(300, 200);
  }
  QPointF pixel(Place place) {
    return {plot.xAxis->coordToPixel(place.x), plot.yAxis->coordToPixel(place.y)};
  }
  void show() {
    draw(figure, plot, look);
    plot.setViewport(plot.rect());
    plot.replot();
  }
  Figure figure;
  Look look;
  QCustomPlot plot;
};

TEST_F(Draw, AClickReachesTheNearestPoint) {
  show();
  EXPECT_EQ(pointAt(plot, pixel({2, 2}) + QPointF(3, -2)), 0U);
  EXPECT_EQ(pointAt(plot, pixel({8, 8})), 1U);
  EXPECT_EQ(pointAt(plot, pixel({5, 5})), std::nullopt);
}

TEST_F(Draw, ASecondFigureReplacesTheFirst) {
  show();
  figure.points.resize(1);
  figure.points[0].at = {5, 5};
  show();
  EXPECT_EQ(plot.plottableCount(), 1);
  EXPECT_EQ(pointAt(plot, pixel({8, 8})), std::nullopt);
  EXPECT_EQ(pointAt(plot, pixel({5, 5})), 0U);
}

TEST_F(Draw, AFigureThatShowsNothingHidesItsAxes) {
  figure.stands = false;
  show();
  EXPECT_FALSE(plot.xAxis->visible());
  figure.stands = true;
  show();
  EXPECT_TRUE(plot.xAxis->visible());
}

TEST_F(Draw, TheSameFigureGivesTheSamePicture) {
  show();
  const QImage first = plot.toPixmap(300, 200).toImage();
  QCustomPlot other;
  draw(figure, other, look);
  EXPECT_EQ(first, other.toPixmap(300, 200).toImage());
}

}  // namespace
}  // namespace ductwright::plot
