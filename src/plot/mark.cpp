#include "plot/mark.h"

#include <QPainter>
#include <algorithm>

#include "hatch.h"

namespace ductwright::plot {
namespace {

using verdict::Outcome;

// All marks are made in the square from -1 to 1.
QPainterPath disc() {
  QPainterPath path;
  path.addEllipse(QPointF(0, 0), 0.82, 0.82);
  return path;
}

QPainterPath saltire() {
  constexpr double out = 0.92, arm = 0.34;
  QPainterPath path(QPointF(0, -arm));
  for (const QPointF p : {QPointF(out - arm, -out), QPointF(out, -out + arm), QPointF(arm, 0), QPointF(out, out - arm),
                          QPointF(out - arm, out), QPointF(0, arm), QPointF(-out + arm, out), QPointF(-out, out - arm),
                          QPointF(-arm, 0), QPointF(-out, -out + arm), QPointF(-out + arm, -out)}) {
    path.lineTo(p);
  }
  path.closeSubpath();
  return path;
}

void addDiamond(QPainterPath& path, double radius) {
  path.moveTo(0, -radius);
  path.lineTo(radius, 0);
  path.lineTo(0, radius);
  path.lineTo(-radius, 0);
  path.closeSubpath();
}

// A diamond whose lower half is filled.
QPainterPath halfDiamond() {
  constexpr double inner = 0.66;
  QPainterPath path;
  path.setFillRule(Qt::OddEvenFill);
  addDiamond(path, 1.0);
  path.moveTo(0, -inner);
  path.lineTo(inner, 0);
  path.lineTo(-inner, 0);
  path.closeSubpath();
  return path;
}

QPainterPath ring() {
  QPainterPath path;
  path.setFillRule(Qt::OddEvenFill);
  path.addEllipse(QPointF(0, 0), 0.86, 0.86);
  path.addEllipse(QPointF(0, 0), 0.56, 0.56);
  return path;
}

QPainterPath dash() {
  QPainterPath path;
  path.addRect(QRectF(-0.7, -0.16, 1.4, 0.32));
  return path;
}

const QPainterPath& shapeOf(Outcome outcome) {
  static const QPainterPath pass = disc(), fail = saltire(), cannotTell = halfDiamond(), untested = ring(),
                            notApplicable = dash();
  switch (outcome) {
    case Outcome::pass: return pass;
    case Outcome::fail: return fail;
    case Outcome::cannotTell: return cannotTell;
    case Outcome::untested: return untested;
    case Outcome::notApplicable: return notApplicable;
  }
  return untested;
}

QTransform into(const QRectF& box) {
  const double radius = std::min(box.width(), box.height()) / 2;
  return QTransform(radius, 0, 0, radius, box.center().x(), box.center().y());
}

}  // namespace

QPainterPath markPath(Outcome outcome, const QRectF& box) { return into(box).map(shapeOf(outcome)); }

void drawMark(QPainter& painter, Outcome outcome, const QRectF& box, const Look& look) {
  painter.fillPath(markPath(outcome, box), colourOf(outcome, look));
}

void drawBar(QPainter& painter, Outcome outcome, const QRectF& box, const Look& look) {
  const QColor colour = colourOf(outcome, look);
  const double spacing = look.text * 0.6;
  painter.setPen(QPen(colour, look.stroke));
  painter.setBrush(outcome == Outcome::pass ? colour : look.paper);
  painter.drawRect(box);
  if (outcome == Outcome::fail || outcome == Outcome::cannotTell) painter.drawLines(hatch(box, spacing, true));
  if (outcome == Outcome::fail) painter.drawLines(hatch(box, spacing, false));
}

}  // namespace ductwright::plot
