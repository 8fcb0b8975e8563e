#pragma once

#include <QWidget>

#include "ui/history/history_model.h"

class QLabel;
class QLineEdit;
class QTableView;

namespace ductwright::ui {

class Session;

// The journal for people: read anew when the page is looked at and after each action while it is.
class HistoryPage : public QWidget {
  Q_OBJECT

 public:
  explicit HistoryPage(Session& session, QWidget* parent = nullptr);
  [[nodiscard]] HistoryModel& model() { return m_model; }

 protected:
  void showEvent(QShowEvent* event) override;

 private:
  void read();
  void showCurrent();

  Session& m_session;
  HistoryModel m_model;
  QLineEdit* m_unit;
  QLabel* m_fault;
  QTableView* m_table;
  QLabel* m_detail;
};

}  // namespace ductwright::ui
