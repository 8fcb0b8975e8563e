#pragma once

#include <memory>
#include <optional>

#include "fleet/record.h"
#include "quantity/unit.h"
#include "ui/rows/row_model.h"

namespace ductwright::ui {

struct ReadingRow {
  fleet::Reading reading;
};
inline bool sameRecord(const ReadingRow& a, const ReadingRow& b) { return a.reading.key == b.reading.key; }
inline bool operator==(const ReadingRow& a, const ReadingRow& b) {
  return a.reading.key == b.reading.key && a.reading.withdrawn == b.reading.withdrawn;
}

// The readings of one run of one procedure at one unit, as they were recorded; the withdrawn ones are struck.
class ReadingsModel : public RowModel<ReadingRow> {
  Q_OBJECT

 public:
  enum Column { step, quantity, value, instrument, waited, takenAt, takenBy, typed, outlet, note, columns };

  using RowModel::RowModel;

  void show(const fleet::UnitRecord& record, fleet::Procedure procedure, int run, quantity::System system);
  void clear() { showRows({}); }
  [[nodiscard]] std::optional<int> rowOf(const fleet::FactKey& key) const;

  [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
  [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
  [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

 private:
  [[nodiscard]] QString display(const fleet::Reading& reading, int column) const;

  quantity::System m_system = quantity::System::ip;
};

}  // namespace ductwright::ui
