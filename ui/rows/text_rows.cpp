#include "ui/rows/text_rows.h"

namespace ductwright::ui {

TextRows::TextRows(const QStringList& headers, const QSet<int>& numeric, QObject* parent)
    : RowModel(parent), m_headers(headers), m_numeric(numeric) {}

int TextRows::columnCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(m_headers.size());
}

QVariant TextRows::data(const QModelIndex& index, int role) const {
  if (!index.isValid() || index.row() >= rowCount()) return {};
  const QString cell = row(index.row()).cells.value(index.column());
  switch (role) {
    case Qt::DisplayRole:
    case Qt::ToolTipRole: return cell;
    case Qt::AccessibleTextRole: return tr("%1: %2").arg(m_headers.value(index.column()), cell);
    case Qt::TextAlignmentRole:
      return QVariant::fromValue((m_numeric.contains(index.column()) ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
    default: return {};
  }
}

QVariant TextRows::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal) return {};
  if (role == Qt::TextAlignmentRole)
    return QVariant::fromValue((m_numeric.contains(section) ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
  return role == Qt::DisplayRole ? QVariant(m_headers.value(section)) : QVariant();
}

}  // namespace ductwright::ui
