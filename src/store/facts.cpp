#include "facts.h"

#include <algorithm>
#include <limits>

namespace ductwright::store {
namespace {

void bindText(sqlite3_stmt* statement, int index, const std::string& text) {
  sqlite3_bind_text64(statement, index, text.data(), text.size(), SQLITE_STATIC, SQLITE_UTF8);
}

template <class Enum>
Enum codeOf(std::int64_t code, std::size_t count) {
  if (code < 0 || code >= static_cast<std::int64_t>(count))
    throw SqlError(SQLITE_CORRUPT, "a reading has a code that this program does not know");
  return static_cast<Enum>(code);
}

}  // namespace

ShortDigest ReadingDigest::of(const fleet::FactKey& key, const fleet::Uuid& unit, const fleet::Reading& r) {
  Encoder& e = m_encoder;
  e.clear();
  e.raw(key.batch.uuid.bytes);
  e.number(static_cast<std::uint64_t>(key.ordinal));
  e.raw(unit.bytes);
  e.byte(static_cast<std::uint8_t>(r.procedure));
  e.byte(static_cast<std::uint8_t>(r.quantity));
  e.number(r.run);
  e.number(r.step);
  e.real(r.value);
  e.byte(r.takenAt ? 1 : 0);
  if (r.takenAt) {
    e.number(r.takenAt->utcMillis);
    e.number(static_cast<int>(r.takenAt->offsetMinutes));
  }
  e.byte(r.waited ? 1 : 0);
  if (r.waited) e.real(static_cast<double>(*r.waited));
  for (const fleet::Word text : {r.outlet, r.typed, r.instrument, r.takenBy, r.note}) e.text(text.text());
  return shortDigestOf(e.bytes());
}

FactWriter::FactWriter(const Connection& db, std::int64_t entry)
    : m_db(db),
      m_insert(
          db.prepare("INSERT INTO reading (number, unit, procedure, run, step, quantity, value, taken_at, "
                     "taken_offset, waited, outlet, typed, instrument, taken_by, note, hash) "
                     "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")),
      m_entry(entry),
      m_nextNumber(db.number("SELECT coalesce(max(number), 0) + 1 FROM batch")) {}

void FactWriter::begin(fleet::BatchId id, std::string_view source) {
  m_batches.push_back({id, m_nextNumber++, std::string(source), 0, {}});
}

FactWriter::Open& FactWriter::open(fleet::BatchId id) {
  const auto it =
      std::find_if(m_batches.rbegin(), m_batches.rend(), [&](const Open& b) { return b.id == id; });
  if (it == m_batches.rend()) throw SqlError(SQLITE_MISUSE, "the batch was not begun in this action");
  return *it;
}

fleet::FactKey FactWriter::add(fleet::BatchId id, fleet::UnitId unit, const fleet::Reading& r) {
  Open& batch = open(id);
  if (batch.count == std::numeric_limits<std::uint32_t>::max())
    throw SqlError(SQLITE_TOOBIG, "the batch is full");
  if (r.value != r.value) throw SqlError(SQLITE_MISMATCH, "a reading without a value");
  const fleet::FactKey key{id, batch.count};
  const ShortDigest digest = m_digest.of(key, unit.uuid, r);
  sqlite3_stmt* s = m_insert.raw();
  sqlite3_bind_int64(s, 1, firstNumber(batch.number) + key.ordinal);
  sqlite3_bind_blob(s, 2, unit.uuid.bytes.data(), static_cast<int>(unit.uuid.bytes.size()), SQLITE_STATIC);
  sqlite3_bind_int(s, 3, static_cast<int>(r.procedure));
  sqlite3_bind_int(s, 4, r.run);
  sqlite3_bind_int(s, 5, r.step);
  sqlite3_bind_int(s, 6, static_cast<int>(r.quantity));
  sqlite3_bind_double(s, 7, r.value);
  if (r.takenAt) {
    sqlite3_bind_int64(s, 8, r.takenAt->utcMillis);
    sqlite3_bind_int(s, 9, r.takenAt->offsetMinutes);
  } else {
    sqlite3_bind_null(s, 8);
    sqlite3_bind_null(s, 9);
  }
  if (r.waited)
    sqlite3_bind_double(s, 10, static_cast<double>(*r.waited));
  else
    sqlite3_bind_null(s, 10);
  bindText(s, 11, r.outlet.text());
  bindText(s, 12, r.typed.text());
  bindText(s, 13, r.instrument.text());
  bindText(s, 14, r.takenBy.text());
  bindText(s, 15, r.note.text());
  sqlite3_bind_blob(s, 16, digest.data(), static_cast<int>(digest.size()), SQLITE_STATIC);
  m_insert.run();
  batch.hasher.add(digest);
  ++batch.count;
  ++m_written;
  return key;
}

void FactWriter::finish() {
  for (Open& batch : m_batches) {
    if (batch.count == 0) continue;
    m_db.prepare("INSERT INTO batch (id, number, entry, source, count, digest) VALUES (?, ?, ?, ?, ?, ?)")
        .with(batch.id.uuid, batch.number, m_entry, batch.source, std::int64_t{batch.count},
              Bytes(batch.hasher.finish()))
        .run();
    m_db.prepare("INSERT INTO standing_batch (batch, withdrawn) VALUES (?, '')").with(batch.id.uuid).run();
  }
  m_batches.clear();
}

Statement readingsBetween(const Connection& db) {
  return db.prepare(
      "SELECT number, unit, procedure, run, step, quantity, value, taken_at, taken_offset, waited, "
      "outlet, typed, instrument, taken_by, note, hash FROM reading WHERE number BETWEEN ? AND ?");
}

fleet::Word ReadingRow::word(std::size_t column, std::string_view text) {
  if (text.empty()) return {};
  fleet::Word& kept = m_words[column][std::hash<std::string_view>{}(text) % kKept];
  if (kept.text() != text) kept = fleet::Word(text);
  return kept;
}

void ReadingRow::read(const Statement& row, const BatchRow& batch, fleet::Reading& out) {
  out.key = {batch.id, static_cast<std::uint32_t>(row.integer(0) & 0xFFFF'FFFF)};
  out.procedure = codeOf<fleet::Procedure>(row.integer(2), fleet::valuesOf<fleet::Procedure>().size());
  out.run = static_cast<int>(row.integer(3));
  out.step = static_cast<int>(row.integer(4));
  out.quantity = codeOf<fleet::ReadingQuantity>(row.integer(5), fleet::kReadingQuantities);
  out.value = row.real(6);
  if (!row.isNull(7))
    out.takenAt = fleet::Timestamp{row.integer(7), static_cast<std::int16_t>(row.integer(8))};
  if (!row.isNull(9)) out.waited = static_cast<float>(row.real(9));
  out.outlet = word(0, row.text(10));
  out.typed = word(1, row.text(11));
  out.instrument = word(2, row.text(12));
  out.takenBy = word(3, row.text(13));
  out.note = word(4, row.text(14));
}

}  // namespace ductwright::store
