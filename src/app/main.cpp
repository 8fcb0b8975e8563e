#include <QApplication>
#include <QCommandLineParser>
#include <QDir>
#include <QFileInfo>

#include "ui/window/main_window.h"
#include "ui/window/prepare.h"

namespace {

using ductwright::ui::Places;

// The command line stands beside this program, the samples under share, or both in the tree they were built from.
Places places() {
  const QDir here(QCoreApplication::applicationDirPath());
  const auto first = [](const QStringList& paths) {
    for (const QString& path : paths)
      if (QFileInfo::exists(path)) return path;
    return paths.front();
  };
  return {first({here.filePath(QStringLiteral("ductwright-cli")), here.filePath(QStringLiteral("../cli/ductwright-cli"))}),
          first({here.filePath(QStringLiteral("../share/ductwright/sample-projects")), QStringLiteral(DUCTWRIGHT_SAMPLES)})};
}

}  // namespace

int main(int argc, char** argv) {
  QApplication application(argc, argv);
  QApplication::setApplicationVersion(QStringLiteral(DUCTWRIGHT_VERSION));
  ductwright::ui::prepareApplication(application);

  QCommandLineParser parser;
  parser.setApplicationDescription(QApplication::translate("main", "Proves a building's fleet of VAV terminal units."));
  parser.addHelpOption();
  parser.addVersionOption();
  parser.addPositionalArgument(QStringLiteral("project"), QApplication::translate("main", "The project file to open."),
                               QStringLiteral("[project]"));
  const QCommandLineOption sample(QStringLiteral("sample"),
                                  QApplication::translate("main", "Open a copy of the sample project, an invented building."));
  parser.addOption(sample);
  parser.process(application);

  ductwright::ui::MainWindow window(places());
  window.show();
  const QStringList arguments = parser.positionalArguments();
  if (parser.isSet(sample)) window.openSample();
  else if (!arguments.isEmpty()) window.openProject(QFileInfo(arguments.front()).absoluteFilePath());
  return QApplication::exec();
}
