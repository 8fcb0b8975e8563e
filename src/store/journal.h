#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "changeset.h"
#include "content.h"
#include "digest.h"
#include "store/entry.h"
#include "store/environment.h"

namespace ductwright::store {

// An entry before it has a number, a time and a hash.
struct Draft {
  EntryKind kind = EntryKind::edit;
  Action action;
  Blob changeset;
  std::optional<Digest> about;
  int schemaVersion = kSchemaVersion;
};

// An entry as it lies in the file.
struct StoredEntry {
  Entry entry;                 // without decoded changes
  std::int64_t stopsUndo = 0;  // 1: undo goes back no further
  Blob changeset;              // unpacked; empty where `hashHolds` is false
  bool hashHolds = false;      // nothing may be done with the changeset otherwise
};

struct Head {
  std::int64_t number = 0;
  Digest hash{};
  Digest content{};
};

std::string_view word(EntryKind);
Digest digestFrom(Bytes);  // throws where the length is wrong

std::optional<Head> headOf(const Connection&);
// Appends an entry whose state is already in the tables: brings the content's sum up to date, hashes, chains.
// Batches with the number of this entry belong to it.
Entry appendEntry(const Connection&, const Environment&, const Draft&);

StoredEntry entryNumbered(const Connection&, std::int64_t number);
StoredEntry entryHashed(const Connection&, const Digest& hash);
// Until `visit` answers false.
enum class Order : std::uint8_t { newestFirst, oldestFirst };
void forEachEntry(const Connection&, Order, const std::function<bool(const StoredEntry&)>& visit);
Digest hashOf(const StoredEntry&);

// What undo or redo would do: the action, and the entry whose changes are to be inverted for it.
struct Candidate {
  Digest about{};     // the person's entry
  Digest toInvert{};  // the entry that last did or took back its changes
  std::string action;
};
std::optional<Candidate> undoCandidate(const Connection&, const std::string& device);
std::optional<Candidate> redoCandidate(const Connection&, const std::string& device);

// The changes of an entry, column by column.
std::vector<Change> decodedChanges(Bytes changeset, int schemaVersion);

}  // namespace ductwright::store
