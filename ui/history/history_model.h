#pragma once

#include "project/project.h"
#include "ui/rows/row_model.h"

namespace ductwright::ui {

struct HistoryRow {
  project::HistoryEntry entry;
};
inline bool sameRecord(const HistoryRow& a, const HistoryRow& b) { return a.entry.id == b.entry.id; }
inline bool operator==(const HistoryRow& a, const HistoryRow& b) { return sameRecord(a, b); }  // entries never change

// Who did what, when and why; the newest first.
class HistoryModel : public RowModel<HistoryRow> {
  Q_OBJECT

 public:
  enum Column { at, person, action, reason, changes, columns };

  using RowModel::RowModel;

  void show(const std::vector<project::HistoryEntry>& entries);

  [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
  [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
  [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

 private:
  [[nodiscard]] static QString display(const project::HistoryEntry& entry, int column);
};

}  // namespace ductwright::ui
