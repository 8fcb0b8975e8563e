#pragma once

#include <QWidget>
#include <functional>
#include <memory>

#include "project/project.h"
#include "ui/unit/readings_model.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QTableView;

namespace ductwright::ui {

class Session;

// The readings of a procedure, run by run, and what can be done to one: withdraw it, correct it, begin a new run.
class ReadingsBox : public QWidget {
  Q_OBJECT

 public:
  ReadingsBox(Session& session, fleet::Procedure procedure, QWidget* parent = nullptr);
  void show(std::shared_ptr<const fleet::UnitRecord> record);
  void select(const fleet::FactKey& key);
  [[nodiscard]] ReadingsModel& model() { return m_model; }

 signals:
  void correctionWanted(const ductwright::fleet::Reading& reading);

 private:
  using Act = std::function<void(const QString& reason)>;

  void makeButtons();
  void showRun();
  void showButtons();
  void askReason(const QString& prompt, const Act& act);
  void act();
  void withdraw();
  void startRun();
  void finish(const QString& fault);
  [[nodiscard]] const fleet::Reading* current() const;

  Session& m_session;
  fleet::Procedure m_procedure;
  std::shared_ptr<const fleet::UnitRecord> m_record;
  ReadingsModel m_model;
  QComboBox* m_run;
  QTableView* m_table;
  QLabel* m_empty;
  QPushButton* m_withdraw;
  QPushButton* m_correct;
  QPushButton* m_newRun;
  QLineEdit* m_reason;
  QPushButton* m_do;
  QLabel* m_fault;
  Act m_act;
};

}  // namespace ductwright::ui
