#include "sql.h"

#include <algorithm>
#include <utility>

namespace ductwright::store {
namespace {

[[noreturn]] void fail(sqlite3* db, int code) {
  const int extended = db == nullptr ? code : sqlite3_extended_errcode(db);
  throw SqlError(extended == SQLITE_OK ? code : extended,
                 db == nullptr ? sqlite3_errstr(code) : sqlite3_errmsg(db));
}

void setSwitch(sqlite3* db, int option, int value) {
  if (const int rc = sqlite3_db_config(db, option, value, nullptr); rc != SQLITE_OK) fail(db, rc);
}

// https://www.sqlite.org/security.html, "Untrusted SQLite Database Files".
void harden(const Connection& db, int patienceMillis) {
  setSwitch(db.raw(), SQLITE_DBCONFIG_DEFENSIVE, 1);
  setSwitch(db.raw(), SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0);
  setSwitch(db.raw(), SQLITE_DBCONFIG_ENABLE_TRIGGER, 0);
  setSwitch(db.raw(), SQLITE_DBCONFIG_ENABLE_VIEW, 0);
  setSwitch(db.raw(), SQLITE_DBCONFIG_DQS_DML, 0);
  setSwitch(db.raw(), SQLITE_DBCONFIG_DQS_DDL, 0);
  const std::pair<int, int> limits[] = {
      {SQLITE_LIMIT_LENGTH, 256'000'000}, {SQLITE_LIMIT_SQL_LENGTH, 100'000},
      {SQLITE_LIMIT_COLUMN, 100},         {SQLITE_LIMIT_EXPR_DEPTH, 100},
      {SQLITE_LIMIT_COMPOUND_SELECT, 10}, {SQLITE_LIMIT_FUNCTION_ARG, 10},
      {SQLITE_LIMIT_ATTACHED, 1},         {SQLITE_LIMIT_VARIABLE_NUMBER, 100},
      {SQLITE_LIMIT_TRIGGER_DEPTH, 10},   {SQLITE_LIMIT_LIKE_PATTERN_LENGTH, 50},
      {SQLITE_LIMIT_VDBE_OP, 25'000},
  };
  for (const auto& [limit, value] : limits) sqlite3_limit(db.raw(), limit, value);
  sqlite3_extended_result_codes(db.raw(), 1);
  sqlite3_busy_timeout(db.raw(), patienceMillis);
  db.execute("PRAGMA cell_size_check=ON");
  db.execute("PRAGMA mmap_size=0");
  db.execute("PRAGMA foreign_keys=ON");
  db.execute("PRAGMA cache_size=-16000");
}

}  // namespace

std::string sentenceOf(const SqlError& error) {
  switch (error.family()) {
    case SQLITE_FULL:
      return "The disk is full: nothing was saved. Free some space and try again.";
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
    case SQLITE_PROTOCOL:
      return "Another program is using the project file. Nothing was changed; try again when it is done.";
    case SQLITE_READONLY:
      if (error.code() == SQLITE_READONLY_ROLLBACK || error.code() == SQLITE_READONLY_RECOVERY)
        return "The last program stopped in the middle of a write. Open the project once for writing to "
               "restore it.";
      return "The project file cannot be written. Copy it to a folder of your own and open the copy.";
    case SQLITE_PERM:
    case SQLITE_AUTH:
    case SQLITE_CANTOPEN:
      return "The project file, or its folder, cannot be opened. Check that it is there and that you may use "
             "it.";
    case SQLITE_IOERR:
      return "The disk did not answer while the project file was read or written. Nothing was changed; check "
             "the disk "
             "and try again.";
    case SQLITE_NOTADB:
      return "The file is not a Ductwright project, or its beginning is damaged.";
    case SQLITE_CORRUPT:
      return std::string("The project file is damaged: ") + error.what() + ". Go back to a copy.";
    case SQLITE_NOMEM:
      return "There is not enough memory. Nothing was changed; close other programs and try again.";
    case SQLITE_TOOBIG:
      return "A text or a change is too large for the project file. Nothing was changed; do it in smaller "
             "parts.";
    default:
      return std::string("The project file refused the change: ") + error.what() + ". Nothing was changed.";
  }
}

Statement::Statement(sqlite3* db, std::string_view sql) {
  sqlite3_stmt* statement = nullptr;
  const int rc = sqlite3_prepare_v3(db, sql.data(), static_cast<int>(sql.size()), 0, &statement, nullptr);
  m_statement.reset(statement);
  if (rc != SQLITE_OK) fail(db, rc);
}

void Statement::check(int code) const {
  if (code != SQLITE_OK) fail(sqlite3_db_handle(raw()), code);
}

Statement& Statement::bind(int index, std::int64_t value) {
  check(sqlite3_bind_int64(raw(), index, value));
  return *this;
}
Statement& Statement::bind(int index, double value) {
  check(sqlite3_bind_double(raw(), index, value));
  return *this;
}
Statement& Statement::bind(int index, std::string_view text) {
  const char* at = text.data() == nullptr ? "" : text.data();
  check(sqlite3_bind_text64(raw(), index, at, text.size(), SQLITE_TRANSIENT, SQLITE_UTF8));
  return *this;
}
Statement& Statement::bind(int index, Bytes bytes) {
  if (bytes.empty())
    check(sqlite3_bind_zeroblob(raw(), index, 0));
  else
    check(sqlite3_bind_blob64(raw(), index, bytes.data(), bytes.size(), SQLITE_TRANSIENT));
  return *this;
}
Statement& Statement::bindNull(int index) {
  check(sqlite3_bind_null(raw(), index));
  return *this;
}

bool Statement::step() {
  const int rc = sqlite3_step(raw());
  if (rc == SQLITE_ROW) return true;
  if (rc == SQLITE_DONE) return false;
  sqlite3* db = sqlite3_db_handle(raw());
  const SqlError error(sqlite3_extended_errcode(db), sqlite3_errmsg(db));
  reset();
  throw error;
}

void Statement::run() {
  while (step()) {
  }
  reset();
}

fleet::Uuid Statement::uuid(int column) const {
  const Bytes bytes = blob(column);
  fleet::Uuid id;
  if (bytes.size() != id.bytes.size()) throw SqlError(SQLITE_CORRUPT, "a key is not a UUID");
  std::copy(bytes.begin(), bytes.end(), id.bytes.begin());
  return id;
}

Connection::Connection(const std::string& path, int flags, const std::string& vfs, int patienceMillis) {
  sqlite3* db = nullptr;
  const int rc = sqlite3_open_v2(path.c_str(), &db, flags | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE,
                                 vfs.empty() ? nullptr : vfs.c_str());
  m_db.reset(db);
  if (rc != SQLITE_OK) fail(db, rc);
  harden(*this, patienceMillis);
}

Connection Connection::inMemory() {
  return {":memory:", SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_MEMORY, {}, 0};
}

void Connection::execute(const std::string& sql) const {
  const int rc = sqlite3_exec(raw(), sql.c_str(), nullptr, nullptr, nullptr);
  if (rc != SQLITE_OK) fail(raw(), rc);
}

std::int64_t Connection::number(std::string_view sql) const {
  Statement statement = prepare(sql);
  return statement.step() ? statement.integer(0) : 0;
}

Transaction::Transaction(const Connection& db) : m_db(db) {
  db.execute("BEGIN IMMEDIATE");
}

Transaction::~Transaction() {
  // SQLite rolls back by itself after some failures.
  if (m_open && sqlite3_get_autocommit(m_db.raw()) == 0)
    sqlite3_exec(m_db.raw(), "ROLLBACK", nullptr, nullptr, nullptr);
}

void Transaction::commit() {
  m_db.execute("COMMIT");
  m_open = false;
}

ReadTransaction::ReadTransaction(const Connection& db)
    : m_db(db), m_own(sqlite3_get_autocommit(db.raw()) != 0) {
  if (m_own) db.execute("BEGIN");
}

ReadTransaction::~ReadTransaction() {
  if (m_own && sqlite3_get_autocommit(m_db.raw()) == 0)
    sqlite3_exec(m_db.raw(), "ROLLBACK", nullptr, nullptr, nullptr);
}

}  // namespace ductwright::store
