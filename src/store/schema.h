#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "sql.h"

// The tables of a project file, version by version. A file is always made by version 1's statements and then
// each later version's, so a new file and a migrated one are the same. Columns are only ever appended,
// because the journal's changesets bind them by position.
namespace ductwright::store {

inline constexpr int kSchemaVersion = 2;
inline constexpr std::int32_t kApplicationId = 0x44777274;  // "Dwrt"

// Tables of state: captured by the journal. Each begins its key with the unit where its rows belong to one.
struct StateTable {
  std::string_view name;
  std::vector<std::string_view> columns;  // as of one version, in the file's order
  std::size_t keys = 1;                   // how many of the first columns are the key
  [[nodiscard]] bool ofUnit() const { return columns.front() == "unit" || name == "unit"; }
};

// The state tables as they were in a version; frozen, so that entries of that version stay readable.
const std::vector<StateTable>& stateTables(int version);
const StateTable* stateTable(int version, std::string_view name);  // null where there is none

// Makes the tables of a version in an empty database, inside the caller's transaction.
void makeTables(const Connection&, int version);
// Takes the tables one version further, inside the caller's transaction.
void takeOneStep(const Connection&, int fromVersion);

// What differs from the tables that we would make: the first difference in words, or nothing.
std::optional<std::string> schemaDifference(const Connection&, int version);

}  // namespace ductwright::store
