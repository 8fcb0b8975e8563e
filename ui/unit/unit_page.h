#pragma once

#include <QWidget>
#include <array>
#include <memory>

#include "project/project.h"

class QLabel;
class QPushButton;
class QTabWidget;

namespace ductwright::ui {

class DesignPanel;
class ProcedurePanel;
class Session;
class SignOffPanel;

// One unit: its place, result and score, the three procedures, its design, its signatures.
class UnitPage : public QWidget {
  Q_OBJECT

 public:
  explicit UnitPage(Session& session, QWidget* parent = nullptr);
  void showUnit(fleet::UnitId unit);
  [[nodiscard]] fleet::UnitId unit() const { return m_unit; }

  [[nodiscard]] ProcedurePanel& panel(fleet::Procedure procedure) { return *m_panels[static_cast<std::size_t>(procedure)]; }
  [[nodiscard]] DesignPanel& design() { return *m_design; }
  [[nodiscard]] SignOffPanel& signOff() { return *m_signOff; }
  [[nodiscard]] QTabWidget& tabs() { return *m_tabs; }

 signals:
  void stepWanted(int steps);
  void deficienciesWanted(ductwright::fleet::UnitId unit);

 private:
  QWidget* header();
  void showState();
  void takeNotice(const project::Notice& notice);
  void showHeader(const fleet::UnitRecord& record, const verdict::UnitVerdict* verdict);
  void showTabs(const fleet::UnitRecord& record, const verdict::UnitVerdict* verdict);

  Session& m_session;
  fleet::UnitId m_unit;
  QLabel* m_mark = nullptr;
  QLabel* m_tag = nullptr;
  QLabel* m_result = nullptr;
  QLabel* m_facts = nullptr;
  QLabel* m_alarm = nullptr;
  QPushButton* m_deficiencies = nullptr;
  QTabWidget* m_tabs;
  std::array<ProcedurePanel*, 3> m_panels{};
  DesignPanel* m_design;
  SignOffPanel* m_signOff;
};

}  // namespace ductwright::ui
