#include "changeset.h"

#include <algorithm>
#include <cstring>
#include <string>

namespace ductwright::store {
namespace {

void check(int code) {
  if (code != SQLITE_OK) throw SqlError(code, sqlite3_errstr(code));
}

// SQLite's calls take the bytes as not const but do not write to them.
void* writable(Bytes bytes) {
  return const_cast<std::uint8_t*>(bytes.data());
}

Blob takeOver(int size, void* bytes) {
  const std::unique_ptr<void, FreeMemory> owner(bytes);
  const auto* at = static_cast<const std::uint8_t*>(bytes);
  return at == nullptr ? Blob{} : Blob(at, at + size);
}

int refuse(void* conflict, int, sqlite3_changeset_iter*) {
  *static_cast<bool*>(conflict) = true;
  return SQLITE_CHANGESET_ABORT;
}

struct Application {
  const std::vector<std::string_view>* leaveOut;
  bool conflict = false;
};

}  // namespace

Cell Cell::of(const Statement& row, int column) {
  Cell out;
  out.type = sqlite3_column_type(row.raw(), column);
  if (out.type == SQLITE_INTEGER) out.integer = row.integer(column);
  if (out.type == SQLITE_FLOAT) out.real = row.real(column);
  if (out.type == SQLITE_TEXT || out.type == SQLITE_BLOB) out.bytes = row.blob(column);
  return out;
}

Cell Cell::of(sqlite3_value* value) {
  Cell out;
  out.type = sqlite3_value_type(value);
  if (out.type == SQLITE_INTEGER) out.integer = sqlite3_value_int64(value);
  if (out.type == SQLITE_FLOAT) out.real = sqlite3_value_double(value);
  if (out.type == SQLITE_TEXT || out.type == SQLITE_BLOB) {
    const auto* at = static_cast<const std::uint8_t*>(sqlite3_value_blob(value));
    out.bytes = {at, static_cast<std::size_t>(sqlite3_value_bytes(value))};
  }
  return out;
}

bool operator==(const Cell& a, const Cell& b) {
  return a.type == b.type && a.integer == b.integer && a.real == b.real &&
         std::equal(a.bytes.begin(), a.bytes.end(), b.bytes.begin(), b.bytes.end());
}

Capture::Capture(const Connection& db, int schemaVersion) {
  sqlite3_session* session = nullptr;
  check(sqlite3session_create(db.raw(), "main", &session));
  m_session.reset(session);
  for (const StateTable& table : stateTables(schemaVersion))
    check(sqlite3session_attach(session, std::string(table.name).c_str()));
}

Blob Capture::changeset() const {
  int size = 0;
  void* bytes = nullptr;
  check(sqlite3session_changeset(m_session.get(), &size, &bytes));
  return takeOver(size, bytes);
}

Blob inverted(Bytes changeset) {
  if (changeset.empty()) return {};
  int size = 0;
  void* bytes = nullptr;
  check(sqlite3changeset_invert(static_cast<int>(changeset.size()), changeset.data(), &size, &bytes));
  return takeOver(size, bytes);
}

bool applied(const Connection& db, Bytes changeset, const std::vector<std::string_view>& leaveOut) {
  if (changeset.empty()) return true;
  Application application{&leaveOut};
  const auto filter = [](void* context, const char* table) {
    const auto& names = *static_cast<Application*>(context)->leaveOut;
    return std::find(names.begin(), names.end(), std::string_view(table)) == names.end() ? 1 : 0;
  };
  const auto conflict = [](void* context, int kind, sqlite3_changeset_iter* it) {
    return refuse(&static_cast<Application*>(context)->conflict, kind, it);
  };
  const int rc = sqlite3changeset_apply(db.raw(), static_cast<int>(changeset.size()), writable(changeset),
                                        filter, conflict, &application);
  if (rc == SQLITE_ABORT && application.conflict) return false;
  if (rc != SQLITE_OK) throw SqlError(rc, sqlite3_errmsg(db.raw()));
  return true;
}

std::optional<Cell> RowChange::before(std::size_t column) const {
  if (m_operation == SQLITE_INSERT) return std::nullopt;
  sqlite3_value* value = nullptr;
  check(sqlite3changeset_old(m_it, static_cast<int>(column), &value));
  return value == nullptr ? std::nullopt : std::optional(Cell::of(value));
}

std::optional<Cell> RowChange::after(std::size_t column) const {
  if (m_operation == SQLITE_DELETE) return std::nullopt;
  sqlite3_value* value = nullptr;
  check(sqlite3changeset_new(m_it, static_cast<int>(column), &value));
  return value == nullptr ? std::nullopt : std::optional(Cell::of(value));
}

Cell RowChange::key(std::size_t column) const {
  const auto cell = m_operation == SQLITE_INSERT ? after(column) : before(column);
  if (!cell) throw SqlError(SQLITE_CORRUPT, "a change without its key");
  return *cell;
}

void forEachChange(Bytes changeset, int schemaVersion, const std::function<void(const RowChange&)>& visit) {
  if (changeset.empty()) return;
  sqlite3_changeset_iter* raw = nullptr;
  check(sqlite3changeset_start(&raw, static_cast<int>(changeset.size()), writable(changeset)));
  struct Finalize {
    void operator()(sqlite3_changeset_iter* it) const { sqlite3changeset_finalize(it); }
  };
  const std::unique_ptr<sqlite3_changeset_iter, Finalize> it(raw);
  int rc = SQLITE_OK;
  while ((rc = sqlite3changeset_next(raw)) == SQLITE_ROW) {
    const char* name = nullptr;
    int columns = 0, operation = 0, indirect = 0;
    check(sqlite3changeset_op(raw, &name, &columns, &operation, &indirect));
    const StateTable* table = stateTable(schemaVersion, name);
    if (table == nullptr || static_cast<std::size_t>(columns) != table->columns.size())
      throw SqlError(SQLITE_CORRUPT, "a change of a table that its version did not have");
    visit(RowChange(raw, *table, operation));
  }
  if (rc != SQLITE_DONE) throw SqlError(rc, sqlite3_errstr(rc));
}

fleet::Uuid uuidOf(const Cell& cell) {
  fleet::Uuid id;
  if (cell.bytes.size() != id.bytes.size()) throw SqlError(SQLITE_CORRUPT, "a key is not a UUID");
  std::copy(cell.bytes.begin(), cell.bytes.end(), id.bytes.begin());
  return id;
}

}  // namespace ductwright::store
