#pragma once

#include <QWidget>
#include <stop_token>

#include "project/project.h"

class QLabel;
class QProgressBar;
class QPushButton;

namespace ductwright::ui {

class Session;

// Proves the file: content, journal chain and signatures are computed anew. Can be cancelled.
class VerifyBox : public QWidget {
  Q_OBJECT

 public:
  explicit VerifyBox(Session& session, QWidget* parent = nullptr);
  [[nodiscard]] QString words() const;

 public slots:
  void verify();

 private:
  void tellOutcome(const Result<project::Integrity>& integrity);
  void setRunning(bool running);

  Session& m_session;
  std::stop_source m_stop;
  QPushButton* m_verify;
  QPushButton* m_cancel;
  QProgressBar* m_progress;
  QLabel* m_outcome;
};

}  // namespace ductwright::ui
