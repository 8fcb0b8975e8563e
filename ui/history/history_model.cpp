#include "ui/history/history_model.h"

#include "ui/words/words.h"

namespace ductwright::ui {

void HistoryModel::show(const std::vector<project::HistoryEntry>& entries) {
  std::vector<HistoryRow> rows;
  rows.reserve(entries.size());
  for (const project::HistoryEntry& entry : entries) rows.push_back({entry});
  showRows(std::move(rows));
}

int HistoryModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : columns; }

QString HistoryModel::display(const project::HistoryEntry& entry, int column) {
  switch (column) {
    case at: return text(entry.at.shortText());
    case person: return entry.role.empty() ? text(entry.person) : tr("%1, %2").arg(text(entry.person), translatedWord(entry.role));
    case action: return text(entry.action);
    case reason: return text(entry.reason);
    case changes: {
      if (entry.changes.empty()) return {};
      const int more = static_cast<int>(entry.changes.size()) - 1;
      return more > 0 ? tr("%1 (and %n more)", nullptr, more).arg(text(entry.changes.front())) : text(entry.changes.front());
    }
    default: return {};
  }
}

QVariant HistoryModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid() || index.row() >= rowCount()) return {};
  const project::HistoryEntry& entry = row(index.row()).entry;
  switch (role) {
    case Qt::DisplayRole: return display(entry, index.column());
    case Qt::AccessibleTextRole:
      return tr("%1: %2").arg(headerData(index.column(), Qt::Horizontal, Qt::DisplayRole).toString(),
                              display(entry, index.column()));
    case Qt::TextAlignmentRole: return QVariant::fromValue(Qt::AlignLeft | Qt::AlignVCenter);
    default: return {};
  }
}

QVariant HistoryModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal) return {};
  if (role == Qt::TextAlignmentRole) return QVariant::fromValue(Qt::AlignLeft | Qt::AlignVCenter);
  if (role != Qt::DisplayRole) return {};
  switch (section) {
    case at: return tr("When");
    case person: return tr("Who");
    case action: return tr("What");
    case reason: return tr("Why");
    case changes: return tr("Changes");
    default: return {};
  }
}

}  // namespace ductwright::ui
