#pragma once

#include <QPainterPath>
#include <QRectF>

#include "plot/look.h"

class QPainter;

// The mark of a state: the same shape in tables, plots, reports and icons. Each is one path to fill, and its
// shape alone says the state: a disc passes, a saltire fails, a half-filled diamond cannot tell, a ring is
// untested, a dash does not apply.
namespace ductwright::plot {

QPainterPath markPath(verdict::Outcome outcome, const QRectF& box);

// Fills the mark in its colour, centred in the largest square of `box`.
void drawMark(QPainter& painter, verdict::Outcome outcome, const QRectF& box, const Look& look);

// Fills a bar in the manner of the state's mark: whole, crossed, half (hatched) or hollow.
void drawBar(QPainter& painter, verdict::Outcome outcome, const QRectF& box, const Look& look);

}  // namespace ductwright::plot
