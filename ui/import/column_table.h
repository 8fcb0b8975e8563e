#pragma once

#include <QTableWidget>

#include "project/import.h"

namespace ductwright::ui {

// What each column of the file is taken for; the meaning of each can be changed.
class ColumnTable : public QTableWidget {
  Q_OBJECT

 public:
  enum Column { header, example, meaning, unit, columns };

  explicit ColumnTable(QWidget* parent = nullptr);
  void show(const project::ImportPreview& preview);

 signals:
  // The person took the column at `source` for another; empty: not used. `mapping` is the whole mapping's text.
  void mappingChanged(const QString& mapping);

 private:
  void addRow(int row, const project::ImportPreview& preview);
  void choose(std::size_t source, const QString& column);

  std::string m_mapping;
};

}  // namespace ductwright::ui
