#pragma once

#include <QWidget>

#include "project/project.h"

class QLabel;
class QListWidget;
class QProgressBar;
class QPushButton;
class QStackedWidget;

namespace ductwright::ui {

class AuthorForm;
class NewProjectForm;
class Session;

// The first page: what the program is for, and the ways to begin.
class StartPage : public QWidget {
  Q_OBJECT

 public:
  explicit StartPage(Session& session, QWidget* parent = nullptr);
  void showRecent();
  void setBusy(const QString& what);  // empty: no longer
  void tellFault(const QString& sentence);

 public slots:
  void beginNew();
  void chooseProject();

 signals:
  void openWanted(const QString& path);
  void sampleWanted();
  void createWanted(const QString& path, const ductwright::project::NewProject& project, const QString& schedule);

 private:
  QWidget* ways();
  void whenNamed(const std::function<void()>& act);

  AuthorForm* m_author;
  NewProjectForm* m_new;
  QStackedWidget* m_stack;
  QListWidget* m_recent = nullptr;
  QLabel* m_recentTitle = nullptr;
  QLabel* m_fault;
  QLabel* m_busyText;
  QProgressBar* m_busy;
};

}  // namespace ductwright::ui
