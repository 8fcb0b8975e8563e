#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "fleet/record.h"
#include "quantity/result.h"
#include "store/changed.h"
#include "store/entry.h"
#include "store/environment.h"
#include "store/finding.h"
#include "store/writer.h"

namespace ductwright::store {

enum class Access : std::uint8_t { write, read };

// What came of opening a file. A project is there for current, migrated and readOnly.
enum class Outcome : std::uint8_t {
  current,   // opened
  migrated,  // opened; an older version was brought up to this one (with Access::read in memory only)
  readOnly,  // opened for reading, though writing was asked for: the file or its folder cannot be written
  locked,    // another program has it open for writing; Access::read is still possible
  tooNew,    // made by a later version of the program
  notOurs,   // a file of another kind
  damaged,   // a project, but parts of it cannot be trusted or read
  empty,     // nothing in it
  missing,   // no such file
  failed     // the system refused (permission, I/O)
};

class ProjectFile;
struct Opening {
  Outcome outcome = Outcome::failed;
  std::string sentence;  // for a person; empty for current
  std::unique_ptr<ProjectFile> project;
};

// Whether the whole file's structure is checked before the first read (a stranger's file), or by the
// caller's verify() behind it (a file that this installation wrote last).
enum class FirstCheck : std::uint8_t { whole, later };

// How far a long action is; asked often, so that a cancel is answered at once.
struct Progress {
  std::stop_token stop;
  std::function<void(std::uint64_t done)> report;  // readings written, or rows checked
};

struct UndoState {
  std::optional<std::string> undo, redo;  // names of the actions: "Enter reading 412 cfm at 2-14"
};

// One import, or one typed entry.
struct StoredBatch {
  fleet::BatchId id;
  std::string source;
  std::uint32_t count = 0;
  bool standing = false;  // false: its import was undone
  std::string withdrawn;  // the reason; empty while it counts
};

struct Withdrawal {
  fleet::FactKey reading;
  std::string reason;
};

// An open project: one SQLite file, held with an operating-system lock while it is open for writing.
// Belongs to one thread at a time. Every failure is one sentence, and leaves the file as it was.
//
//   auto opening = ProjectFile::open("tower.ductwright", Environment::ofSystem("field laptop"));
//   if (!opening.project) return opening.sentence;
//   auto done = opening.project->commit({"Rename 2-14", "A. Agent"}, [&](Writer& w) -> Result<void> {
//     w.put(unit);
//     return {};
//   });
class ProjectFile {
 public:
  // Makes a new file; one that exists is never overwritten. The first journal entry holds the project's
  // name, its first building and the default criteria.
  static Result<std::unique_ptr<ProjectFile>> create(const std::filesystem::path&, const Environment&,
                                                     const ProjectInfo&, const Action&);
  // Opens a file without changing it, except for a migration with Access::write.
  static Opening open(const std::filesystem::path&, const Environment&, Access = Access::write,
                      FirstCheck = FirstCheck::whole);
  ~ProjectFile();

  [[nodiscard]] const std::filesystem::path& path() const;
  [[nodiscard]] bool writable() const;
  // What a person should know about the place of the file: a sentence where it lies on a network drive, whose
  // locks and writes cannot be relied on; else empty.
  [[nodiscard]] std::string caution() const;
  [[nodiscard]] const Environment& environment() const;

  // The whole project as a value; its revision is the number of the last journal entry.
  [[nodiscard]] Result<fleet::Snapshot> load(const Progress& = {}) const;
  // A later value: re-reads what changed, shares every other unit with `before`.
  [[nodiscard]] Result<fleet::Snapshot> refreshed(const fleet::Snapshot& before, const Changed&) const;
  // Without the readings' values: what the lists need.
  [[nodiscard]] Result<std::vector<StoredBatch>> batches() const;
  [[nodiscard]] Result<std::vector<Withdrawal>> withdrawals(fleet::UnitId) const;
  [[nodiscard]] Result<std::vector<KeptMapping>> mappings() const;

  // One action of a person: one transaction, one journal entry. `write` may answer with a failure of its own;
  // then, as after any failure of the writer or a cancel, nothing was changed. An action that changes nothing
  // leaves no entry.
  Result<Committed> commit(const Action&, const std::function<Result<void>(Writer&)>& write,
                           const Progress& = {});

  // Takes back this device's last action, or does it again: a new entry with the inverted changes. Stops at a
  // sign-off, a migration and a merge; refused with a sentence when someone changed the same since. A broken
  // sign-off stays broken.
  Result<Committed> undo(const std::string& author, fleet::Role, const std::string& reason = {});
  Result<Committed> redo(const std::string& author, fleet::Role, const std::string& reason = {});
  [[nodiscard]] Result<UndoState> undoState() const;

  // The journal, newest first, with changes decoded; of one unit when given. `visit` answers false to stop.
  Result<void> history(std::optional<fleet::UnitId>, const std::function<bool(const Entry&)>& visit) const;
  // The last entry, without changes. Its hash is what a report prints and a sign-off names.
  [[nodiscard]] Result<Entry> head() const;

  // Recomputes everything: the file's structure, every reading's hash, the journal's chain, the state from
  // the journal, the sign-offs. An empty list: nothing is wrong.
  [[nodiscard]] Result<std::vector<Finding>> verify(const Progress& = {}) const;

  // A whole, checked copy at `target`, replacing what is there only when it is complete.
  Result<void> saveCopy(const std::filesystem::path& target) const;

  struct Parts;
  explicit ProjectFile(std::unique_ptr<Parts>);

 private:
  std::unique_ptr<Parts> m_parts;
};

}  // namespace ductwright::store
