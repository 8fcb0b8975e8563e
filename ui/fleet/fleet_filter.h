#pragma once

#include <QSet>
#include <QSortFilterProxyModel>
#include <optional>

#include "ui/fleet/fleet_model.h"

namespace ductwright::ui {

// Which units of the fleet are shown, and in which order. An empty choice lets everything through.
class FleetFilter : public QSortFilterProxyModel {
  Q_OBJECT

 public:
  struct Choice {
    QString words;  // each must occur in the tag, floor, air handler, zone or kind
    QSet<int> outcomes;
    QString floor, airHandler, kind;

    [[nodiscard]] bool isEmpty() const {
      return words.isEmpty() && outcomes.isEmpty() && floor.isEmpty() && airHandler.isEmpty() && kind.isEmpty();
    }
  };

  explicit FleetFilter(FleetModel* fleet, QObject* parent = nullptr);

  [[nodiscard]] const Choice& choice() const { return m_choice; }
  void choose(const Choice& choice);

 protected:
  [[nodiscard]] bool filterAcceptsRow(int row, const QModelIndex& parent) const override;
  [[nodiscard]] bool lessThan(const QModelIndex& left, const QModelIndex& right) const override;

 private:
  FleetModel* m_fleet;
  Choice m_choice;
  QStringList m_words;
};

}  // namespace ductwright::ui
