#pragma once

#include <QWidget>
#include <optional>

#include "ui/fleet/fleet_filter.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QStackedLayout;
class QTableView;

namespace ductwright::ui {

class ResultToggles;
class Session;

// Every unit with its result, score and reasons: searched, filtered, sorted, opened.
class FleetPage : public QWidget {
  Q_OBJECT

 public:
  explicit FleetPage(Session& session, QWidget* parent = nullptr);

  [[nodiscard]] FleetModel& model() { return m_model; }
  [[nodiscard]] FleetFilter& filter() { return m_filter; }
  // The unit `steps` rows below (or above) in the shown order.
  [[nodiscard]] std::optional<fleet::UnitId> neighbour(fleet::UnitId unit, int steps) const;
  void select(fleet::UnitId unit);

 signals:
  void unitChosen(ductwright::fleet::UnitId unit);
  void importWanted();

 public slots:
  void showState();
  void focusSearch();
  void clearFilter();

 protected:
  void changeEvent(QEvent* event) override;

 private:
  QWidget* filterRow();
  void makeTable();
  void applyFilter();
  void refreshChoices();
  void tellWhatIsShown();
  void keepCurrent();
  void chooseCurrent();

  Session& m_session;
  FleetModel m_model;
  FleetFilter m_filter;
  QLineEdit* m_search = nullptr;
  ResultToggles* m_results = nullptr;
  QComboBox* m_floor = nullptr;
  QComboBox* m_airHandler = nullptr;
  QComboBox* m_kind = nullptr;
  QPushButton* m_clear = nullptr;
  QLabel* m_shown = nullptr;
  QTableView* m_table = nullptr;
  QLabel* m_emptyText = nullptr;
  QPushButton* m_emptyAction = nullptr;
  QStackedLayout* m_stack = nullptr;
};

}  // namespace ductwright::ui
