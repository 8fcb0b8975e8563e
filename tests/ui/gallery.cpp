#include <QApplication>
#include <QComboBox>
#include <QDir>
#include <QFile>
#include <QLineEdit>
#include <QLocale>
#include <QPalette>
#include <QPixmap>
#include <QSettings>
#include <QStandardPaths>
#include <QStyleFactory>
#include <QTabWidget>
#include <QTemporaryDir>
#include <iostream>

#include "drive.h"
#include "ui/field/quantity_field.h"
#include "ui/import/import_page.h"
#include "ui/import/import_run.h"
#include "ui/session/session.h"
#include "ui/settings/project_page.h"
#include "ui/unit/entry_form.h"
#include "ui/unit/procedure_panel.h"
#include "ui/unit/unit_page.h"
#include "ui/window/main_window.h"
#include "ui/window/prepare.h"

// Renders every page with the sample to PNG: gallery FOLDER [--scale 2] [--size 1280x800] [--dark]
namespace {

using namespace ductwright;
using namespace ductwright::ui;

QPalette darkPalette() {
  QPalette palette;
  const auto set = [&](QPalette::ColorRole role, const char* colour) { palette.setColor(role, QColor(QLatin1String(colour))); };
  set(QPalette::Window, "#26292d");
  set(QPalette::WindowText, "#e8eaed");
  set(QPalette::Base, "#1c1e21");
  set(QPalette::AlternateBase, "#212428");
  set(QPalette::Text, "#e8eaed");
  set(QPalette::Button, "#33373c");
  set(QPalette::ButtonText, "#e8eaed");
  set(QPalette::BrightText, "#ffffff");
  set(QPalette::Highlight, "#2f6f95");
  set(QPalette::HighlightedText, "#ffffff");
  set(QPalette::ToolTipBase, "#3a3f45");
  set(QPalette::ToolTipText, "#e8eaed");
  set(QPalette::Link, "#8ab8d8");
  set(QPalette::PlaceholderText, "#a5abb3");
  set(QPalette::Light, "#3d4248");
  set(QPalette::Mid, "#1f2226");
  set(QPalette::Dark, "#15171a");
  set(QPalette::Shadow, "#000000");
  for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText})
    palette.setColor(QPalette::Disabled, role, QColor(0x8a, 0x90, 0x98));
  return palette;
}

struct Gallery {
  MainWindow& window;
  QDir folder;
  QString suffix;

  void settle() const {
    drive::until([this] { return !window.session().isBusy(); });
    for (int i = 0; i < 5; ++i) drive::settle();
  }
  void picture(const QString& name) const {
    settle();
    const QString path = folder.filePath(QStringLiteral("%1%2.png").arg(name, suffix));
    if (!window.grab().save(path)) std::cerr << "cannot write " << path.toStdString() << '\n';
  }
  void unit(const char* tag, int tab, const QString& name) const {
    const auto* record = window.session().snapshot()->unit(tag);
    if (!record) return;
    window.showUnit(record->unit.id);
    window.findChild<UnitPage*>()->tabs().setCurrentIndex(tab);
    picture(name);
  }
};

void renderAll(const Gallery& gallery, const QString& samples) {
  MainWindow& window = gallery.window;
  gallery.picture("01-start");
  drive::press(window, "new");
  gallery.picture("02-new-project");
  drive::press(window, "Cancel");
  window.session().setAuthor({"Ada Invented", fleet::Role::agent});
  window.openSample();
  drive::until([&] { return window.session().isOpen(); });
  gallery.settle();
  window.goTo(Page::fleet);
  gallery.picture("03-fleet");
  drive::type(drive::named<QLineEdit>(window, "Find units"), "nowhere");
  gallery.picture("04-fleet-nothing-found");
  drive::press(window, "Show all units");
  gallery.unit("1-01", 0, "05-unit-airflow");
  auto& entry = window.findChild<UnitPage*>()->panel(fleet::Procedure::airflow).entry();
  drive::type(entry.value().line(), "0.5 m3/s");
  gallery.picture("06-unit-verdict-forms");
  drive::type(entry.value().line(), "45o");
  gallery.picture("07-unit-slip");
  gallery.unit("2-05", 1, "08-unit-lockout");
  gallery.unit("2-05", 2, "09-unit-rise");
  gallery.unit("3-05", 3, "10-unit-design");
  gallery.unit("2-05", 4, "11-unit-sign-off");
  window.goTo(Page::deficiencies);
  gallery.picture("12-deficiencies");
  window.goTo(Page::review);
  gallery.picture("13-review");
  window.goTo(Page::import);
  gallery.picture("14-import-empty");
  window.findChild<ImportPage*>()->begin(project::TableKind::schedule, QDir(samples).filePath("fernhollow/schedule.csv"));
  drive::until([&] { return !window.findChild<ImportPage*>()->run().isRunning(); });
  gallery.picture("15-import-preview");
  window.goTo(Page::report);
  gallery.picture("16-report");
  window.goTo(Page::history);
  gallery.picture("17-history");
  window.goTo(Page::project);
  gallery.picture("18-project");
  window.findChild<ProjectPage*>()->findChild<QTabWidget*>()->setCurrentIndex(1);
  gallery.picture("19-criteria");
}

}  // namespace

int main(int argc, char** argv) {
  if (!qEnvironmentVariableIsSet("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
  QStringList arguments;
  for (int i = 1; i < argc; ++i) arguments << QString::fromLocal8Bit(argv[i]);
  const auto option = [&](const QString& name, const QString& otherwise) {
    const auto at = arguments.indexOf(name);
    return at >= 0 && at + 1 < arguments.size() ? arguments[at + 1] : otherwise;
  };
  if (arguments.isEmpty()) {
    std::cerr << "gallery FOLDER [--scale 2] [--size 1280x800] [--dark]\n";
    return 2;
  }
  qputenv("QT_SCALE_FACTOR", option("--scale", "1").toLatin1());
  const QTemporaryDir home;
  qputenv("HOME", home.path().toLocal8Bit());
  QStandardPaths::setTestModeEnabled(true);
  QSettings::setDefaultFormat(QSettings::IniFormat);
  QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, home.path());
  QLocale::setDefault(QLocale::c());
  QApplication application(argc, argv);
  prepareApplication(application);
  QApplication::setStyle(QStyleFactory::create("Fusion"));
  if (arguments.contains("--dark")) QApplication::setPalette(darkPalette());
  QDir().mkpath(arguments[0]);

  const QString samples = QStringLiteral(DUCTWRIGHT_SOURCE_DIR "/sample-projects");
  MainWindow window({QStringLiteral(DUCTWRIGHT_CLI), samples});
  const QStringList size = option("--size", "1280x800").split('x');
  window.resize(size.value(0).toInt(), size.value(1).toInt());
  window.show();
  renderAll({window, QDir(arguments[0]), arguments.contains("--dark") ? "-dark" : ""}, samples);
  return 0;
}
