#include "ui/report/report_run.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>

#include "ui/session/session.h"
#include "ui/words/words.h"

namespace ductwright::ui {

ReportRun::ReportRun(Session& session, const QString& commandLine, QObject* parent)
    : QObject(parent), m_session(session), m_commandLine(commandLine) {
  connect(&m_child, &QProcess::readyReadStandardOutput, this, &ReportRun::readProgress);
  connect(&m_child, &QProcess::errorOccurred, this, [this](QProcess::ProcessError error) {
    if (error == QProcess::FailedToStart)
      end(tr("The report could not be begun: %1 cannot be run.").arg(QDir::toNativeSeparators(m_commandLine)));
  });
  connect(&m_child, &QProcess::finished, this, [this](int code, QProcess::ExitStatus status) {
    if (!m_running) return;
    const QString said = QString::fromUtf8(m_child.readAllStandardError()).trimmed();
    if (status != QProcess::NormalExit || code != 0)
      return end(said.isEmpty() ? tr("The report was not written: its program ended early.") : said);
    QFile::remove(m_wish.out);
    if (!QFile::rename(draft(), m_wish.out)) return end(tr("The report cannot be put in %1.").arg(m_wish.out));
    end({});
  });
}

ReportRun::~ReportRun() {
  m_running = false;
  if (m_child.state() == QProcess::NotRunning) return;
  m_child.kill();
  m_child.waitForFinished();
}

// Beside its final name, so that it can be renamed.
QString ReportRun::draft() const {
  const QFileInfo out(m_wish.out);
  return out.dir().filePath(QStringLiteral(".%1.part.%2").arg(out.completeBaseName(), out.suffix()));
}

void ReportRun::start(const Wish& wish) {
  if (m_running) return;
  m_wish = wish;
  m_running = true;
  ++m_turn;
  m_folder = std::make_unique<QTemporaryDir>();
  const QString copy = m_folder->filePath(QStringLiteral("snapshot.ductwright"));
  emit progressed(0);
  m_session.perform<void>(
      this, [copy](project::OpenProject& project) { return project.saveCopy(copy.toStdString()); },
      [this, turn = m_turn](const Result<void>& saved) {
        if (!m_running || turn != m_turn) return;
        if (!saved) return end(text(saved.error().sentence));
        launch();
      });
}

void ReportRun::launch() {
  m_child.start(m_commandLine, {QStringLiteral("report"), m_folder->filePath(QStringLiteral("snapshot.ductwright")),
                                QStringLiteral("--kind"), m_wish.kind, QStringLiteral("--out"), draft(),
                                QStringLiteral("--progress")});
}

// Lines "progress 0.42"; anything else is not for us.
void ReportRun::readProgress() {
  while (m_child.canReadLine()) {
    const QList<QByteArray> words = m_child.readLine().trimmed().split(' ');
    if (words.size() == 2 && words[0] == "progress") emit progressed(words[1].toDouble());
  }
}

void ReportRun::cancel() {
  if (!m_running) return;
  m_running = false;
  if (m_child.state() != QProcess::NotRunning) {
    m_child.kill();
    m_child.waitForFinished(100);
  }
  QFile::remove(draft());
  emit cancelled();
}

void ReportRun::end(const QString& fault) {
  if (!m_running) return;
  m_running = false;
  if (!fault.isEmpty()) QFile::remove(draft());
  emit finished(fault);
}

}  // namespace ductwright::ui
