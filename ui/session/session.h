#pragma once

#include <QObject>
#include <QPointer>
#include <QString>
#include <QThreadPool>
#include <functional>
#include <memory>
#include <stop_token>

#include "project/project.h"

namespace ductwright::ui {

// The project that the window shows. Commands run one after the other off the screen's thread; what they
// changed arrives here as signals, with a state that never changes under the reader.
class Session : public QObject {
  Q_OBJECT

 public:
  using Project = project::OpenProject;
  template <class T>
  using Done = std::function<void(const Result<T>&)>;

  explicit Session(QObject* parent = nullptr);
  ~Session() override;

  [[nodiscard]] bool isOpen() const { return m_project != nullptr; }
  [[nodiscard]] QString path() const;
  // Empty pointers where nothing is open.
  [[nodiscard]] const project::State& state() const { return m_state; }
  [[nodiscard]] const fleet::Snapshot* snapshot() const { return m_state.snapshot.get(); }
  [[nodiscard]] const verdict::UnitVerdict* verdictOf(fleet::UnitId unit) const;
  // For the pure questions that are asked while typing (preview, movesOf); null where nothing is open.
  [[nodiscard]] const Project* project() const { return m_project.get(); }

  [[nodiscard]] const project::Author& author() const { return m_author; }
  void setAuthor(const project::Author& author);

  // Replace the open project. `done` runs on the screen's thread, after opened() or with the reason why not.
  void open(const QString& path, const Done<void>& done);
  void create(const QString& path, const project::NewProject& project, const Done<void>& done);
  // The same with a project that is made off the screen's thread.
  void replaceBy(const std::function<Result<std::unique_ptr<Project>>()>& opening, const Done<void>& done);
  void close();

  // Runs a verb off the screen's thread; `done` runs on it, unless `context` is gone by then.
  template <class T>
  void perform(QObject* context, std::function<Result<T>(Project&)> verb, Done<T> done) {
    run([this, project = m_project, verb = std::move(verb), guard = QPointer<QObject>(context),
         done = std::move(done)] {
      auto result = std::make_shared<Result<T>>(
          project ? verb(*project) : Result<T>(failure(tr("No project is open.").toStdString())));
      post([guard, done, result] {
        if (guard && done) done(*result);
      });
    });
  }

  // The same for long work: its progress arrives on the screen's thread, and it stops when the token says so.
  template <class T>
  void performLong(QObject* context,
                   std::function<Result<T>(Project&, const project::Progress&, std::stop_token)> work,
                   std::stop_token stop, std::function<void(double)> progress, Done<T> done) {
    const project::Progress tell = [this, guard = QPointer<QObject>(context), progress = std::move(progress)](double share) {
      post([guard, progress, share] {
        if (guard) progress(share);
      });
    };
    perform<T>(
        context, [work = std::move(work), tell, stop](Project& project) { return work(project, tell, stop); },
        std::move(done));
  }

  // Whether a command has not answered yet.
  [[nodiscard]] bool isBusy() const { return m_pending > 0; }

 signals:
  void opened();
  void closed();
  void changed(const ductwright::project::Notice& notice);
  void authorChanged();
  void busyChanged(bool busy);

 private:
  void run(std::function<void()> work);
  void post(std::function<void()> work);
  void take(std::unique_ptr<Project> project);

  std::shared_ptr<Project> m_project;
  project::State m_state;
  project::Author m_author;
  QThreadPool m_pool;
  int m_pending = 0;
};

}  // namespace ductwright::ui
