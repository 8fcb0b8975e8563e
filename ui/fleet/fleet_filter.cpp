#include "ui/fleet/fleet_filter.h"

#include <algorithm>

namespace ductwright::ui {

FleetFilter::FleetFilter(FleetModel* fleet, QObject* parent) : QSortFilterProxyModel(parent), m_fleet(fleet) {
  setSourceModel(fleet);
  setDynamicSortFilter(true);
}

void FleetFilter::choose(const Choice& choice) {
  m_choice = choice;
  m_words = choice.words.toLower().split(QLatin1Char(' '), Qt::SkipEmptyParts);
  invalidateFilter();
}

bool FleetFilter::filterAcceptsRow(int sourceRow, const QModelIndex&) const {
  const auto shown = [&](FleetModel::Column column, int role = Qt::DisplayRole) {
    return m_fleet->data(m_fleet->index(sourceRow, column), role);
  };
  if (!m_choice.outcomes.isEmpty() &&
      !m_choice.outcomes.contains(shown(FleetModel::result, FleetModel::outcomeRole).toInt()))
    return false;
  if (!m_choice.floor.isEmpty() && shown(FleetModel::floor) != m_choice.floor) return false;
  if (!m_choice.airHandler.isEmpty() && shown(FleetModel::airHandler) != m_choice.airHandler) return false;
  if (!m_choice.kind.isEmpty() && shown(FleetModel::kind) != m_choice.kind) return false;
  const QString& searched = m_fleet->row(sourceRow).searched;
  return std::all_of(m_words.begin(), m_words.end(), [&](const QString& word) { return searched.contains(word); });
}

bool FleetFilter::lessThan(const QModelIndex& left, const QModelIndex& right) const {
  const QVariant a = left.data(FleetModel::sortRole), b = right.data(FleetModel::sortRole);
  if (a.typeId() == QMetaType::QString) {
    if (a == b) return left.row() < right.row();
    return naturallyLess(a.toString(), b.toString());
  }
  if (a == b) return left.row() < right.row();
  return a.toDouble() < b.toDouble();
}

}  // namespace ductwright::ui
