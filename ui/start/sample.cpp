#include "ui/start/sample.h"

#include <QCoreApplication>
#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QStandardPaths>

namespace ductwright::ui {
namespace {

using project::OpenProject;
using project::TableKind;

const QString kPrefix = QStringLiteral("sample-");

struct Table {
  TableKind kind;
  const char* file;
};
// What readings refer to comes before them.
constexpr Table kTables[] = {{TableKind::profiles, "profiles.csv"},       {TableKind::roomSensors, "sensors.csv"},
                             {TableKind::segments, "segments.csv"},       {TableKind::airHandlers, "air-handlers.csv"},
                             {TableKind::schedule, "schedule.csv"},       {TableKind::instruments, "instruments.csv"},
                             {TableKind::settings, "settings.csv"},       {TableKind::readings, "readings.csv"}};

std::string said(const char* sentence, const QString& about) {
  return QCoreApplication::translate("sample", sentence).arg(QDir::toNativeSeparators(about)).toStdString();
}

std::string firstLine(const QString& path) {
  QFile file(path);
  return file.open(QIODevice::ReadOnly) ? file.readLine().trimmed().toStdString() : std::string();
}

Result<QString> placeFor(const QString& name) {
  const QDir folder(QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation));
  if (!QDir().mkpath(folder.path())) return failure(said(QT_TRANSLATE_NOOP("sample", "The folder %1 cannot be made."), folder.path()));
  QString path = folder.filePath(QStringLiteral("%1%2.ductwright").arg(kPrefix, name));
  for (int n = 2; QFile::exists(path); ++n) path = folder.filePath(QStringLiteral("%1%2-%3.ductwright").arg(kPrefix, name).arg(n));
  return path;
}

Result<void> importAll(OpenProject& project, const QDir& tables) {
  for (const Table& table : kTables) {
    const QString path = tables.filePath(QString::fromLatin1(table.file));
    if (!QFile::exists(path)) continue;
    auto preview = project::previewImport(project, {table.kind, path.toStdString(), {}, {}});
    if (!preview) return tl::make_unexpected(preview.error());
    const auto done = project.import(*preview, {}, {}, {});
    if (!done) return tl::make_unexpected(done.error());
  }
  return {};
}

}  // namespace

Result<std::unique_ptr<OpenProject>> makeSample(const QString& samples, const project::Author& author) {
  for (const QFileInfo& folder : QDir(samples).entryInfoList(QDir::Dirs | QDir::NoDotAndDotDot, QDir::Name)) {
    const QDir tables(folder.absoluteFilePath());
    if (!tables.exists(QStringLiteral("NAME"))) continue;
    const auto path = placeFor(folder.fileName());
    if (!path) return tl::make_unexpected(path.error());
    const auto elevation = quantity::readQuantity(firstLine(tables.filePath(QStringLiteral("ELEVATION"))),
                                                  quantity::Dimension::elevation, quantity::System::ip);
    auto made = OpenProject::create(path->toStdString(),
                                    {firstLine(tables.filePath(QStringLiteral("NAME"))), quantity::System::ip,
                                     quantity::Length::fromSi(elevation ? elevation->si : 0)},
                                    author);
    if (!made) return made;
    if (const auto filled = importAll(**made, tables); !filled) {
      made->reset();
      QFile::remove(*path);
      return tl::make_unexpected(filled.error());
    }
    return made;
  }
  return failure(said(QT_TRANSLATE_NOOP("sample", "The sample is not installed: nothing was found in %1."), samples));
}

bool isSample(const QString& path) { return QFileInfo(path).fileName().startsWith(kPrefix); }

}  // namespace ductwright::ui
