#pragma once

#include <sqlite3.h>

#include <cstdint>
#include <exception>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "fleet/id.h"
#include "quantity/result.h"

// SQLite's calls as values that clean up after themselves. Errors are thrown inside this layer and become a
// sentence at its edge.
namespace ductwright::store {

using Bytes = std::span<const std::uint8_t>;

class SqlError : public std::exception {
 public:
  SqlError(int code, std::string message) : m_code(code), m_message(std::move(message)) {}
  [[nodiscard]] int code() const { return m_code; }           // SQLite's extended result code
  [[nodiscard]] int family() const { return m_code & 0xFF; }  // its primary result code
  [[nodiscard]] const char* what() const noexcept override { return m_message.c_str(); }

 private:
  int m_code;
  std::string m_message;
};

// What a person can do about it, in one sentence.
std::string sentenceOf(const SqlError&);

struct CloseStatement {
  void operator()(sqlite3_stmt* s) const { sqlite3_finalize(s); }
};
struct CloseConnection {
  void operator()(sqlite3* db) const { sqlite3_close_v2(db); }
};
struct FreeMemory {
  void operator()(void* p) const { sqlite3_free(p); }
};

class Statement {
 public:
  Statement(sqlite3* db, std::string_view sql);

  Statement& bind(int index, std::int64_t);
  Statement& bind(int index, int value) { return bind(index, std::int64_t{value}); }
  Statement& bind(int index, double);
  Statement& bind(int index, std::string_view);
  Statement& bind(int index, const std::string& text) { return bind(index, std::string_view(text)); }
  Statement& bind(int index, const char* text) { return bind(index, std::string_view(text)); }
  Statement& bind(int index, Bytes);
  Statement& bind(int index, const fleet::Uuid& id) { return bind(index, Bytes(id.bytes)); }
  Statement& bindNull(int index);
  template <class... Values>
  Statement& with(const Values&... values) {
    reset();
    int index = 0;
    (bind(++index, values), ...);
    return *this;
  }

  bool step();  // true while there is a row
  void run();   // to the end, then ready to be bound again
  void reset() { sqlite3_reset(m_statement.get()); }

  [[nodiscard]] bool isNull(int column) const { return sqlite3_column_type(raw(), column) == SQLITE_NULL; }
  [[nodiscard]] std::int64_t integer(int column) const { return sqlite3_column_int64(raw(), column); }
  [[nodiscard]] double real(int column) const { return sqlite3_column_double(raw(), column); }
  // Valid until the next step. As a blob, so that SQLite does not copy it to end it with a zero.
  [[nodiscard]] std::string_view text(int column) const {
    const auto* at = static_cast<const char*>(sqlite3_column_blob(raw(), column));
    return {at == nullptr ? "" : at, static_cast<std::size_t>(sqlite3_column_bytes(raw(), column))};
  }
  [[nodiscard]] Bytes blob(int column) const {
    const auto* at = static_cast<const std::uint8_t*>(sqlite3_column_blob(raw(), column));
    return {at, static_cast<std::size_t>(sqlite3_column_bytes(raw(), column))};
  }
  [[nodiscard]] fleet::Uuid uuid(int column) const;  // throws where it is not 16 bytes
  [[nodiscard]] sqlite3_stmt* raw() const { return m_statement.get(); }

 private:
  void check(int code) const;
  std::unique_ptr<sqlite3_stmt, CloseStatement> m_statement;
};

class Connection {
 public:
  // Opens with the defences that a stranger's file calls for; `flags` are SQLite's.
  Connection(const std::string& path, int flags, const std::string& vfs, int patienceMillis);
  static Connection inMemory();

  void execute(const std::string& sql) const;
  [[nodiscard]] Statement prepare(std::string_view sql) const { return {raw(), sql}; }
  [[nodiscard]] std::int64_t number(std::string_view sql) const;  // the first column of the first row
  [[nodiscard]] sqlite3* raw() const { return m_db.get(); }

 private:
  std::unique_ptr<sqlite3, CloseConnection> m_db;
};

// Rolls back unless committed.
class Transaction {
 public:
  explicit Transaction(const Connection& db);
  ~Transaction();
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  void commit();

 private:
  const Connection& m_db;
  bool m_open = true;
};

// One state of the file for all that is read while it lives; part of a transaction that is there already.
class ReadTransaction {
 public:
  explicit ReadTransaction(const Connection& db);
  ~ReadTransaction();
  ReadTransaction(const ReadTransaction&) = delete;
  ReadTransaction& operator=(const ReadTransaction&) = delete;

 private:
  const Connection& m_db;
  bool m_own;
};

}  // namespace ductwright::store
