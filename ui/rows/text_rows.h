#pragma once

#include <QSet>
#include <QStringList>

#include "fleet/id.h"
#include "ui/rows/row_model.h"

namespace ductwright::ui {

struct TextRow {
  QStringList cells;
  fleet::UnitId unit;  // that the row leads to; null: none
};
inline bool sameRecord(const TextRow& a, const TextRow& b) { return a.cells == b.cells && a.unit == b.unit; }
inline bool operator==(const TextRow& a, const TextRow& b) { return sameRecord(a, b); }

// A list of words in columns, for what is computed as a whole and only read.
class TextRows : public RowModel<TextRow> {
  Q_OBJECT

 public:
  TextRows(const QStringList& headers, const QSet<int>& numeric, QObject* parent = nullptr);
  void show(std::vector<TextRow> rows) { showRows(std::move(rows)); }

  [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
  [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
  [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

 private:
  QStringList m_headers;
  QSet<int> m_numeric;
};

}  // namespace ductwright::ui
