#include "ui/session/session.h"

#include <QMetaObject>

namespace ductwright::ui {

Session::Session(QObject* parent) : QObject(parent) { m_pool.setMaxThreadCount(1); }

Session::~Session() { m_pool.waitForDone(); }

QString Session::path() const { return m_project ? QString::fromStdString(m_project->path()) : QString(); }

const verdict::UnitVerdict* Session::verdictOf(fleet::UnitId unit) const {
  if (!m_state.snapshot || !m_state.verdicts) return nullptr;
  const auto& units = m_state.snapshot->units;
  for (std::size_t i = 0; i < units.size() && i < m_state.verdicts->units.size(); ++i)
    if (units[i]->unit.id == unit) return m_state.verdicts->units[i].get();
  return nullptr;
}

void Session::setAuthor(const project::Author& author) {
  m_author = author;
  if (m_project) m_project->setAuthor(author);
  emit authorChanged();
}

void Session::open(const QString& path, const Done<void>& done) {
  replaceBy([path = path.toStdString(), author = m_author] { return Project::open(path, author); }, done);
}

void Session::create(const QString& path, const project::NewProject& project, const Done<void>& done) {
  replaceBy([path = path.toStdString(), project, author = m_author] { return Project::create(path, project, author); },
            done);
}

void Session::close() {
  if (!m_project) return;
  m_pool.waitForDone();
  m_project->listen({});
  m_project.reset();
  m_state = {};
  emit closed();
}

void Session::run(std::function<void()> work) {
  if (++m_pending == 1) emit busyChanged(true);
  m_pool.start([this, work = std::move(work)] {
    work();
    post([this] {
      if (--m_pending == 0) emit busyChanged(false);
    });
  });
}

void Session::post(std::function<void()> work) {
  QMetaObject::invokeMethod(this, std::move(work), Qt::QueuedConnection);
}

void Session::replaceBy(const std::function<Result<std::unique_ptr<Project>>()>& opening, const Done<void>& done) {
  run([this, opening, done] {
    auto result = std::make_shared<Result<std::unique_ptr<Project>>>(opening());
    post([this, result, done] {
      if (!*result) {
        done(tl::make_unexpected(result->error()));
        return;
      }
      take(std::move(result->value()));
      done({});
    });
  });
}

void Session::take(std::unique_ptr<Project> project) {
  close();
  m_project = std::move(project);
  m_project->listen([this](const project::Notice& notice) {
    post([this, notice] {
      if (!m_project) return;
      m_state = m_project->state();
      emit changed(notice);
    });
  });
  m_state = m_project->state();
  emit opened();
}

}  // namespace ductwright::ui
