#include "hatch.h"

#include <algorithm>

namespace ductwright::plot {

QVector<QLineF> hatch(const QRectF& box, double spacing, bool rising) {
  QVector<QLineF> lines;
  const double w = box.width(), h = box.height();
  // A falling line starts `offset` right of the top left corner; those with a negative offset start on the left side.
  for (double offset = -h + spacing / 2; offset < w; offset += spacing) {
    const double x1 = std::max(0.0, offset), x2 = std::min(w, offset + h);
    const double y1 = x1 - offset, y2 = x2 - offset;
    lines.append(rising ? QLineF(box.left() + x1, box.bottom() - y1, box.left() + x2, box.bottom() - y2)
                        : QLineF(box.left() + x1, box.top() + y1, box.left() + x2, box.top() + y2));
  }
  return lines;
}

}  // namespace ductwright::plot
