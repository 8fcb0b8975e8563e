#include "ui/start/recent.h"

#include <QFileInfo>
#include <QSettings>

namespace ductwright::ui {
namespace {

const QString kRecent = QStringLiteral("recent");
constexpr int kMost = 8;

}  // namespace

QStringList recentProjects() {
  QStringList paths;
  for (const QString& path : QSettings().value(kRecent).toStringList())
    if (QFileInfo::exists(path)) paths << path;
  return paths;
}

void rememberProject(const QString& path) {
  QStringList paths = recentProjects();
  const QString whole = QFileInfo(path).absoluteFilePath();
  paths.removeAll(whole);
  paths.prepend(whole);
  QSettings().setValue(kRecent, paths.mid(0, kMost));
}

}  // namespace ductwright::ui
