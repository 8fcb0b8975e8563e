#pragma once

#include <QWidget>
#include <vector>

#include "project/project.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;

namespace ductwright::ui {

class QuantityField;
class Session;

// The acceptance criteria: by what every unit is judged. They are data, have a version, and are printed.
class CriteriaForm : public QWidget {
  Q_OBJECT

 public:
  explicit CriteriaForm(Session& session, QWidget* parent = nullptr);
  void showState();

 private:
  void fill(bool alsoTouched);
  void showButtons();
  void store();
  [[nodiscard]] std::optional<fleet::Criteria> criteria() const;

  Session& m_session;
  QLabel* m_version;
  QComboBox* m_rule;
  bool m_ruleTouched = false;
  std::vector<QuantityField*> m_fields;
  QLineEdit* m_reason;
  QLabel* m_fault;
  QPushButton* m_store;
  QPushButton* m_takeBack;
};

}  // namespace ductwright::ui
