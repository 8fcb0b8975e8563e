#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QAction>
#include <QComboBox>
#include <QFile>
#include <QFileInfo>
#include <QLabel>
#include <QLineEdit>
#include <QMenuBar>
#include <QPlainTextEdit>
#include <QProcess>
#include <QPushButton>
#include <QTabWidget>
#include <QTemporaryDir>
#include <QTest>

#include "drive.h"
#include "ui/deficiencies/deficiencies_page.h"
#include "ui/deficiencies/deficiency_detail.h"
#include "ui/field/quantity_field.h"
#include "ui/fleet/fleet_page.h"
#include "ui/history/history_page.h"
#include "ui/import/import_page.h"
#include "ui/import/import_run.h"
#include "ui/report/report_page.h"
#include "ui/review/review_page.h"
#include "ui/session/session.h"
#include "ui/settings/describe_form.h"
#include "ui/settings/project_page.h"
#include "ui/settings/verify_box.h"
#include "ui/unit/design_panel.h"
#include "ui/unit/entry_form.h"
#include "ui/unit/forming_verdict.h"
#include "ui/unit/procedure_panel.h"
#include "ui/unit/readings_box.h"
#include "ui/unit/sign_off_panel.h"
#include "ui/unit/unit_page.h"
#include "ui/window/main_window.h"
#include "ui/words/words.h"

namespace ductwright::ui {
namespace {

using drive::until;
using fleet::Procedure;

void write(const QString& path, const char* content) {
  QFile file(path);
  ASSERT_TRUE(file.open(QIODevice::WriteOnly));
  file.write(content);
}

constexpr const char* kSchedule =
    "unit,floor,air handler,kind,inlet diameter [in.],cooling max flow [cfm],cooling min flow [cfm],zone\n"
    "1-01,1,AHU-1,cooling only,8,450,120,room 101 (invented)\n"
    "1-02,1,AHU-1,cooling only,8,500,130,room 102 (invented)\n"
    "2-01,2,AHU-1,cooling only,10,800,200,room 201 (invented)\n";
constexpr const char* kInstruments =
    "serial,description,quantity,percent of reading [%],plus,calibrated on,calibration due\n"
    "HD-1,capture hood (invented),flow,3,3 cfm,2026-03-16,2027-03-16\n";
constexpr const char* kReadings =
    "unit,procedure,step,quantity,value,instrument,waited [s]\n"
    "1-02,airflow,cooling max,measured flow,502 cfm,HD-1,200\n"
    "1-02,airflow,cooling max,reported flow,498 cfm,,200\n"
    "1-02,airflow,cooling min,measured flow,131 cfm,HD-1,200\n"
    "1-02,airflow,cooling min,reported flow,129 cfm,,200\n"
    "9-99,airflow,cooling max,measured flow,1 cfm,HD-1,200\n";

// The real window over real files; each test begins where an empty start leads.
class Window : public ::testing::Test {
 protected:
  Window() : window({QStringLiteral(DUCTWRIGHT_CLI), QStringLiteral(DUCTWRIGHT_SOURCE_DIR "/sample-projects")}) {
    window.session().setAuthor({});
    window.resize(1280, 800);
    window.show();
    write(folder.filePath("schedule.csv"), kSchedule);
    write(folder.filePath("instruments.csv"), kInstruments);
    write(folder.filePath("readings.csv"), kReadings);
  }

  Session& session() { return window.session(); }
  bool idle() { return until([this] { return !session().isBusy(); }); }
  template <class Of>
  Of& page() {
    return *window.findChild<Of*>();
  }
  const verdict::UnitVerdict& verdictOf(const char* tag) { return *session().verdictOf(session().snapshot()->unit(tag)->unit.id); }
  QAction* action(const QString& begins) {
    for (QAction* each : window.findChildren<QAction*>())
      if (each->text().remove('&').startsWith(begins)) return each;
    return nullptr;
  }

