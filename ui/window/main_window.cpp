#include "ui/window/main_window.h"

#include <QAction>
#include <QCloseEvent>
#include <QDir>
#include <QFileInfo>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QLabel>
#include <QMenuBar>
#include <QMessageBox>
#include <QMimeData>
#include <QSettings>
#include <QStackedWidget>
#include <QStandardPaths>
#include <QStatusBar>
#include <QVBoxLayout>

#include "ui/deficiencies/deficiencies_page.h"
#include "ui/field/strip.h"
#include "ui/fleet/fleet_page.h"
#include "ui/history/history_page.h"
#include "ui/import/import_page.h"
#include "ui/report/report_page.h"
#include "ui/review/review_page.h"
#include "ui/session/session.h"
#include "ui/settings/author_form.h"
#include "ui/settings/project_page.h"
#include "ui/start/recent.h"
#include "ui/start/sample.h"
#include "ui/start/start_page.h"
#include "ui/unit/unit_page.h"
#include "ui/words/words.h"

namespace ductwright::ui {

MainWindow::MainWindow(const Places& places, QWidget* parent)
    : QMainWindow(parent), m_places(places), m_session(new Session(this)), m_navigation(new Navigation(this)),
      m_stack(new QStackedWidget(this)), m_strip(new Strip(this)) {
  m_session->setAuthor(rememberedAuthor());
  auto* central = new QWidget(this);
  auto* column = new QVBoxLayout(central);
  column->setContentsMargins({});
  column->setSpacing(0);
  column->addWidget(m_strip);
  auto* row = new QHBoxLayout;
  row->setSpacing(0);
  row->addWidget(m_navigation);
  row->addWidget(m_stack, 1);
  column->addLayout(row, 1);
  setCentralWidget(central);
  setMinimumSize(1000, 700);
  setAcceptDrops(true);
  makePages(places);
  makeMenus();
  makeStatus();
  connectPages();
  leaveProject();
  restoreLayout();
}

MainWindow::~MainWindow() = default;

void MainWindow::makePages(const Places& places) {
  m_start = new StartPage(*m_session, this);
  m_fleet = new FleetPage(*m_session, this);
  m_unit = new UnitPage(*m_session, this);
  m_deficiencies = new DeficienciesPage(*m_session, this);
  m_review = new ReviewPage(*m_session, this);
  m_import = new ImportPage(*m_session, this);
  m_report = new ReportPage(*m_session, places.commandLine, this);
  m_history = new HistoryPage(*m_session, this);
  m_project = new ProjectPage(*m_session, this);
  for (QWidget* page : std::initializer_list<QWidget*>{m_start, m_fleet, m_unit, m_deficiencies, m_review, m_import,
                                                       m_report, m_history, m_project})
    m_stack->addWidget(page);
}

void MainWindow::connectPages() {
  connect(m_navigation, &Navigation::wanted, this, &MainWindow::goTo);
  connect(m_start, &StartPage::openWanted, this, &MainWindow::openProject);
  connect(m_start, &StartPage::sampleWanted, this, &MainWindow::openSample);
  connect(m_start, &StartPage::createWanted, this, &MainWindow::createProject);
  connect(m_fleet, &FleetPage::unitChosen, this, &MainWindow::showUnit);
  connect(m_fleet, &FleetPage::importWanted, this, [this] { goTo(Page::import); });
  connect(m_unit, &UnitPage::stepWanted, this, &MainWindow::stepUnit);
  connect(m_unit, &UnitPage::deficienciesWanted, this, [this](fleet::UnitId unit) {
    m_deficiencies->showOnly(unit);
    goTo(Page::deficiencies);
  });
  connect(m_deficiencies, &DeficienciesPage::unitChosen, this, &MainWindow::showUnit);
  connect(m_review, &ReviewPage::unitChosen, this, &MainWindow::showUnit);
  connect(m_import, &ImportPage::imported, this, [this](project::TableKind kind, const QString& outcome) {
    m_strip->say(outcome);
    if (kind == project::TableKind::schedule || kind == project::TableKind::readings) goTo(Page::fleet);
  });
  connect(m_session, &Session::opened, this, &MainWindow::takeProject);
  connect(m_session, &Session::closed, this, &MainWindow::leaveProject);
  connect(m_session, &Session::changed, this, &MainWindow::showState);
  connect(m_session, &Session::authorChanged, this, &MainWindow::tellAuthor);
}

void MainWindow::makeMenus() {
  makeFileMenu();
  QMenu* edit = menuBar()->addMenu(tr("&Edit"));
  m_undo = edit->addAction(tr("Undo"), QKeySequence::Undo, this,
                           [this] { turn(&project::OpenProject::undo, tr("Undo with this reason")); });
  m_redo = edit->addAction(tr("Redo"), QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_Z), this,
                           [this] { turn(&project::OpenProject::redo, tr("Redo with this reason")); });
  edit->addSeparator();
  m_whileOpen << edit->addAction(tr("&Find units"), QKeySequence::Find, this, [this] {
    goTo(Page::fleet);
    m_fleet->focusSearch();
  });
  makeViewMenu();
  menuBar()->addMenu(tr("&Help"))->addAction(tr("&About"), this, &MainWindow::about);
}

