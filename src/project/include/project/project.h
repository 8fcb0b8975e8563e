#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "fleet/record.h"
#include "project/import.h"
#include "quantity/result.h"
#include "verdict/judge.h"

// The open project: everything that can be done to it, in one place.
//
// Each verb is one transaction, stored when it returns, undone as one action. Verbs may be called from any
// thread; they run one after the other on the thread that owns the file. Readers take state(), an immutable
// value, and never wait.
namespace ductwright::project {

// Who acts. Every entry of the journal carries it.
struct Author {
  std::string person;
  fleet::Role role = fleet::Role::agent;
};

// What a reader sees: consistent, immutable, cheap to copy.
struct State {
  std::shared_ptr<const fleet::Snapshot> snapshot;
  std::shared_ptr<const verdict::FleetVerdict> verdicts;
  std::optional<std::string> undo, redo;  // the names of the actions that undo() and redo() would take
  std::string head;  // hex, of the journal's last entry: what a report prints
  bool readOnly = false;
};

// What changed since the revision before. Delivered after each verb, on the project's own thread.
struct Notice {
  std::uint64_t revision = 0;
  std::string action;                  // its name, "Reading 412 cfm at 2-14"
  std::vector<fleet::UnitId> units;    // whose record or verdict changed
  bool unitListChanged = false;        // units were added, removed or reordered
  bool designChanged = false;          // air handlers, profiles, instruments, criteria …
  bool deficienciesChanged = false;
};

struct NewProject {
  std::string name;
  quantity::System system = quantity::System::ip;
  quantity::Length elevation;
};

// A reading as a person enters it.
struct NewReading {
  fleet::Procedure procedure = fleet::Procedure::airflow;
  int step = 0;
  fleet::ReadingQuantity quantity = fleet::ReadingQuantity::measuredFlow;
  std::string typed;  // "412 cfm", "0.21 m3/s", "412"
  std::string outlet, instrument, note;
  std::optional<fleet::Timestamp> takenAt;  // the clock's now where not given
  std::optional<double> waitedSeconds;
};

// One entry of the journal, for people.
struct HistoryEntry {
  std::string id;
  fleet::Timestamp at;
  std::string person, role, device, action, reason, kind;
  std::vector<std::string> changes;  // "2-14: cooling max flow 450 cfm → 500 cfm"
};

struct Integrity {
  bool sound = false;
  std::vector<std::string> findings;  // each: where, what
};

class OpenProject {
 public:
  // Makes a new file; fails where one exists.
  static Result<std::unique_ptr<OpenProject>> create(const std::string& path, const NewProject&, Author);
  // Opens for work; when another program has it open, or it may not be written, fails with a sentence that says so.
  static Result<std::unique_ptr<OpenProject>> open(const std::string& path, Author);
  // Opens for reading only; nothing is ever written, also when another program works on it.
  static Result<std::unique_ptr<OpenProject>> openReadOnly(const std::string& path);
  ~OpenProject();

  [[nodiscard]] const std::string& path() const;
  [[nodiscard]] State state() const;
  [[nodiscard]] Author author() const;
  void setAuthor(Author);
  // Called after each verb. One listener; it must not call a verb itself.
  void listen(std::function<void(const Notice&)>);

  // The judgement of a unit as it would be with this reading added, or put in the place of another: for the verdict
  // that forms while typing.
  [[nodiscard]] Result<verdict::UnitVerdict> preview(fleet::UnitId, const NewReading&,
                                                     std::optional<fleet::FactKey> inPlaceOf = {}) const;

  // Design. A reason is needed where a sign-off stands on what changes; so it is for every verb that takes one.
  Result<void> describe(const NewProject&, const std::string& reason);
  Result<void> putUnit(const fleet::Unit&, const std::string& reason);
  Result<void> removeUnit(fleet::UnitId, const std::string& reason);
  Result<void> putInstrument(const fleet::Instrument&, const std::string& reason);
  Result<void> putCriteria(const fleet::Criteria&, const std::string& reason);

  // Imports: see import.h. Cancelling leaves the project as it was.
  Result<ImportOutcome> import(const ImportPreview&, const std::string& reason, const Progress&, std::stop_token);

  // Records.
  Result<int> startRun(fleet::UnitId, fleet::Procedure, const std::string& reason);
  Result<fleet::FactKey> addReading(fleet::UnitId, const NewReading&, const std::string& reason);
  Result<void> withdrawReading(fleet::UnitId, fleet::FactKey, const std::string& reason);
  Result<fleet::FactKey> correctReading(fleet::UnitId, fleet::FactKey, const NewReading&, const std::string& reason);

  // Deficiencies. Failing checks raise theirs in the action that made them fail; a new run that passes proves them.
  Result<fleet::DeficiencyId> raiseDeficiency(const fleet::Deficiency&);
  Result<void> moveDeficiency(fleet::DeficiencyId, fleet::DeficiencyState to, const std::string& note);
  // The states that the author may move it to now.
  [[nodiscard]] std::vector<fleet::DeficiencyState> movesOf(const fleet::Deficiency&) const;

  // Sign-off. A unit that did not pass is signed only with its exceptions named.
  Result<fleet::SignOffId> signOff(fleet::UnitId, const std::string& meaning, const std::string& exceptions);

  Result<void> undo(const std::string& reason = {});
  Result<void> redo(const std::string& reason = {});
  // Newest first; of one unit where a tag is given; at most `most` entries, 0 for all.
  [[nodiscard]] Result<std::vector<HistoryEntry>> history(const std::string& unitTag = {}, std::size_t most = 0) const;
  [[nodiscard]] Result<Integrity> verify(const Progress& = {}, std::stop_token = {}) const;
  // A copy of the file as it stands, whole or not at all.
  Result<void> saveCopy(const std::string& path) const;

 private:
  struct Inside;
  explicit OpenProject(std::unique_ptr<Inside>);
  std::unique_ptr<Inside> m_inside;
};

}  // namespace ductwright::project
