#pragma once

#include <QFont>

#include "plot/look.h"

namespace ductwright::plot {

inline QFont textFont(const Look& look, double size, bool bold = false) {
  QFont font;
  if (!look.family.isEmpty()) font.setFamily(look.family);
  font.setPixelSize(static_cast<int>(size + 0.5));
  font.setBold(bold);
  if (look.paged) {
    font.setStyleStrategy(QFont::PreferNoShaping);
    font.setHintingPreference(QFont::PreferNoHinting);
  }
  return font;
}

}  // namespace ductwright::plot
