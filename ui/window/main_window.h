#pragma once

#include <QMainWindow>

#include "project/project.h"
#include "ui/window/navigation.h"
#include "ui/window/places.h"

class QAction;
class QLabel;
class QStackedWidget;

namespace ductwright::ui {

class DeficienciesPage;
class FleetPage;
class HistoryPage;
class ImportPage;
class ProjectPage;
class ReportPage;
class ReviewPage;
class Session;
class StartPage;
class Strip;
class UnitPage;

// Hosts the pages, the menus and the one session. It knows which page follows which, and nothing else.
class MainWindow : public QMainWindow {
  Q_OBJECT

 public:
  explicit MainWindow(const Places& places, QWidget* parent = nullptr);
  ~MainWindow() override;

  [[nodiscard]] Session& session() { return *m_session; }
  [[nodiscard]] Page page() const;
  void goTo(Page page);
  void showUnit(fleet::UnitId unit);
  void openProject(const QString& path);
  void openSample();

 protected:
  void closeEvent(QCloseEvent* event) override;
  void dragEnterEvent(QDragEnterEvent* event) override;
  void dropEvent(QDropEvent* event) override;

 private:
  using Turn = Result<void> (project::OpenProject::*)(const std::string&);

  void makePages(const Places& places);
  void connectPages();
  void makeMenus();
  void makeFileMenu();
  void makeViewMenu();
  void makeStatus();
  void takeProject();
  void leaveProject();
  void createProject(const QString& path, const project::NewProject& fresh, const QString& schedule);
  void turn(Turn way, const QString& action);
  void saveCopy();
  void stepUnit(int steps);
  void showState();
  void tellAuthor();
  void restoreLayout();
  void about();

  Places m_places;
  Session* m_session;
  Navigation* m_navigation;
  QStackedWidget* m_stack;
  Strip* m_strip;
  StartPage* m_start = nullptr;
  FleetPage* m_fleet = nullptr;
  UnitPage* m_unit = nullptr;
  DeficienciesPage* m_deficiencies = nullptr;
  ReviewPage* m_review = nullptr;
  ImportPage* m_import = nullptr;
  ReportPage* m_report = nullptr;
  HistoryPage* m_history = nullptr;
  ProjectPage* m_project = nullptr;
  QAction* m_undo = nullptr;
  QAction* m_redo = nullptr;
  QList<QAction*> m_whileOpen;
  QLabel* m_place = nullptr;
  QLabel* m_who = nullptr;
  QString m_scheduleToRead;
};

}  // namespace ductwright::ui
