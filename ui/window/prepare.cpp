#include "ui/window/prepare.h"

#include <QApplication>
#include <QDir>
#include <QIcon>
#include <QLocale>
#include <QTranslator>

// Resources of a static library are named where they are first needed, outside every namespace.
static void initialiseResources() {
  Q_INIT_RESOURCE(ductwright);
  Q_INIT_RESOURCE(translations);
}

namespace ductwright::ui {

void prepareApplication(QApplication& application) {
  initialiseResources();
  QApplication::setOrganizationName(QStringLiteral("Ductwright"));
  QApplication::setApplicationName(QStringLiteral("Ductwright"));
  QGuiApplication::setDesktopFileName(QStringLiteral("ductwright"));
  QApplication::setWindowIcon(QIcon(QStringLiteral(":/icons/ductwright.svg")));
  // English has a translation of its own: the plurals.
  auto* translator = new QTranslator(&application);
  const bool loaded = translator->load(QLocale(), QStringLiteral("ductwright"), QStringLiteral("_"), QStringLiteral(":/translations")) ||
                      translator->load(QStringLiteral(":/translations/ductwright_en.qm"));
  if (loaded) QApplication::installTranslator(translator);
}

}  // namespace ductwright::ui
