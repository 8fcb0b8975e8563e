#pragma once

#include <QWidget>

#include "project/project.h"

class QComboBox;
class QLabel;
class QLineEdit;

namespace ductwright::ui {

class Session;

// Who is working: the name and role that every action and signature carries. Kept for the next time.
class AuthorForm : public QWidget {
  Q_OBJECT

 public:
  explicit AuthorForm(Session& session, QWidget* parent = nullptr);
  // Says so beside the name where there is none.
  bool isComplete();
  void showAuthor();

 private:
  void take();

  Session& m_session;
  QLineEdit* m_person;
  QComboBox* m_role;
  QLabel* m_fault;
};

// The author of last time.
project::Author rememberedAuthor();

}  // namespace ductwright::ui
