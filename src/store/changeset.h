#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string_view>
#include <vector>

#include "schema.h"
#include "sql.h"

// SQLite's session extension: what a transaction changed in the state tables, as bytes that can be inverted,
// applied and read. Traps: a table without a key records nothing; columns are bound by position.
namespace ductwright::store {

using Blob = std::vector<std::uint8_t>;

// One value of a row, whichever way SQLite hands it out. Text and blob point into SQLite's memory.
struct Cell {
  int type = SQLITE_NULL;
  std::int64_t integer = 0;
  double real = 0;
  Bytes bytes;

  static Cell of(const Statement&, int column);
  static Cell of(sqlite3_value*);
  friend bool operator==(const Cell&, const Cell&);
};

// Records the changes of the state tables from here on.
class Capture {
 public:
  Capture(const Connection&, int schemaVersion);
  [[nodiscard]] Blob changeset() const;

 private:
  struct Delete {
    void operator()(sqlite3_session* s) const { sqlite3session_delete(s); }
  };
  std::unique_ptr<sqlite3_session, Delete> m_session;
};

Blob inverted(Bytes changeset);

// Applies a changeset inside the caller's transaction, without the tables that `leaveOut` names. False, and
// nothing applied, where a row is not as the changeset found it.
bool applied(const Connection&, Bytes changeset, const std::vector<std::string_view>& leaveOut = {});

// One changed row. Of a changed row the key and the columns that differ are there; of an added or removed one
// all.
class RowChange {
 public:
  RowChange(sqlite3_changeset_iter* it, const StateTable& table, int operation)
      : m_it(it), m_table(table), m_operation(operation) {}
  [[nodiscard]] const StateTable& table() const { return m_table; }
  [[nodiscard]] int operation() const { return m_operation; }  // SQLITE_INSERT, SQLITE_UPDATE, SQLITE_DELETE
  [[nodiscard]] std::optional<Cell> before(std::size_t column) const;
  [[nodiscard]] std::optional<Cell> after(std::size_t column) const;
  [[nodiscard]] Cell key(std::size_t column) const;  // of the first `keys` columns

 private:
  sqlite3_changeset_iter* m_it;
  const StateTable& m_table;
  int m_operation;
};

// Visits each changed row. The bytes must be our own: their hash is checked before they come here.
void forEachChange(Bytes changeset, int schemaVersion, const std::function<void(const RowChange&)>& visit);

fleet::Uuid uuidOf(const Cell&);

}  // namespace ductwright::store