void MainWindow::makeFileMenu() {
  QMenu* file = menuBar()->addMenu(tr("&File"));
  file->addAction(tr("&New from a schedule…"), QKeySequence::New, this, [this] {
    goTo(Page::start);
    m_start->beginNew();
  });
  file->addAction(tr("&Open…"), QKeySequence::Open, this, [this] {
    goTo(Page::start);
    m_start->chooseProject();
  });
  file->addAction(tr("Open the &sample"), this, &MainWindow::openSample);
  file->addSeparator();
  m_whileOpen << file->addAction(tr("&Import…"), QKeySequence(Qt::CTRL | Qt::Key_I), this, [this] { goTo(Page::import); });
  m_whileOpen << file->addAction(tr("&Report…"), QKeySequence::Print, this, [this] { goTo(Page::report); });
  m_whileOpen << file->addAction(tr("Save a &copy…"), this, &MainWindow::saveCopy);
  m_whileOpen << file->addAction(tr("C&lose the project"), QKeySequence::Close, m_session, &Session::close);
  file->addSeparator();
  file->addAction(tr("&Quit"), QKeySequence::Quit, this, &QWidget::close);
}

void MainWindow::makeViewMenu() {
  QMenu* view = menuBar()->addMenu(tr("&View"));
  for (int i = 0; i < kPages; ++i) {
    const Page page = static_cast<Page>(i);
    QAction* action = view->addAction(Navigation::title(page), QKeySequence(Qt::CTRL | static_cast<Qt::Key>(Qt::Key_1 + i)),
                                      this, [this, page] { goTo(page); });
    if (page != Page::start) m_whileOpen << action;
  }
  view->addSeparator();
  m_whileOpen << view->addAction(tr("&Previous unit"), QKeySequence(Qt::ALT | Qt::Key_Up), this, [this] { stepUnit(-1); });
  m_whileOpen << view->addAction(tr("&Next unit"), QKeySequence(Qt::ALT | Qt::Key_Down), this, [this] { stepUnit(1); });
}

void MainWindow::makeStatus() {
  m_place = new QLabel(this);
  m_who = new QLabel(this);
  auto* working = new QLabel(this);
  working->setAccessibleName(tr("Work in progress"));
  statusBar()->addWidget(m_place, 1);
  statusBar()->addPermanentWidget(working);
  statusBar()->addPermanentWidget(m_who);
  connect(m_session, &Session::busyChanged, this, [working](bool busy) { working->setText(busy ? tr("Storing…") : QString()); });
  tellAuthor();
}

Page MainWindow::page() const { return static_cast<Page>(m_stack->currentIndex()); }

void MainWindow::goTo(Page page) {
  if (page != Page::start && !m_session->isOpen()) page = Page::start;
  if (page == Page::start) m_start->showRecent();
  m_stack->setCurrentIndex(static_cast<int>(page));
  m_navigation->goTo(page);
}

void MainWindow::showUnit(fleet::UnitId unit) {
  m_unit->showUnit(unit);
  m_fleet->select(unit);
  goTo(Page::unit);
}

void MainWindow::stepUnit(int steps) {
  if (const auto unit = m_fleet->neighbour(m_unit->unit(), steps)) showUnit(*unit);
}

void MainWindow::openProject(const QString& path) {
  goTo(Page::start);
  m_start->setBusy(tr("Opening %1…").arg(QDir::toNativeSeparators(path)));
  m_session->open(path, [this](const Result<void>& opened) {
    m_start->setBusy({});
    if (!opened) m_start->tellFault(text(opened.error().sentence));
  });
}

void MainWindow::openSample() {
  goTo(Page::start);
  m_start->setBusy(tr("Making a copy of the sample: an invented building…"));
  m_session->replaceBy(
      [samples = m_places.samples, author = m_session->author()] { return makeSample(samples, author); },
      [this](const Result<void>& opened) {
        m_start->setBusy({});
        if (!opened) m_start->tellFault(text(opened.error().sentence));
      });
}

void MainWindow::createProject(const QString& path, const project::NewProject& fresh, const QString& schedule) {
  m_scheduleToRead = schedule;
  m_start->setBusy(tr("Making the project…"));
  m_session->create(path, fresh, [this](const Result<void>& made) {
    m_start->setBusy({});
    if (!made) {
      m_scheduleToRead.clear();
      m_start->tellFault(text(made.error().sentence));
    }
  });
}

