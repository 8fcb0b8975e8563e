#include "ui/look/look.h"

#include <QGuiApplication>
#include <QLabel>
#include <QPainter>
#include <QPixmap>
#include <QSvgRenderer>

#include "plot/mark.h"

namespace ductwright::ui {
namespace {

constexpr int kIcon = 20;

template <class Draw>
QPixmap drawn(int size, qreal ratio, const Draw& draw) {
  QPixmap pixmap(QSize(size, size) * ratio);
  pixmap.fill(Qt::transparent);
  pixmap.setDevicePixelRatio(ratio);
  QPainter painter(&pixmap);
  painter.setRenderHint(QPainter::Antialiasing);
  draw(painter, QRectF(0, 0, size, size));
  return pixmap;
}

QLabel* label(const QString& text, QWidget* parent, qreal scale, bool bold) {
  auto* made = new QLabel(text, parent);
  QFont font = made->font();
  font.setPointSizeF(font.pointSizeF() * scale);
  font.setBold(bold);
  made->setFont(font);
  made->setTextFormat(Qt::PlainText);
  return made;
}

}  // namespace

bool isDark(const QPalette& palette) {
  return palette.color(QPalette::Window).lightness() < palette.color(QPalette::WindowText).lightness();
}

QColor faultInk(const QPalette& palette) { return isDark(palette) ? QColor(0xff, 0x9d, 0x8f) : QColor(0xa3, 0x24, 0x1c); }
QColor doubtInk(const QPalette& palette) { return isDark(palette) ? QColor(0xf0, 0xc2, 0x6a) : QColor(0x7a, 0x4d, 0x00); }
QColor quietInk(const QPalette& palette) { return isDark(palette) ? QColor(0xb4, 0xb8, 0xbe) : QColor(0x55, 0x5b, 0x63); }

QIcon markIcon(verdict::Outcome outcome, const QPalette& palette) {
  const plot::Look look = plot::screenLook(palette, 11);
  QIcon icon;
  for (const qreal ratio : {1.0, 2.0, 3.0}) {
    icon.addPixmap(drawn(kIcon, ratio, [&](QPainter& painter, const QRectF& box) {
      plot::drawMark(painter, outcome, box.adjusted(3, 3, -3, -3), look);
    }));
    icon.addPixmap(drawn(kIcon, ratio,
                         [&](QPainter& painter, const QRectF& box) {
                           painter.fillPath(plot::markPath(outcome, box.adjusted(3, 3, -3, -3)),
                                            palette.color(QPalette::HighlightedText));
                         }),
                   QIcon::Selected);
  }
  return icon;
}

QIcon lineIcon(const QString& name, const QPalette& palette) {
  QSvgRenderer svg(QStringLiteral(":/icons/%1.svg").arg(name));
  QIcon icon;
  const auto add = [&](QPalette::ColorGroup group, QPalette::ColorRole role, QIcon::Mode mode) {
    for (const qreal ratio : {1.0, 2.0, 3.0})
      icon.addPixmap(drawn(kIcon, ratio,
                           [&](QPainter& painter, const QRectF& box) {
                             svg.render(&painter, box);
                             painter.setCompositionMode(QPainter::CompositionMode_SourceIn);
                             painter.fillRect(box, palette.color(group, role));
                           }),
                     mode);
  };
  add(QPalette::Active, QPalette::WindowText, QIcon::Normal);
  add(QPalette::Active, QPalette::HighlightedText, QIcon::Selected);
  add(QPalette::Disabled, QPalette::WindowText, QIcon::Disabled);
  return icon;
}

QLabel* heading(const QString& text, QWidget* parent) { return label(text, parent, 1.5, true); }
QLabel* subheading(const QString& text, QWidget* parent) { return label(text, parent, 1.1, true); }

QLabel* sentence(const QString& text, QWidget* parent) {
  QLabel* made = label(text, parent, 1, false);
  made->setWordWrap(true);
  made->setTextInteractionFlags(Qt::TextSelectableByMouse);
  return made;
}

QLabel* quiet(const QString& text, QWidget* parent) {
  QLabel* made = label(text, parent, 1, false);
  made->setWordWrap(true);
  made->setProperty("ink", QStringLiteral("quiet"));
  setInk(made, quietInk(made->palette()));
  return made;
}

void setInk(QWidget* widget, const QColor& ink) {
  QPalette palette = widget->palette();
  palette.setColor(QPalette::WindowText, ink);
  palette.setColor(QPalette::Text, ink);
  widget->setPalette(palette);
}

}  // namespace ductwright::ui
