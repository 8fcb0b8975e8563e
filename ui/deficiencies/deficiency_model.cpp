#include "ui/deficiencies/deficiency_model.h"

#include <unordered_map>

#include "ui/words/words.h"

namespace ductwright::ui {

bool sameRecord(const DeficiencyRow& a, const DeficiencyRow& b) { return a.deficiency.id == b.deficiency.id; }

bool operator==(const DeficiencyRow& a, const DeficiencyRow& b) {
  return sameRecord(a, b) && a.deficiency.moves.size() == b.deficiency.moves.size() &&
         a.deficiency.state() == b.deficiency.state() && a.deficiency.evidence == b.deficiency.evidence &&
         a.deficiency.title == b.deficiency.title && a.deficiency.closes == b.deficiency.closes &&
         a.deficiency.severity == b.deficiency.severity && a.deficiency.party == b.deficiency.party && a.unit == b.unit &&
         a.floor == b.floor;
}

void DeficiencyModel::setState(const project::State& now) {
  std::vector<DeficiencyRow> rows;
  if (now.snapshot) {
    std::unordered_map<fleet::UnitId, const fleet::Unit*, fleet::IdHash> units;
    for (const auto& record : now.snapshot->units) units.emplace(record->unit.id, &record->unit);
    for (const fleet::Deficiency& deficiency : now.snapshot->deficiencies) {
      const auto found = units.find(deficiency.unit);
      if (found == units.end()) rows.push_back({deficiency, {}, {}});
      else rows.push_back({deficiency, text(found->second->tag), text(found->second->floor)});
    }
  }
  std::sort(rows.begin(), rows.end(),
            [](const auto& a, const auto& b) { return a.deficiency.number < b.deficiency.number; });
  showRows(std::move(rows));
}

std::optional<int> DeficiencyModel::rowOf(fleet::DeficiencyId id) const {
  for (int i = 0; i < rowCount(); ++i)
    if (row(i).deficiency.id == id) return i;
  return std::nullopt;
}

int DeficiencyModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : columns; }

QString DeficiencyModel::display(const DeficiencyRow& row, int column) {
  const fleet::Deficiency& of = row.deficiency;
  switch (column) {
    case number: return QString::number(of.number);
    case severity: return word(of.severity);
    case unit: return row.unit;
    case title: return text(of.title);
    case party: return word(of.party);
    case state: return word(of.state());
    case since: return of.moves.empty() ? QString() : text(of.moves.back().at.shortText());
    case floor: return row.floor;
    default: return {};
  }
}

QVariant DeficiencyModel::sortValue(const DeficiencyRow& row, int column) {
  switch (column) {
    case number: return row.deficiency.number;
    case severity: return static_cast<int>(row.deficiency.severity);
    case state: return static_cast<int>(row.deficiency.state());
    default: return display(row, column);
  }
}

QVariant DeficiencyModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid() || index.row() >= rowCount()) return {};
  const DeficiencyRow& of = row(index.row());
  switch (role) {
    case Qt::DisplayRole: return display(of, index.column());
    case Qt::TextAlignmentRole:
      return QVariant::fromValue((index.column() == number ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
    case Qt::AccessibleTextRole:
      return tr("%1: %2").arg(headerData(index.column(), Qt::Horizontal, Qt::DisplayRole).toString(),
                              display(of, index.column()));
    case sortRole: return sortValue(of, index.column());
    default: return {};
  }
}

QVariant DeficiencyModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal) return {};
  if (role == Qt::TextAlignmentRole)
    return QVariant::fromValue((section == number ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
  if (role != Qt::DisplayRole) return {};
  switch (section) {
    case number: return tr("No.");
    case severity: return tr("Severity");
    case unit: return tr("Unit");
    case title: return tr("What is wrong");
    case party: return tr("Party");
    case state: return tr("State");
    case since: return tr("Since");
    case floor: return tr("Floor");
    default: return {};
  }
}

}  // namespace ductwright::ui
