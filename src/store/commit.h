#pragma once

#include <functional>
#include <optional>

#include "journal.h"
#include "sql.h"
#include "store/changed.h"
#include "store/project_file.h"

namespace ductwright::store {

struct CommitRequest {
  EntryKind kind = EntryKind::edit;
  Action action;
  std::optional<Digest> about;
};

// One action inside the caller's transaction: runs `write`, captures what it changed, appends the journal
// entry. On a failure the caller rolls back.
Result<Committed> commitWithin(const Connection&, const Environment&, const CommitRequest&,
                               const std::function<Result<void>(Writer&)>& write, const Progress& = {});

}  // namespace ductwright::store
