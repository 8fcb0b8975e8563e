#pragma once

#include <QObject>
#include <QProcess>
#include <QTemporaryDir>
#include <memory>
#include <optional>

#include "quantity/result.h"

namespace ductwright::ui {

class Session;

// Writes a report in a child process, from a copy of the project as it stood: the window stays free, and to cancel
// is to end the child. The report appears whole under its name, or not at all.
class ReportRun : public QObject {
  Q_OBJECT

 public:
  struct Wish {
    QString kind;  // as on the command line: "commissioning"
    QString out;   // where; its ending says the format
  };

  ReportRun(Session& session, const QString& commandLine, QObject* parent = nullptr);
  ~ReportRun() override;

  [[nodiscard]] bool isRunning() const { return m_running; }
  void start(const Wish& wish);
  void cancel();

 signals:
  void progressed(double share);
  // Empty: done. The sentence says why not otherwise.
  void finished(const QString& fault);
  void cancelled();

 private:
  void launch();
  void readProgress();
  void end(const QString& fault);
  [[nodiscard]] QString draft() const;

  Session& m_session;
  QString m_commandLine;
  Wish m_wish;
  std::unique_ptr<QTemporaryDir> m_folder;
  QProcess m_child;
  bool m_running = false;
  quint64 m_turn = 0;  // a copy that was asked for before a cancel comes too late
};

}  // namespace ductwright::ui
