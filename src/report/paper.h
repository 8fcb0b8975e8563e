#pragma once

#include "quantity/unit.h"

namespace ductwright::report {

// A page in points: US Letter where people think in inches, else A4.
struct Paper {
  double width, height;
  double side = 40, top = 44, bottom = 42;  // margins; head and foot stand in them

  [[nodiscard]] double textWidth() const { return width - 2 * side; }
  [[nodiscard]] double textHeight() const { return height - top - bottom; }
  static Paper of(quantity::System system) {
    return system == quantity::System::ip ? Paper{612, 792} : Paper{595, 842};
  }
};

}  // namespace ductwright::report
