#pragma once

#include <memory>
#include <optional>

#include "project/project.h"
#include "ui/rows/row_model.h"

namespace ductwright::ui {

struct FleetRow {
  std::shared_ptr<const fleet::UnitRecord> record;
  std::shared_ptr<const verdict::UnitVerdict> verdict;
  int openDeficiencies = 0;
  QString searched;  // lower case: what the text filter looks into
};
inline bool sameRecord(const FleetRow& a, const FleetRow& b) { return a.record->unit.id == b.record->unit.id; }
inline bool operator==(const FleetRow& a, const FleetRow& b) {
  return a.record == b.record && a.verdict == b.verdict && a.openDeficiencies == b.openDeficiencies;
}

// The fleet, a row a unit, over an immutable state.
class FleetModel : public RowModel<FleetRow> {
  Q_OBJECT

 public:
  enum Column {
    tag, result, score, airflow, lockout, rise, floor, airHandler, zone, kind, heat, inlet, deficiencies, signedBy,
    columns
  };
  enum Role {
    sortRole = Qt::UserRole,  // a number or a text to sort by
    outcomeRole,              // the verdict::Outcome behind a cell, where it has one
  };

  using RowModel::RowModel;

  void setState(const project::State& state);
  [[nodiscard]] std::optional<int> rowOf(fleet::UnitId unit) const;
  // The distinct floors, air handlers or kinds, in natural order, for the filters.
  [[nodiscard]] QStringList valuesOf(Column column) const;

  [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
  [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
  [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

 private:
  [[nodiscard]] QString display(const FleetRow& row, int column) const;
  [[nodiscard]] QVariant sortValue(const FleetRow& row, int column) const;
  [[nodiscard]] static std::optional<verdict::Outcome> outcome(const FleetRow& row, int column);

  quantity::System m_system = quantity::System::ip;
};

// Whether a deficiency still waits for something.
bool isOpen(const fleet::Deficiency& deficiency);

// "2-9" before "2-14".
bool naturallyLess(const QString& a, const QString& b);

}  // namespace ductwright::ui
