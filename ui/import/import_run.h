#pragma once

#include <QObject>
#include <optional>
#include <stop_token>

#include "project/import.h"

namespace ductwright::ui {

class Session;

// Reads a file for preview, and imports what was previewed, off the screen's thread. To cancel is answered at once;
// what still comes from the cancelled work is dropped.
class ImportRun : public QObject {
  Q_OBJECT

 public:
  explicit ImportRun(Session& session, QObject* parent = nullptr);

  [[nodiscard]] bool isRunning() const { return m_running; }
  void preview(const project::ImportRequest& request);
  void import(const project::ImportPreview& preview, const QString& reason);
  void cancel();

 signals:
  void progressed(double share);
  void previewed(const ductwright::project::ImportPreview& preview);
  void imported(const ductwright::project::ImportOutcome& outcome);
  void failed(const QString& sentence);
  void cancelled();

 private:
  quint64 begin();
  [[nodiscard]] bool isCurrent(quint64 turn) const { return m_running && turn == m_turn; }
  template <class T, class Signal>
  void end(quint64 turn, const Result<T>& result, Signal signal);

  Session& m_session;
  std::stop_source m_stop;
  quint64 m_turn = 0;
  bool m_running = false;
};

}  // namespace ductwright::ui
