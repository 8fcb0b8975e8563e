#include "ui/rows/table.h"

#include <QHeaderView>

#include "ui/look/look.h"

namespace ductwright::ui {

void makeListLike(QTableView& table) {
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
