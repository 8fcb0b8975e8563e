#pragma once

#include <QWidget>

#include "project/project.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;

namespace ductwright::ui {

class QuantityField;
class Session;

// The project's name, units and elevation.
class DescribeForm : public QWidget {
  Q_OBJECT

 public:
  explicit DescribeForm(Session& session, QWidget* parent = nullptr);
  void showState();
  [[nodiscard]] QComboBox& system() { return *m_system; }

 public slots:
  void store();

 private:
  void fill(bool alsoTouched);
  void showButtons();
  [[nodiscard]] std::optional<project::NewProject> described() const;

  Session& m_session;
  QLineEdit* m_name;
  QComboBox* m_system;
  bool m_systemTouched = false;
  QuantityField* m_elevation;
  QLineEdit* m_reason;
  QLabel* m_fault;
  QPushButton* m_store;
};

}  // namespace ductwright::ui
