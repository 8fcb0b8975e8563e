#pragma once

#include <QPointF>
#include <optional>

#include "plot/figure.h"
#include "plot/look.h"

class QCustomPlot;

namespace ductwright::plot {

// Fills the plot with the figure, replacing what an earlier call drew. The same picture in a window (then call
// replot) and in a report (then call toPainter). The plot may be used again for any other figure.
void draw(const Figure& figure, QCustomPlot& plot, const Look& look);

// The index of the figure's point under a position in the plot's pixels, at most `reach` away; the nearest.
std::optional<std::size_t> pointAt(const QCustomPlot& plot, QPointF position, double reach = 12);

}  // namespace ductwright::plot
