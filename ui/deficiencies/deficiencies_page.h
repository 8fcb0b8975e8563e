#pragma once

#include <QWidget>

#include "ui/deficiencies/deficiency_filter.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QTableView;

namespace ductwright::ui {

class DeficiencyDetail;
class Session;

// What is wrong, whose it is, and when it counts as fixed.
class DeficienciesPage : public QWidget {
  Q_OBJECT

 public:
  explicit DeficienciesPage(Session& session, QWidget* parent = nullptr);
  void showOnly(fleet::UnitId unit);
  [[nodiscard]] DeficiencyModel& model() { return m_model; }
  [[nodiscard]] DeficiencyDetail& detail() { return *m_detail; }

 signals:
  void unitChosen(ductwright::fleet::UnitId unit);

 private:
  QWidget* filterRow();
  void showState();
  void applyFilter();
  void showCurrent();
  void tellWhatIsShown();

  Session& m_session;
  DeficiencyModel m_model;
  DeficiencyFilter m_filter;
  std::optional<fleet::UnitId> m_unit;
  QComboBox* m_party = nullptr;
  QComboBox* m_state = nullptr;
  QLineEdit* m_search = nullptr;
  QPushButton* m_onlyUnit = nullptr;
  QLabel* m_shown = nullptr;
  QLabel* m_empty = nullptr;
  QTableView* m_table;
  DeficiencyDetail* m_detail;
};

}  // namespace ductwright::ui
