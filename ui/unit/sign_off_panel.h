#pragma once

#include <QWidget>
#include <memory>

#include "project/project.h"

class QComboBox;
class QLabel;
class QPlainTextEdit;
class QPushButton;
class QVBoxLayout;

namespace ductwright::ui {

class AuthorForm;
class Session;

// Who signed the unit, what for, whether it still stands; and a named person's own signature.
class SignOffPanel : public QWidget {
  Q_OBJECT

 public:
  explicit SignOffPanel(Session& session, QWidget* parent = nullptr);
  void show(std::shared_ptr<const fleet::UnitRecord> record, const verdict::UnitVerdict* verdict);
  // What stands signed, and what was reopened and why, in words.
  [[nodiscard]] QString words() const;

 public slots:
  void sign();

 private:
  QWidget* form();
  void showSignatures();

  Session& m_session;
  std::shared_ptr<const fleet::UnitRecord> m_record;
  QLabel* m_state;
  QLabel* m_signatures;
  AuthorForm* m_author;
  QComboBox* m_meaning;
  QLabel* m_exceptionsLabel;
  QPlainTextEdit* m_exceptions;
  QLabel* m_fault;
  QPushButton* m_sign;
};

}  // namespace ductwright::ui
