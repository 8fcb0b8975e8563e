#pragma once

#include <QColor>
#include <QPalette>
#include <QString>

#include "verdict/verdict.h"

namespace ductwright::plot {

// How figures and marks look: colours and sizes, in pixels of the painter they are drawn with.
struct Look {
  QColor paper, ink, faint;         // background, text and lines, grid
  QColor tolerance, forbidden, bracket;
  QColor pass, fail, cannotTell, untested;
  QString family;                   // font family; empty: the application's
  double text = 11;                 // font size
  double mark = 9;                  // a point's size
  double stroke = 1;                // line width
  bool paged = false;               // for paper: text without shaping and hinting, so that it can be selected and scaled
};

// Light or dark, whichever the palette is.
Look screenLook(const QPalette& palette, double textPixels);
// For paper, in points; reads in grey.
Look printLook();

// The colour that repeats a state. It never stands alone: see mark.h.
QColor colourOf(verdict::Outcome outcome, const Look& look);

}  // namespace ductwright::plot
