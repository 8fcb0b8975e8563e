#include "plot/mark.h"

#include <gtest/gtest.h>

#include <QImage>
#include <QPainter>
#include <array>

namespace ductwright::plot {
namespace {

using verdict::Outcome;
constexpr std::array kOutcomes{Outcome::pass, Outcome::fail, Outcome::cannotTell, Outcome::untested,
                               Outcome::notApplicable};

// The mark as it is printed without colour, `size` pixels wide.
QImage silhouette(Outcome outcome, int size) {
  QImage image(size, size, QImage::Format_Grayscale8);
  image.fill(Qt::white);
  QPainter painter(&image);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.fillPath(markPath(outcome, QRectF(0, 0, size, size)), Qt::black);
  return image;
}

// Ink in common over ink in all.
double likeness(const QImage& a, const QImage& b) {
  double common = 0, all = 0;
  for (int y = 0; y < a.height(); ++y) {
    for (int x = 0; x < a.width(); ++x) {
      const int inkA = 255 - qGray(a.pixel(x, y)), inkB = 255 - qGray(b.pixel(x, y));
      common += std::min(inkA, inkB);
      all += std::max(inkA, inkB);
    }
  }
  return common / all;
}

TEST(Mark, ShapesAreToldApartWithoutColourAtTableSize) {
  for (const Outcome a : kOutcomes) {
    for (const Outcome b : kOutcomes) {
      if (a == b) continue;
      EXPECT_LT(likeness(silhouette(a, 10), silhouette(b, 10)), 0.65) << verdict::name(a) << ", " << verdict::name(b);
    }
  }
}

TEST(Mark, StaysInItsBox) {
  for (const Outcome outcome : kOutcomes) {
    EXPECT_TRUE(QRectF(3, 4, 12, 12).contains(markPath(outcome, QRectF(3, 4, 12, 12)).boundingRect()))
        << verdict::name(outcome);
  }
}

TEST(Mark, IsCentredInAWideBox) {
  for (const Outcome outcome : kOutcomes) {
    EXPECT_NEAR(markPath(outcome, QRectF(0, 0, 40, 10)).boundingRect().center().x(), 20, 1e-9) << verdict::name(outcome);
  }
}

}  // namespace
}  // namespace ductwright::plot
