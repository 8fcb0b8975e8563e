#pragma once

#include "fleet/record.h"
#include "sql.h"
#include "store/project_file.h"

namespace ductwright::store {

// The whole project. Throws Stopped on a cancel.
fleet::Snapshot loadSnapshot(const Connection&, const Progress&);

// `before`, with what changed read again; every other unit is shared.
fleet::Snapshot refreshedSnapshot(const Connection&, const fleet::Snapshot& before, const Changed&);

// What an applied changeset and the batches in it changed for readers.
Changed changedBy(const Connection&, const std::vector<std::uint8_t>& changeset, int schemaVersion);

}  // namespace ductwright::store