  void beginFromSchedule() {
    drive::type(drive::named<QLineEdit>(window, "person"), "Ada Invented");
    ASSERT_TRUE(drive::press(window, "new"));
    drive::type(drive::named<QLineEdit>(window, "Schedule file"), folder.filePath("schedule.csv"));
    drive::type(drive::named<QLineEdit>(window, "Building name"), "Invented House");
    drive::type(drive::named<QLineEdit>(window, "Project file"), folder.filePath("house.ductwright"));
    ASSERT_TRUE(drive::press(window, "create"));
    ASSERT_TRUE(until([this] { return page<ImportPage>().preview().has_value(); }));
  }
  void import(project::TableKind kind, const char* file) {
    page<ImportPage>().begin(kind, folder.filePath(file));
    window.goTo(Page::import);
    ASSERT_TRUE(until([this] { return page<ImportPage>().preview().has_value(); }));
  }
  void take() {
    ASSERT_TRUE(drive::press(page<ImportPage>(), "take"));
    ASSERT_TRUE(until([this] { return !page<ImportPage>().run().isRunning() && !session().isBusy(); }));
  }
  void withSchedule() {
    beginFromSchedule();
    take();
  }
  void withReadings() {
    withSchedule();
    import(project::TableKind::instruments, "instruments.csv");
    take();
    import(project::TableKind::readings, "readings.csv");
    auto* good = drive::named<QAbstractButton>(page<ImportPage>(), "Take the 4 good rows alone and leave the others out");
    ASSERT_NE(good, nullptr);
    good->click();
    take();
  }
  void open(const char* tag, Procedure procedure = Procedure::airflow) {
    window.showUnit(session().snapshot()->unit(tag)->unit.id);
    page<UnitPage>().tabs().setCurrentIndex(static_cast<int>(procedure));
  }
  EntryForm& entry(Procedure procedure = Procedure::airflow) { return page<UnitPage>().panel(procedure).entry(); }
  // Types a reading into the form as it stands and records it by Enter.
  void record(const char* typed) {
    auto* line = entry().value().line();
    drive::type(line, typed);
    QTest::keyClick(line, Qt::Key_Return);
    ASSERT_TRUE(idle());
  }

