#pragma once

#include <mutex>

#include "edit.h"
#include "project/project.h"
#include "settle.h"
#include "store/project_file.h"
#include "worker.h"

namespace ductwright::project {

// The open project's parts. The file belongs to the worker's thread; the state is swapped whole under a lock.
struct OpenProject::Inside {
  std::string path;
  std::unique_ptr<store::ProjectFile> file;
  mutable std::mutex mutex;  // of state, author and listener
  State now;
  Author author;
  std::function<void(const Notice&)> listener;
  mutable Worker worker;  // last: it stops first

  ~Inside();

  [[nodiscard]] State read() const;
  [[nodiscard]] Doing doing(const std::string& reason) const;

  using Change = std::function<Result<void>(Edit&, const Doing&)>;
  // One action: `change` edits, what follows is settled, all is committed and published.
  Result<void> act(const std::string& name, const std::string& reason, const Change& change,
                   const store::Progress& progress = {});
  // An undo or a redo.
  Result<void> turn(bool back, const std::string& reason);

  void publish(State next, const Notice&);
  // The names of what undo and redo would take, and the head.
  void readJournal(State&) const;
};

}  // namespace ductwright::project
