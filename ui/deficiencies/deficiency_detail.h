#pragma once

#include <QWidget>
#include <optional>

#include "project/project.h"

class QHBoxLayout;
class QLabel;
class QLineEdit;
class QPushButton;

namespace ductwright::ui {

class Session;

// One deficiency: what is wrong, the evidence, the reading that would close it, its life, and the moves that the
// person's role allows.
class DeficiencyDetail : public QWidget {
  Q_OBJECT

 public:
  explicit DeficiencyDetail(Session& session, QWidget* parent = nullptr);
  void show(const fleet::Deficiency* deficiency);  // null: none is chosen
  [[nodiscard]] QString words() const;

 signals:
  void unitChosen(ductwright::fleet::UnitId unit);

 private:
  void showMoves();
  void move(fleet::DeficiencyState to);

  Session& m_session;
  std::optional<fleet::Deficiency> m_deficiency;
  QLabel* m_title;
  QLabel* m_facts;
  QLabel* m_evidence;
  QLabel* m_closes;
  QLabel* m_life;
  QPushButton* m_unit;
  QLineEdit* m_note;
  QLabel* m_fault;
  QWidget* m_moves;
};

}  // namespace ductwright::ui
