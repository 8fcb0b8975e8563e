#include "plot/look.h"

namespace ductwright::plot {
namespace {

using verdict::Outcome;

Look lightLook() {
  Look look;
  look.paper = Qt::white;
  look.ink = QColor(0x20, 0x24, 0x28);
  look.faint = QColor(0xd4, 0xd8, 0xdc);
  look.tolerance = QColor(0xdc, 0xe6, 0xec);
  look.forbidden = QColor(0x9a, 0x9a, 0x9a);
  look.bracket = QColor(0x35, 0x3b, 0x42);
  look.pass = QColor(0x0b, 0x6b, 0x72);
  look.fail = QColor(0xb8, 0x32, 0x00);
  look.cannotTell = QColor(0x6d, 0x4c, 0xa8);
  look.untested = QColor(0x6a, 0x6f, 0x75);
  return look;
}

Look darkLook() {
  Look look;
  look.paper = QColor(0x1e, 0x21, 0x24);
  look.ink = QColor(0xe6, 0xe8, 0xea);
  look.faint = QColor(0x45, 0x4a, 0x50);
  look.tolerance = QColor(0x30, 0x42, 0x4e);
  look.forbidden = QColor(0x7c, 0x7c, 0x7c);
  look.bracket = QColor(0xd0, 0xd4, 0xd8);
  look.pass = QColor(0x4c, 0xc4, 0xc8);
  look.fail = QColor(0xff, 0x8b, 0x5e);
  look.cannotTell = QColor(0xbb, 0xa4, 0xf0);
  look.untested = QColor(0xa6, 0xac, 0xb2);
  return look;
}

}  // namespace

Look screenLook(const QPalette& palette, double textPixels) {
  const QColor base = palette.color(QPalette::Base);
  const QColor text = palette.color(QPalette::Text);
  Look look = base.lightnessF() < text.lightnessF() ? darkLook() : lightLook();
  look.paper = base;
  look.ink = text;
  look.text = textPixels;
  look.mark = textPixels * 0.85;
  return look;
}

Look printLook() {
  Look look = lightLook();
  look.ink = Qt::black;
  look.family = QStringLiteral("Noto Sans");
  look.text = 7;
  look.mark = 6.5;
  look.stroke = 0.6;
  look.paged = true;
  return look;
}

QColor colourOf(Outcome outcome, const Look& look) {
  switch (outcome) {
    case Outcome::pass: return look.pass;
    case Outcome::fail: return look.fail;
    case Outcome::cannotTell: return look.cannotTell;
    case Outcome::untested:
    case Outcome::notApplicable: return look.untested;
  }
  return look.untested;
}

}  // namespace ductwright::plot
