#include "content.h"

#include <map>

namespace ductwright::store {
namespace {

class RowDigest {
 public:
  explicit RowDigest(std::string_view table) { m_encoder.text(table); }
  void add(const Cell& cell) {
    m_encoder.byte(static_cast<std::uint8_t>(cell.type));
    if (cell.type == SQLITE_INTEGER) m_encoder.number(cell.integer);
    if (cell.type == SQLITE_FLOAT) m_encoder.real(cell.real);
    if (cell.type == SQLITE_TEXT || cell.type == SQLITE_BLOB) m_encoder.blob(cell.bytes);
  }
  [[nodiscard]] Digest digest() const { return digestOf(m_encoder.bytes()); }

 private:
  Encoder m_encoder;
};

// Reads a row of a state table by its key.
class RowByKey {
 public:
  RowByKey(const Connection& db, const StateTable& table) : m_statement(db.prepare(sqlFor(table))) {}

  const Statement& find(const RowChange& change) {
    m_statement.reset();
    for (std::size_t i = 0; i < change.table().keys; ++i) {
      const Cell cell = change.key(i);
      const int at = static_cast<int>(i) + 1;
      if (cell.type == SQLITE_INTEGER)
        m_statement.bind(at, cell.integer);
      else if (cell.type == SQLITE_TEXT)
        m_statement.bind(
            at, std::string_view(reinterpret_cast<const char*>(cell.bytes.data()), cell.bytes.size()));
      else
        m_statement.bind(at, cell.bytes);
    }
    if (!m_statement.step()) throw SqlError(SQLITE_CORRUPT, "a changed row is not there");
    return m_statement;
  }

 private:
  static std::string sqlFor(const StateTable& table) {
    std::string sql = "SELECT * FROM " + std::string(table.name);
    for (std::size_t i = 0; i < table.keys; ++i)
      sql += (i == 0 ? " WHERE " : " AND ") + std::string(table.columns[i]) + " = ?";
    return sql;
  }
  Statement m_statement;
};

}  // namespace

RowSum recomputedSum(const Connection& db, int schemaVersion) {
  RowSum sum;
  for (const StateTable& table : stateTables(schemaVersion)) {
    Statement rows = db.prepare("SELECT * FROM " + std::string(table.name));
    while (rows.step()) {
      RowDigest row(table.name);
      for (std::size_t i = 0; i < table.columns.size(); ++i) row.add(Cell::of(rows, static_cast<int>(i)));
      sum.add(row.digest());
    }
  }
  return sum;
}

void takeChanges(RowSum& sum, const Connection& db, Bytes changeset, int schemaVersion) {
  std::map<std::string_view, RowByKey> finders;
  forEachChange(changeset, schemaVersion, [&](const RowChange& change) {
    const StateTable& table = change.table();
    RowDigest before(table.name), after(table.name);
    const Statement* now = nullptr;
    if (change.operation() == SQLITE_UPDATE)
      now = &finders.try_emplace(table.name, db, table).first->second.find(change);
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
      const std::optional<Cell> kept =
          now == nullptr ? std::nullopt : std::optional(Cell::of(*now, static_cast<int>(i)));
      if (change.operation() != SQLITE_INSERT) before.add(change.before(i).value_or(kept.value_or(Cell{})));
      if (change.operation() != SQLITE_DELETE) after.add(kept ? *kept : change.after(i).value_or(Cell{}));
    }
    if (change.operation() != SQLITE_INSERT) sum.subtract(before.digest());
    if (change.operation() != SQLITE_DELETE) sum.add(after.digest());
  });
}

RowSum storedSum(const Connection& db) {
  Statement row = db.prepare("SELECT sum FROM content_sum");
  if (!row.step()) throw SqlError(SQLITE_CORRUPT, "the sum of the content is missing");
  return RowSum::fromBytes(row.blob(0));
}

void storeSum(const Connection& db, const RowSum& sum) {
  db.prepare(
        "INSERT INTO content_sum (id, sum) VALUES (1, ?) ON CONFLICT (id) DO UPDATE SET sum = excluded.sum")
      .bind(1, Bytes(sum.bytes()))
      .run();
}

}  // namespace ductwright::store
