#pragma once

#include <QWidget>
#include <memory>

#include "project/project.h"
#include "ui/unit/checks_model.h"

class QLabel;
class QTableView;

namespace ductwright::ui {

class EntryForm;
class FigureView;
class ReadingsBox;
class Session;

// One procedure at one unit: entry and readings at the left, their figure and checks at the right.
class ProcedurePanel : public QWidget {
  Q_OBJECT

 public:
  ProcedurePanel(Session& session, fleet::Procedure procedure, QWidget* parent = nullptr);
  void show(const std::shared_ptr<const fleet::UnitRecord>& record, const verdict::UnitVerdict* verdict);

  [[nodiscard]] EntryForm& entry() { return *m_entry; }
  [[nodiscard]] ReadingsBox& readings() { return *m_readings; }
  [[nodiscard]] FigureView& figure() { return *m_figure; }

 private:
  QWidget* left();
  QWidget* right();
  void showNotes(const verdict::UnitVerdict& verdict);

  Session& m_session;
  fleet::Procedure m_procedure;
  ChecksModel m_checks;
  EntryForm* m_entry;
  ReadingsBox* m_readings;
  FigureView* m_figure;
  QLabel* m_caution;
  QLabel* m_notes;
  QTableView* m_table;
};

}  // namespace ductwright::ui