  QTemporaryDir folder;
  MainWindow window;
};

TEST_F(Window, StartsEmptyWithOnlyTheStartPageReachable) {
  EXPECT_EQ(window.page(), Page::start);
  window.goTo(Page::fleet);
  EXPECT_EQ(window.page(), Page::start);
  EXPECT_FALSE(action("Undo")->isEnabled());
}

TEST_F(Window, AsksForTheNameBeforeAnythingIsDone) {
  ASSERT_TRUE(drive::press(window, "sample"));
  EXPECT_FALSE(session().isOpen());
  bool told = false;
  for (QLabel* label : window.findChildren<QLabel*>())
    told = told || (label->isVisibleTo(&window) && label->text().startsWith("Write your name"));
  EXPECT_TRUE(told);
}

TEST_F(Window, MakesAProjectFromAScheduleAndShowsWhatItWouldDoFirst) {
  beginFromSchedule();
  EXPECT_EQ(window.page(), Page::import);
  EXPECT_EQ(page<ImportPage>().preview()->added, 3u);
  EXPECT_TRUE(session().snapshot()->units.empty());
  take();
  EXPECT_EQ(session().snapshot()->units.size(), 3u);
  EXPECT_EQ(window.page(), Page::fleet);
  EXPECT_EQ(page<FleetPage>().model().rowCount(), 3);
  EXPECT_TRUE(window.windowTitle().startsWith("Invented House"));
}

TEST_F(Window, ImportsOnlyGoodRowsAndOnlyWhenToldTo) {
  withSchedule();
  import(project::TableKind::readings, "readings.csv");
  EXPECT_EQ(page<ImportPage>().preview()->good, 4u);
  EXPECT_FALSE(drive::press(page<ImportPage>(), "take"));  // a row names a unit that is not there
  drive::named<QAbstractButton>(page<ImportPage>(), "Take the 4 good rows alone and leave the others out")->click();
  take();
  EXPECT_EQ(session().snapshot()->unit("1-02")->readings.size(), 4u);
  EXPECT_EQ(verdictOf("1-02").outcome, verdict::Outcome::pass);
}

TEST_F(Window, FormsTheVerdictWhileTyping) {
  withReadings();
  open("1-01");
  drive::type(entry().value().line(), "300");
  EXPECT_THAT(entry().forming().words().toStdString(), ::testing::HasSubstr("fail"));
  drive::type(entry().value().line(), "0.212 m3/s");  // 449 cfm
  EXPECT_THAT(entry().forming().words().toStdString(), ::testing::HasSubstr("pass"));
  EXPECT_EQ(verdictOf("1-01").outcome, verdict::Outcome::untested);  // nothing is recorded yet
  EXPECT_TRUE(session().snapshot()->unit("1-01")->readings.empty());
}

TEST_F(Window, TellsASlipBesideTheFieldAndRecordsNothing) {
  withSchedule();
  open("1-01");
  drive::type(entry().value().line(), "30o cfm");
  QTest::keyClick(entry().value().line(), Qt::Key_Return);
  ASSERT_TRUE(idle());
  EXPECT_FALSE(entry().value().isValid());
  EXPECT_TRUE(session().snapshot()->unit("1-01")->readings.empty());
}

TEST_F(Window, GoesOnToTheNextUsualReadingByEnterAlone) {
  withReadings();
  open("1-01");
  for (const char* typed : {"452", "449", "121", "119"}) record(typed);
  const auto* record = session().snapshot()->unit("1-01");
  ASSERT_EQ(record->readings.size(), 4u);
  EXPECT_EQ(record->readings[0].typed.text(), "452 cfm");
  EXPECT_EQ(verdictOf("1-01").outcome, verdict::Outcome::pass);
}

TEST_F(Window, FlagsAnEarlyReading) {
  withReadings();
  open("1-01");
  drive::type(drive::named<QLineEdit>(entry(), "Waited since the command"), "10");
  drive::type(entry().value().line(), "450");
  EXPECT_THAT(entry().forming().words().toLower().toStdString(), ::testing::HasSubstr("early"));
}

TEST_F(Window, WithdrawsAndCorrectsWithAReason) {
  withReadings();
  open("1-02");
  auto& box = page<UnitPage>().panel(Procedure::airflow).readings();
  ASSERT_TRUE(drive::press(box, "Withdraw…"));
  drive::type(drive::named<QLineEdit>(box, "Reason"), "read at the wrong box");
  ASSERT_TRUE(drive::press(box, "Do it"));
  ASSERT_TRUE(idle());
  EXPECT_TRUE(session().snapshot()->unit("1-02")->readings[0].withdrawn);

  box.select(session().snapshot()->unit("1-02")->readings[2].key);
  ASSERT_TRUE(drive::press(box, "Correct…"));
  drive::type(entry().value().line(), "133");
  ASSERT_TRUE(drive::press(entry(), "Store the correction"));
  ASSERT_TRUE(idle());
  EXPECT_EQ(session().snapshot()->unit("1-02")->readings.size(), 4u);  // no reason yet, nothing stored
  drive::type(drive::named<QLineEdit>(entry(), "Reason"), "digits exchanged");
  ASSERT_TRUE(drive::press(entry(), "Store the correction"));
  ASSERT_TRUE(idle());
  EXPECT_EQ(session().snapshot()->unit("1-02")->readings.size(), 5u);
}

TEST_F(Window, MovesADeficiencyAsFarAsTheRoleAllows) {
  withReadings();
  open("1-01");
  for (const char* typed : {"300", "300"}) record(typed);
  ASSERT_FALSE(session().snapshot()->deficiencies.empty());
  window.goTo(Page::deficiencies);
  auto& deficiencies = page<DeficienciesPage>();
  ASSERT_GT(deficiencies.model().rowCount(), 0);
  EXPECT_TRUE(deficiencies.detail().isVisible());
  session().setAuthor({"Cy Invented", fleet::Role::contractor});
  EXPECT_EQ(drive::named<QPushButton>(deficiencies.detail(), "Withdraw"), nullptr);  // not the contractor's to take
  ASSERT_TRUE(drive::press(deficiencies.detail(), "Accept"));
  ASSERT_TRUE(idle());
  EXPECT_EQ(session().snapshot()->deficiencies[0].state(), fleet::DeficiencyState::accepted);
  ASSERT_TRUE(drive::press(deficiencies.detail(), "Report the work"));  // without a note
  ASSERT_TRUE(idle());
  EXPECT_EQ(session().snapshot()->deficiencies[0].state(), fleet::DeficiencyState::accepted);
  drive::type(drive::named<QLineEdit>(deficiencies.detail(), "Note to the move"), "setpoint corrected");
  ASSERT_TRUE(drive::press(deficiencies.detail(), "Report the work"));
  ASSERT_TRUE(idle());
  EXPECT_EQ(session().snapshot()->deficiencies[0].state(), fleet::DeficiencyState::workReported);
}

TEST_F(Window, SignsAUnitAndShowsTheSignatureBrokenByALaterChange) {
  withReadings();
  open("1-02");
  auto& signOff = page<UnitPage>().signOff();
  page<UnitPage>().tabs().setCurrentWidget(&signOff);
  ASSERT_TRUE(drive::press(signOff, "Sign this unit"));
  ASSERT_TRUE(idle());
  EXPECT_THAT(signOff.words().toStdString(), ::testing::HasSubstr("Stands. Ada Invented"));

  open("1-02");
  record("470");  // without a reason
  EXPECT_EQ(session().snapshot()->unit("1-02")->readings.size(), 4u);
  drive::type(drive::named<QLineEdit>(entry(), "Reason"), "asked for again");
  QTest::keyClick(drive::named<QLineEdit>(entry(), "Reason"), Qt::Key_Return);
  ASSERT_TRUE(idle());
  ASSERT_EQ(session().snapshot()->unit("1-02")->readings.size(), 5u);
  EXPECT_THAT(signOff.words().toStdString(), ::testing::HasSubstr("because: asked for again"));
}

TEST_F(Window, SignsAUnitThatDoesNotPassOnlyWithExceptions) {
  withReadings();
  open("2-01");
  auto& signOff = page<UnitPage>().signOff();
  page<UnitPage>().tabs().setCurrentWidget(&signOff);
  ASSERT_TRUE(drive::press(signOff, "Sign this unit"));
  ASSERT_TRUE(idle());
  EXPECT_TRUE(session().snapshot()->unit("2-01")->signOffs.empty());
  drive::named<QPlainTextEdit>(signOff, "Exceptions")->setPlainText("not balanced: access is blocked");
  ASSERT_TRUE(drive::press(signOff, "Sign this unit"));
  ASSERT_TRUE(idle());
  EXPECT_EQ(session().snapshot()->unit("2-01")->signOffs.size(), 1u);
}

TEST_F(Window, NamesWhatUndoAndRedoWouldTake) {
  withReadings();
  open("1-01");
  record("412");
  EXPECT_THAT(action("Undo")->text().toStdString(), ::testing::HasSubstr("412 cfm at 1-01"));
  action("Undo")->trigger();
  ASSERT_TRUE(idle());
  EXPECT_TRUE(session().snapshot()->unit("1-01")->readings.empty() || session().snapshot()->unit("1-01")->readings[0].withdrawn);
  EXPECT_THAT(action("Redo")->text().toStdString(), ::testing::HasSubstr("412 cfm at 1-01"));
  action("Redo")->trigger();
  ASSERT_TRUE(idle());
  EXPECT_FALSE(session().snapshot()->unit("1-01")->readings.at(0).withdrawn);
}

TEST_F(Window, ChangesTheDesignAndFollowsAnUndo) {
  withSchedule();
  open("1-01");
  auto& design = page<UnitPage>().design();
  page<UnitPage>().tabs().setCurrentWidget(&design);
  drive::type(design.number("Cooling max flow")->line(), "0.25 m3/s");
  ASSERT_TRUE(drive::press(design, "Store the change"));
  ASSERT_TRUE(idle());
  EXPECT_NEAR(session().snapshot()->unit("1-01")->unit.coolingMax->si(), 0.25, 1e-9);
  action("Undo")->trigger();
  ASSERT_TRUE(idle());
  EXPECT_EQ(design.number("Cooling max flow")->line()->text(), "450");
}

TEST_F(Window, ShowsTheOtherSystemAtASwitch) {
  withReadings();
  window.goTo(Page::project);
  ASSERT_TRUE(drive::choose(&page<ProjectPage>().describe().system(), "SI: L/s, °C, Pa"));
  page<ProjectPage>().describe().store();
  ASSERT_TRUE(idle());
  EXPECT_EQ(page<FleetPage>().model().index(0, FleetModel::inlet).data().toString(), "203 mm");
  open("1-02");
  const auto& readings = page<UnitPage>().panel(Procedure::airflow).readings().model();
  EXPECT_EQ(readings.index(0, ReadingsModel::value).data().toString(), "236.9 L/s");
  EXPECT_EQ(readings.index(0, ReadingsModel::typed).data().toString(), "502 cfm");
}

TEST_F(Window, ListsTheHistoryNewestFirst) {
  withReadings();
  window.goTo(Page::history);
  ASSERT_TRUE(until([this] { return page<HistoryPage>().model().rowCount() > 0; }));
  EXPECT_EQ(page<HistoryPage>().model().index(0, HistoryModel::action).data().toString(), "Import readings from readings.csv");
}

TEST_F(Window, VerifiesTheFile) {
  withReadings();
  window.goTo(Page::project);
  page<ProjectPage>().verify().verify();
  ASSERT_TRUE(until([this] { return !page<ProjectPage>().verify().words().isEmpty(); }));
  EXPECT_EQ(page<ProjectPage>().verify().words(), "The file is sound.");
}

TEST_F(Window, WritesAReportInAChildProcess) {
  withReadings();
  window.goTo(Page::report);
  const QString out = folder.filePath("report.pdf");
  drive::type(drive::named<QLineEdit>(page<ReportPage>(), "Report file"), out);
  ASSERT_TRUE(drive::press(page<ReportPage>(), "Write the report"));
  ASSERT_TRUE(until([this] { return !page<ReportPage>().run().isRunning(); }));
  QFile file(out);
  ASSERT_TRUE(file.open(QIODevice::ReadOnly));
  EXPECT_TRUE(file.readAll().startsWith("%PDF"));
}

TEST_F(Window, LeavesNothingBehindWhenAReportIsCancelled) {
  withReadings();
  window.goTo(Page::report);
  drive::type(drive::named<QLineEdit>(page<ReportPage>(), "Report file"), folder.filePath("report.pdf"));
  ASSERT_TRUE(drive::press(page<ReportPage>(), "Write the report"));
  page<ReportPage>().cancel();
  EXPECT_FALSE(page<ReportPage>().run().isRunning());
  ASSERT_TRUE(idle());
  EXPECT_EQ(QDir(folder.path()).entryList({"*.pdf"}, QDir::Files | QDir::Hidden), QStringList());
}

TEST_F(Window, SaysInASentenceWhyAFileCannotBeOpened) {
  write(folder.filePath("other.ductwright"), "not a project");
  session().setAuthor({"Ada Invented", fleet::Role::agent});
  window.openProject(folder.filePath("other.ductwright"));
  ASSERT_TRUE(idle());
  EXPECT_FALSE(session().isOpen());
  EXPECT_EQ(window.page(), Page::start);
}

TEST_F(Window, GivesEveryControlAName) {
  withReadings();
  QStringList nameless;
  for (int i = 0; i < kPages; ++i) {
    window.goTo(static_cast<Page>(i));
    for (QWidget* widget : window.findChildren<QWidget*>()) {
      const bool control = qobject_cast<QLineEdit*>(widget) || qobject_cast<QComboBox*>(widget) ||
                           qobject_cast<QAbstractItemView*>(widget) || qobject_cast<QPlainTextEdit*>(widget) ||
                           qobject_cast<QAbstractButton*>(widget);
      if (!control || !widget->isVisible() || widget->objectName().startsWith("qt_")) continue;
      auto* button = qobject_cast<QAbstractButton*>(widget);
      const bool inner = qobject_cast<QComboBox*>(widget->parentWidget()) != nullptr || widget->inherits("QHeaderView") ||
                         widget->parentWidget()->inherits("QTabBar") || widget->parentWidget()->inherits("QLineEdit");
      if (widget->accessibleName().isEmpty() && !(button && !button->text().isEmpty()) && !inner)
        nameless << QStringLiteral("page %1: %2 in %3").arg(i).arg(widget->metaObject()->className(), widget->parentWidget()->metaObject()->className());
    }
  }
  EXPECT_EQ(nameless, QStringList());
}

}  // namespace
}  // namespace ductwright::ui
