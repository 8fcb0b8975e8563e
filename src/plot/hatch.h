#pragma once

#include <QLineF>
#include <QRectF>
#include <QVector>

namespace ductwright::plot {

// Lines across a rectangle at 45°, `spacing` apart: rising to the right, or falling.
QVector<QLineF> hatch(const QRectF& box, double spacing, bool rising);

}  // namespace ductwright::plot
