#pragma once

#include <QSortFilterProxyModel>
#include <optional>

#include "ui/deficiencies/deficiency_model.h"

namespace ductwright::ui {

// Whose deficiencies, in which state, of which unit.
class DeficiencyFilter : public QSortFilterProxyModel {
  Q_OBJECT

 public:
  enum class States { open, all, one };
  struct Choice {
    std::optional<fleet::Party> party;
    States states = States::open;
    fleet::DeficiencyState state = fleet::DeficiencyState::raised;  // with States::one
    std::optional<fleet::UnitId> unit;
    QString words;
  };

  explicit DeficiencyFilter(DeficiencyModel* model, QObject* parent = nullptr);
  [[nodiscard]] const Choice& choice() const { return m_choice; }
  void choose(const Choice& choice);

 protected:
  [[nodiscard]] bool filterAcceptsRow(int row, const QModelIndex& parent) const override;
  [[nodiscard]] bool lessThan(const QModelIndex& left, const QModelIndex& right) const override;

 private:
  DeficiencyModel* m_model;
  Choice m_choice;
};

}  // namespace ductwright::ui
