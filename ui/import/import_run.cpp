#include "ui/import/import_run.h"

#include "ui/session/session.h"
#include "ui/words/words.h"

namespace ductwright::ui {

using project::ImportOutcome;
using project::ImportPreview;

ImportRun::ImportRun(Session& session, QObject* parent) : QObject(parent), m_session(session) {}

quint64 ImportRun::begin() {
  cancel();
  m_stop = {};
  m_running = true;
  emit progressed(0);
  return ++m_turn;
}

template <class T, class Signal>
void ImportRun::end(quint64 turn, const Result<T>& result, Signal signal) {
  // An import that was through before it heard of the cancel is told all the same: it can be undone.
  const bool through = std::is_same_v<T, ImportOutcome> && result.has_value();
  if (!isCurrent(turn) && !through) return;
  if (turn == m_turn) m_running = false;
  if (result) emit (this->*signal)(*result);
  else emit failed(text(result.error().sentence));
}

void ImportRun::preview(const project::ImportRequest& request) {
  const quint64 turn = begin();
  m_session.performLong<ImportPreview>(
      this,
      [request](project::OpenProject& project, const project::Progress& progress, std::stop_token stop) {
        return project::previewImport(project, request, progress, stop);
      },
      m_stop.get_token(),
      [this, turn](double share) {
        if (isCurrent(turn)) emit progressed(share);
      },
      [this, turn](const Result<ImportPreview>& preview) { end(turn, preview, &ImportRun::previewed); });
}

void ImportRun::import(const ImportPreview& preview, const QString& reason) {
  const quint64 turn = begin();
  m_session.performLong<ImportOutcome>(
      this,
      [preview, reason = reason.toStdString()](project::OpenProject& project, const project::Progress& progress,
                                               std::stop_token stop) {
        return project.import(preview, reason, progress, stop);
      },
      m_stop.get_token(),
      [this, turn](double share) {
        if (isCurrent(turn)) emit progressed(share);
      },
      [this, turn](const Result<ImportOutcome>& outcome) { end(turn, outcome, &ImportRun::imported); });
}

void ImportRun::cancel() {
  if (!m_running) return;
  m_running = false;
  m_stop.request_stop();
  emit cancelled();
}

}  // namespace ductwright::ui
