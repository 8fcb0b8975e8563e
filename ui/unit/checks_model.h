#pragma once

#include "ui/rows/row_model.h"
#include "verdict/verdict.h"

namespace ductwright::ui {

struct CheckRow {
  verdict::Check check;
};
bool sameRecord(const CheckRow& a, const CheckRow& b);
bool operator==(const CheckRow& a, const CheckRow& b);

// The checks of one criterion: what was found, what is accepted, how sure.
class ChecksModel : public RowModel<CheckRow> {
  Q_OBJECT

 public:
  enum Column { result, step, measured, low, high, kind, conformity, doubt, expected, reason, columns };
  enum Role { outcomeRole = Qt::UserRole };

  using RowModel::RowModel;

  void show(const verdict::UnitVerdict& verdict, verdict::Criterion criterion, quantity::System system);
  void clear() { showRows({}); }

  [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
  [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
  [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

 private:
  [[nodiscard]] QString display(const verdict::Check& check, int column) const;

  quantity::System m_system = quantity::System::ip;
};

}  // namespace ductwright::ui
