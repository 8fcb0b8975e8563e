#pragma once

#include <QWidget>

#include "ui/report/report_run.h"

class QComboBox;
class QLabel;
class QProgressBar;
class QPushButton;

namespace ductwright::ui {

class PathField;
class Session;

// Which report, in which format, to where.
class ReportPage : public QWidget {
  Q_OBJECT

 public:
  ReportPage(Session& session, const QString& commandLine, QWidget* parent = nullptr);
  [[nodiscard]] ReportRun& run() { return *m_run; }

 public slots:
  void write();
  void cancel();

 protected:
  void showEvent(QShowEvent* event) override;

 private:
  QWidget* form();
  void suggestPlace();
  void tellKind();
  void setRunning(bool running);
  void tellOutcome(const QString& fault);

  Session& m_session;
  ReportRun* m_run;
  QComboBox* m_kind;
  QComboBox* m_format;
  PathField* m_place;
  QString m_suggested;
  QLabel* m_about;
  QProgressBar* m_progress;
  QPushButton* m_write;
  QPushButton* m_cancel;
  QLabel* m_outcome;
  QPushButton* m_show;
};

}  // namespace ductwright::ui
