#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "fleet/id.h"
#include "fleet/timestamp.h"
#include "fleet/vocabulary.h"

// The journal as people read it: who did what, when, why, and what each value was before.
namespace ductwright::store {

// BLAKE2b, 256 bit.
using Digest = std::array<std::uint8_t, 32>;
std::string hex(const Digest&);

// One thing a person does: becomes one transaction and one journal entry.
struct Action {
  std::string name;  // as shown: "Enter reading 412 cfm at 2-14"
  std::string author;
  fleet::Role role = fleet::Role::agent;
  std::string reason = {};  // required where something finished is changed
};

enum class EntryKind : std::uint8_t { create, edit, undo, redo, migration };

// A value of a state row; monostate is "not given". A key is 16 bytes of UUID.
using Value = std::variant<std::monostate, std::int64_t, double, std::string, std::vector<std::uint8_t>>;

struct ColumnChange {
  std::string column;
  std::optional<Value> before, after;  // empty before: added; empty after: removed
};

struct Change {
  enum class Kind : std::uint8_t { added, changed, removed };
  Kind kind = Kind::changed;
  std::string table;
  std::optional<fleet::UnitId> unit;  // where the row belongs to one
  std::vector<ColumnChange> columns;  // the key's columns first; otherwise only those that differ
};

// Facts that an entry brought.
struct BroughtFacts {
  fleet::BatchId batch;
  std::string source;
  std::uint32_t count = 0;
  Digest digest{};
};

struct Entry {
  std::int64_t number = 0;  // place in this copy's journal, from 1
  Digest hash{};
  std::vector<Digest> parents;
  EntryKind kind = EntryKind::edit;
  Action action;
  std::string device;
  fleet::Timestamp at;
  int schemaVersion = 0;
  std::optional<Digest> about;  // the entry that an undo or redo is about
  Digest content{};             // digest of all state after this entry
  std::vector<BroughtFacts> facts;
  std::vector<Change> changes;  // empty unless asked for
};

}  // namespace ductwright::store
