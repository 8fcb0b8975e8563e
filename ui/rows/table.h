#pragma once

#include <QTableView>

namespace ductwright::ui {

// Rows that are chosen whole, Tab that leaves the table, a header that can be dragged.
void makeListLike(QTableView& table);

}  // namespace ductwright::ui
