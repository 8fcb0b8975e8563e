#include "ui/unit/readings_model.h"

#include <QFont>

#include "ui/words/words.h"

namespace ductwright::ui {
namespace {

bool isNumeric(int column) {
  return column == ReadingsModel::value || column == ReadingsModel::typed || column == ReadingsModel::waited;
}

}  // namespace

void ReadingsModel::show(const fleet::UnitRecord& record, fleet::Procedure procedure, int run, quantity::System system) {
  std::vector<ReadingRow> rows;
  for (const fleet::Reading& reading : record.readings)
    if (reading.procedure == procedure && reading.run == run) rows.push_back({reading});
  const bool otherUnits = system != m_system;
  m_system = system;
  showRows(std::move(rows));
  if (otherUnits) redrawAll();
}

std::optional<int> ReadingsModel::rowOf(const fleet::FactKey& key) const {
  for (int i = 0; i < rowCount(); ++i)
    if (row(i).reading.key == key) return i;
  return std::nullopt;
}

int ReadingsModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : columns; }

QString ReadingsModel::display(const fleet::Reading& reading, int column) const {
  switch (column) {
    case step: return stepWord(reading.procedure, reading.step);
    case quantity: return word(reading.quantity);
    case value: return written(reading.value, fleet::dimensionOf(reading.quantity), m_system);
    case typed: return text(reading.typed.text());
    case outlet: return text(reading.outlet.text());
    case instrument: return text(reading.instrument.text());
    case waited:
      return reading.waited ? written(static_cast<double>(*reading.waited), quantity::Dimension::duration, m_system) : QString();
    case takenAt: return reading.takenAt ? text(reading.takenAt->shortText()) : QString();
    case takenBy: return text(reading.takenBy.text());
    case note: return reading.withdrawn ? tr("withdrawn") : text(reading.note.text());
    default: return {};
  }
}

QVariant ReadingsModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid() || index.row() >= rowCount()) return {};
  const fleet::Reading& reading = row(index.row()).reading;
  switch (role) {
    case Qt::DisplayRole: return display(reading, index.column());
    case Qt::TextAlignmentRole:
      return QVariant::fromValue((isNumeric(index.column()) ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
    case Qt::FontRole: {
      if (!reading.withdrawn || index.column() == note) return {};
      QFont struck;
      struck.setStrikeOut(true);
      return struck;
    }
    case Qt::AccessibleTextRole:
      return tr("%1: %2").arg(headerData(index.column(), Qt::Horizontal, Qt::DisplayRole).toString(),
                              display(reading, index.column()));
    default: return {};
  }
}

QVariant ReadingsModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal) return {};
  if (role == Qt::TextAlignmentRole)
    return QVariant::fromValue((isNumeric(section) ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
  if (role != Qt::DisplayRole) return {};
  switch (section) {
    case step: return tr("Step");
    case quantity: return tr("Quantity");
    case value: return tr("Value");
    case typed: return tr("As typed");
    case outlet: return tr("Outlet");
    case instrument: return tr("Instrument");
    case waited: return tr("Waited");
    case takenAt: return tr("Taken at");
    case takenBy: return tr("By");
    case note: return tr("Note");
    default: return {};
  }
}

}  // namespace ductwright::ui
