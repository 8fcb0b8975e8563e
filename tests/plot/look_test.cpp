#include "plot/look.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace ductwright::plot {
namespace {

using verdict::Outcome;
constexpr std::array kOutcomes{Outcome::pass, Outcome::fail, Outcome::cannotTell, Outcome::untested};

using Linear = std::array<double, 3>;

Linear linear(const QColor& colour) {
  const auto one = [](double s) { return s <= 0.04045 ? s / 12.92 : std::pow((s + 0.055) / 1.055, 2.4); };
  return {one(colour.redF()), one(colour.greenF()), one(colour.blueF())};
}

// Relative luminance and contrast: WCAG 2.1, definitions.
double luminance(const QColor& colour) {
  const Linear c = linear(colour);
  return 0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2];
}

double contrast(const QColor& a, const QColor& b) {
  const double x = luminance(a), y = luminance(b);
  return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}

// CIE L*a*b* (D65) of linear sRGB: IEC 61966-2-1 and CIE 15.
Linear lab(const Linear& c) {
  const auto f = [](double t) { return t > 0.008856 ? std::cbrt(t) : 7.787 * t + 16.0 / 116; };
  const double x = f((0.4124 * c[0] + 0.3576 * c[1] + 0.1805 * c[2]) / 0.9505);
  const double y = f(0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2]);
  const double z = f((0.0193 * c[0] + 0.1192 * c[1] + 0.9505 * c[2]) / 1.089);
  return {116 * y - 16, 500 * (x - y), 200 * (y - z)};
}

double distance(const Linear& a, const Linear& b) {
  const Linear p = lab(a), q = lab(b);
  return std::hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
}

using Matrix = std::array<Linear, 3>;
// Machado, Oliveira and Fernandes 2009, severity 1 (from memory).
constexpr Matrix kProtan{{{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}}};
constexpr Matrix kDeutan{{{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}}};
constexpr Matrix kTritan{{{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}}};

Linear seenWith(const Matrix& m, const Linear& c) {
  Linear out{};
  for (std::size_t i = 0; i < 3; ++i) {
    out[i] = std::clamp(m[i][0] * c[0] + m[i][1] * c[1] + m[i][2] * c[2], 0.0, 1.0);
  }
  return out;
}

QPalette paletteOf(const QColor& base, const QColor& text) {
  QPalette palette;
  palette.setColor(QPalette::Base, base);
  palette.setColor(QPalette::Text, text);
  return palette;
}

std::array<Look, 3> looks() {
  return {printLook(), screenLook(paletteOf(Qt::white, Qt::black), 12),
          screenLook(paletteOf(QColor(0x23, 0x26, 0x29), QColor(0xfc, 0xfc, 0xfc)), 12)};
}

TEST(Look, MarksStandOutFromPaperAndFromTheToleranceBand) {
  for (const Look& look : looks()) {
    for (const Outcome outcome : kOutcomes) {
      EXPECT_GE(contrast(colourOf(outcome, look), look.paper), 4.5) << verdict::name(outcome);
      EXPECT_GE(contrast(colourOf(outcome, look), look.tolerance), 3) << verdict::name(outcome);
    }
  }
}

TEST(Look, TextIsReadable) {
  for (const Look& look : looks()) EXPECT_GE(contrast(look.ink, look.paper), 7);
}

TEST(Look, PassAndFailAndCannotTellStayDifferentToTheColourBlind) {
  for (const Look& look : looks()) {
    for (const Matrix& sight : {kProtan, kDeutan, kTritan}) {
      const auto seen = [&](Outcome outcome) { return seenWith(sight, linear(colourOf(outcome, look))); };
      EXPECT_GT(distance(seen(Outcome::pass), seen(Outcome::fail)), 20);
      EXPECT_GT(distance(seen(Outcome::fail), seen(Outcome::cannotTell)), 20);
      EXPECT_GT(distance(seen(Outcome::pass), seen(Outcome::cannotTell)), 10);
    }
  }
}

TEST(Look, FollowsADarkPalette) {
  const Look dark = looks()[2];
  EXPECT_LT(luminance(dark.paper), luminance(dark.ink));
}

}  // namespace
}  // namespace ductwright::plot
