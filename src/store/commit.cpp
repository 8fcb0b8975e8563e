#include "commit.h"

#include "changeset.h"
#include "loader.h"
#include "parts.h"
#include "writer_state.h"

namespace ductwright::store {
namespace {

// A signature, once broken, stays so; and no undo takes one away.
const std::vector<std::string_view> kNeverUndone = {"sign_off", "signed_text"};

Committed append(const Connection& db, const Environment& environment, const CommitRequest& request,
                 Blob changeset) {
  Draft draft;
  draft.kind = request.kind;
  draft.action = request.action;
  draft.about = request.about;
  draft.changeset = std::move(changeset);
  const Entry entry = appendEntry(db, environment, draft);
  return {entry.number, request.action.name, changedBy(db, draft.changeset, draft.schemaVersion)};
}

Result<void> refusedWhenReadOnly(const ProjectFile::Parts& parts) {
  if (!parts.writable()) return failure("The project is open for reading only. Save a copy to work on it.");
  return {};
}

std::string refusal(const StoredEntry& stored, bool undoing) {
  return std::string(undoing ? "\"" : "Doing \"") + stored.entry.action.name +
         (undoing ? "\" cannot be undone: the same was changed by someone since. Change it by hand."
                  : "\" again is not possible: the same was changed by someone since. Do it by hand.");
}

// Applies the inverted changes of the candidate's entry as a new entry.
Result<Committed> takeBack(const Connection& db, const Environment& environment, const Candidate& candidate,
                           const CommitRequest& request) {
  Transaction transaction(db);
  const StoredEntry stored = entryHashed(db, candidate.toInvert);
  if (!stored.hashHolds)
    return failure(
        "The journal of this project was changed from outside. Check the project before going on.");
  const Capture capture(db, kSchemaVersion);
  if (!applied(db, inverted(stored.changeset), kNeverUndone))
    return failure(refusal(stored, request.kind == EntryKind::undo));
  Committed done = append(db, environment, request, capture.changeset());
  transaction.commit();
  return done;
}

}  // namespace

Result<Committed> commitWithin(const Connection& db, const Environment& environment,
                               const CommitRequest& request,
                               const std::function<Result<void>(Writer&)>& write, const Progress& progress) {
  const auto head = headOf(db);
  const std::int64_t number = head ? head->number + 1 : 1;
  const Capture capture(db, kSchemaVersion);
  Writer::State state{db, environment, progress, head ? head->hash : Digest{}, FactWriter(db, number),
                      {}, {},          {}};
  Writer writer(state);
  const Result<void> answer = write(writer);
  if (state.problem) return tl::make_unexpected(*state.problem);
  if (!answer) return tl::make_unexpected(answer.error());
  state.facts.finish();
  Blob changeset = capture.changeset();
  if (changeset.empty()) return Committed{};
  return append(db, environment, request, std::move(changeset));
}

Result<Committed> ProjectFile::commit(const Action& action, const std::function<Result<void>(Writer&)>& write,
                                      const Progress& progress) {
  return atEdge([&]() -> Result<Committed> {
    if (const auto allowed = refusedWhenReadOnly(*m_parts); !allowed)
      return tl::make_unexpected(allowed.error());
    Transaction transaction(m_parts->db);
    auto done =
        commitWithin(m_parts->db, m_parts->environment, {EntryKind::edit, action, {}}, write, progress);
    if (done && done->number != 0) transaction.commit();
    return done;
  });
}

Result<Committed> ProjectFile::undo(const std::string& author, fleet::Role role, const std::string& reason) {
  return atEdge([&]() -> Result<Committed> {
    if (const auto allowed = refusedWhenReadOnly(*m_parts); !allowed)
      return tl::make_unexpected(allowed.error());
    const auto candidate = undoCandidate(m_parts->db, m_parts->environment.device);
    if (!candidate)
      return failure("There is nothing to undo: undo stops at a sign-off and where this device began.");
    return takeBack(m_parts->db, m_parts->environment, *candidate,
                    {EntryKind::undo, {candidate->action, author, role, reason}, candidate->about});
  });
}

Result<Committed> ProjectFile::redo(const std::string& author, fleet::Role role, const std::string& reason) {
  return atEdge([&]() -> Result<Committed> {
    if (const auto allowed = refusedWhenReadOnly(*m_parts); !allowed)
      return tl::make_unexpected(allowed.error());
    const auto candidate = redoCandidate(m_parts->db, m_parts->environment.device);
    if (!candidate) return failure("There is nothing to do again.");
    return takeBack(m_parts->db, m_parts->environment, *candidate,
                    {EntryKind::redo, {candidate->action, author, role, reason}, candidate->about});
  });
}

Result<UndoState> ProjectFile::undoState() const {
  return atEdge([&]() -> Result<UndoState> {
    UndoState out;
    if (!m_parts->writable()) return out;
    if (const auto undo = undoCandidate(m_parts->db, m_parts->environment.device)) out.undo = undo->action;
    if (const auto redo = redoCandidate(m_parts->db, m_parts->environment.device)) out.redo = redo->action;
    return out;
  });
}

}  // namespace ductwright::store
