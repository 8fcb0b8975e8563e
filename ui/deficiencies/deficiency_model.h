#pragma once

#include <optional>

#include "project/project.h"
#include "ui/rows/row_model.h"

namespace ductwright::ui {

struct DeficiencyRow {
  fleet::Deficiency deficiency;
  QString unit, floor;
};
bool sameRecord(const DeficiencyRow& a, const DeficiencyRow& b);
bool operator==(const DeficiencyRow& a, const DeficiencyRow& b);

// The deficiencies of the project, in the order of their numbers.
class DeficiencyModel : public RowModel<DeficiencyRow> {
  Q_OBJECT

 public:
  enum Column { number, severity, unit, state, title, party, since, floor, columns };
  enum Role { sortRole = Qt::UserRole };

  using RowModel::RowModel;

  void setState(const project::State& now);
  [[nodiscard]] std::optional<int> rowOf(fleet::DeficiencyId id) const;

  [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
  [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
  [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

 private:
  [[nodiscard]] static QString display(const DeficiencyRow& row, int column);
  [[nodiscard]] static QVariant sortValue(const DeficiencyRow& row, int column);
};

}  // namespace ductwright::ui