void MainWindow::takeProject() {
  rememberProject(m_session->path());
  m_strip->say({});
  showState();
  for (int i = 1; i < kPages; ++i) m_navigation->setReachable(static_cast<Page>(i), true);
  for (QAction* action : m_whileOpen) action->setEnabled(true);
  const auto& units = m_session->snapshot()->units;
  if (!units.empty()) m_unit->showUnit(units.front()->unit.id);
  if (m_scheduleToRead.isEmpty()) return goTo(Page::fleet);
  m_import->begin(project::TableKind::schedule, std::exchange(m_scheduleToRead, {}));
  goTo(Page::import);
}

void MainWindow::leaveProject() {
  for (int i = 1; i < kPages; ++i) m_navigation->setReachable(static_cast<Page>(i), false);
  for (QAction* action : m_whileOpen) action->setEnabled(false);
  m_strip->say({});
  showState();
  goTo(Page::start);
}

void MainWindow::showState() {
  const project::State& state = m_session->state();
  //: %1 is the action's name, "Enter measured flow 412 cfm at 2-14".
  m_undo->setText(state.undo ? tr("Undo: %1").arg(text(*state.undo)) : tr("Undo"));
  m_redo->setText(state.redo ? tr("Redo: %1").arg(text(*state.redo)) : tr("Redo"));
  m_undo->setEnabled(state.undo.has_value());
  m_redo->setEnabled(state.redo.has_value());
  if (!state.snapshot) {
    setWindowTitle(tr("Ductwright"));
    return m_place->clear();
  }
  const QString name = text(state.snapshot->projectName);
  const bool invented = isSample(m_session->path());
  setWindowTitle(invented ? tr("%1 (sample, an invented building) — Ductwright").arg(name) : tr("%1 — Ductwright").arg(name));
  const QString place = QDir::toNativeSeparators(m_session->path());
  m_place->setText(state.readOnly ? tr("%1, for reading only").arg(place)
                   : invented     ? tr("The sample, an invented building: %1, everything is stored").arg(place)
                                  : tr("%1, everything is stored").arg(place));
}

void MainWindow::tellAuthor() {
  const project::Author& author = m_session->author();
  m_who->setText(author.person.empty() ? QString()
                                       //: Who works, and in which role.
                                       : tr("%1, %2").arg(text(author.person), word(author.role)));
}

void MainWindow::turn(Turn way, const QString& action) {
  m_session->perform<void>(
      this, [way](project::OpenProject& project) { return (project.*way)({}); },
      [this, way, action](const Result<void>& done) {
        if (done) return m_strip->say({});
        m_strip->ask(text(done.error().sentence), action, [this, way](const QString& reason) {
          m_session->perform<void>(
              this, [way, reason](project::OpenProject& project) { return (project.*way)(reason.toStdString()); },
              [this](const Result<void>& again) { m_strip->say(again ? QString() : text(again.error().sentence)); });
        });
      });
}

void MainWindow::saveCopy() {
  const QString path = QFileDialog::getSaveFileName(this, tr("Save a copy"), {}, tr("Projects (*.ductwright)"));
  if (path.isEmpty()) return;
  m_session->perform<void>(
      this, [path](project::OpenProject& project) { return project.saveCopy(path.toStdString()); },
      [this, path](const Result<void>& done) {
        m_strip->say(done ? tr("A copy was saved as %1.").arg(QDir::toNativeSeparators(path)) : text(done.error().sentence));
      });
}

void MainWindow::restoreLayout() {
  const QSettings settings;
  if (!restoreGeometry(settings.value(QStringLiteral("window/geometry")).toByteArray())) resize(1280, 800);
}

void MainWindow::closeEvent(QCloseEvent* event) {
  QSettings().setValue(QStringLiteral("window/geometry"), saveGeometry());
  m_import->cancel();
  m_report->cancel();
  QMainWindow::closeEvent(event);
}

void MainWindow::dragEnterEvent(QDragEnterEvent* event) {
  const QList<QUrl> urls = event->mimeData()->urls();
  if (urls.size() == 1 && urls.front().isLocalFile()) event->acceptProposedAction();
}

void MainWindow::dropEvent(QDropEvent* event) {
  const QString path = event->mimeData()->urls().front().toLocalFile();
  if (path.endsWith(QStringLiteral(".ductwright"))) return openProject(path);
  if (!m_session->isOpen()) return m_strip->say(tr("Open or make a project first, then drop the table again."));
  m_import->begin(std::nullopt, path);
  goTo(Page::import);
}

void MainWindow::about() {
  QMessageBox::about(this, tr("About Ductwright"),
                     tr("Ductwright proves a building's fleet of VAV terminal units: from the design schedule to a signed "
                        "unit and a report.\n\nFree software under the GNU General Public License, version 3 or later."));
}

}  // namespace ductwright::ui
