#pragma once

#include <QColor>
#include <QIcon>
#include <QPalette>
#include <QString>

#include "plot/look.h"
#include "verdict/verdict.h"

class QLabel;
class QWidget;

// What the pages share in looks: the platform's palette and fonts, and a few measures of our own.
namespace ductwright::ui {

inline constexpr int kGap = 8;         // between neighbours
inline constexpr int kMargin = 14;     // around a page
inline constexpr int kTarget = 44;     // the least height of what is touched in the field
inline constexpr int kRowHeight = 32;  // of a table's row

bool isDark(const QPalette& palette);
// Text that tells of a fault or a doubt; at least 4.5:1 on the palette's window and base.
QColor faultInk(const QPalette& palette);
QColor doubtInk(const QPalette& palette);
// Text that stands back, still at least 4.5:1.
QColor quietInk(const QPalette& palette);

// The state's mark, in the colours of the palette and, where selected, of its highlighted text.
QIcon markIcon(verdict::Outcome outcome, const QPalette& palette);
// A one-coloured drawing of ours in the palette's text colour.
QIcon lineIcon(const QString& name, const QPalette& palette);

// Labels of the kinds that the pages use.
QLabel* heading(const QString& text, QWidget* parent);
QLabel* subheading(const QString& text, QWidget* parent);
QLabel* sentence(const QString& text, QWidget* parent);  // wraps
QLabel* quiet(const QString& text, QWidget* parent);     // wraps, stands back

void setInk(QWidget* widget, const QColor& ink);

}  // namespace ductwright::ui
