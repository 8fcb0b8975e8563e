#include "ui/rows/table.h"

#include <QCoreApplication>
#include <QHeaderView>
#include <QPointer>
#include <QProxyStyle>

#include "ui/look/look.h"

namespace ductwright::ui {
namespace {

// The platform's style with a little more air beside the words of cells and headers.
class RoomyStyle : public QProxyStyle {
 public:
  [[nodiscard]] int pixelMetric(PixelMetric metric, const QStyleOption* option, const QWidget* widget) const override {
    if (metric == PM_HeaderMargin || metric == PM_FocusFrameHMargin) return 6;
    return QProxyStyle::pixelMetric(metric, option, widget);
  }
};

QStyle* roomyStyle() {
  static QPointer<QStyle> style;
  if (!style) {
    style = new RoomyStyle;
    style->setParent(QCoreApplication::instance());
  }
  return style;
}

}  // namespace

void makeListLike(QTableView& table) {
  table.setStyle(roomyStyle());
  table.horizontalHeader()->setStyle(roomyStyle());
  table.setSelectionBehavior(QAbstractItemView::SelectRows);
  table.setSelectionMode(QAbstractItemView::SingleSelection);
  table.setEditTriggers(QAbstractItemView::NoEditTriggers);
  table.setTabKeyNavigation(false);
  table.setShowGrid(false);
  table.setAlternatingRowColors(true);
  table.setWordWrap(false);
  table.setCornerButtonEnabled(false);
  table.setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
  table.verticalHeader()->hide();
  table.verticalHeader()->setDefaultSectionSize(kRowHeight);
  table.verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
  table.horizontalHeader()->setSectionsMovable(true);
  table.horizontalHeader()->setHighlightSections(false);
  table.horizontalHeader()->setStretchLastSection(true);
}

}  // namespace ductwright::ui
