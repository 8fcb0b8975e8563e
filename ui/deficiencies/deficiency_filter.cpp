#include "ui/deficiencies/deficiency_filter.h"

#include "ui/fleet/fleet_model.h"
#include "ui/words/words.h"

namespace ductwright::ui {

DeficiencyFilter::DeficiencyFilter(DeficiencyModel* model, QObject* parent) : QSortFilterProxyModel(parent), m_model(model) {
  setSourceModel(model);
  setDynamicSortFilter(true);
}

void DeficiencyFilter::choose(const Choice& choice) {
  m_choice = choice;
  invalidateFilter();
}

bool DeficiencyFilter::filterAcceptsRow(int sourceRow, const QModelIndex&) const {
  const DeficiencyRow& row = m_model->row(sourceRow);
  const fleet::Deficiency& of = row.deficiency;
  if (m_choice.party && of.party != *m_choice.party) return false;
  if (m_choice.unit && of.unit != *m_choice.unit) return false;
  if (m_choice.states == States::open && !isOpen(of)) return false;
  if (m_choice.states == States::one && of.state() != m_choice.state) return false;
  return m_choice.words.isEmpty() || row.unit.contains(m_choice.words, Qt::CaseInsensitive) ||
         text(of.title).contains(m_choice.words, Qt::CaseInsensitive);
}

bool DeficiencyFilter::lessThan(const QModelIndex& left, const QModelIndex& right) const {
  const QVariant a = left.data(DeficiencyModel::sortRole), b = right.data(DeficiencyModel::sortRole);
  if (a == b) return left.row() < right.row();
  return a.typeId() == QMetaType::QString ? naturallyLess(a.toString(), b.toString()) : a.toInt() < b.toInt();
}

}  // namespace ductwright::ui
