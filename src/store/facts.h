#pragma once

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "digest.h"
#include "fleet/record.h"
#include "sql.h"

// Readings as facts: written once in a batch, each with a digest of its own, the batch with the digest of
// those.
namespace ductwright::store {

constexpr std::int64_t firstNumber(std::int64_t batchNumber) {
  return batchNumber << 32;
}
constexpr std::int64_t lastNumber(std::int64_t batchNumber) {
  return firstNumber(batchNumber) | 0xFFFF'FFFF;
}

// The digest of one reading: its key, its unit and everything that was recorded.
class ReadingDigest {
 public:
  ShortDigest of(const fleet::FactKey&, const fleet::Uuid& unit, const fleet::Reading&);

 private:
  Encoder m_encoder;
};

class FactWriter {
 public:
  // `entry` is the number that the journal entry of this commit will have.
  FactWriter(const Connection&, std::int64_t entry);

  void begin(fleet::BatchId, std::string_view source);
  fleet::FactKey add(fleet::BatchId, fleet::UnitId, const fleet::Reading&);
  // Writes the batches' own rows, and has each of them counted. An empty batch leaves nothing.
  void finish();
  [[nodiscard]] std::uint64_t written() const { return m_written; }

 private:
  struct Open {
    fleet::BatchId id;
    std::int64_t number = 0;
    std::string source;
    std::uint32_t count = 0;
    Hasher hasher;
  };
  Open& open(fleet::BatchId);

  const Connection& m_db;
  Statement m_insert;
  std::int64_t m_entry;
  std::int64_t m_nextNumber;
  std::vector<Open> m_batches;
  ReadingDigest m_digest;
  std::uint64_t m_written = 0;
};

// A batch's row.
struct BatchRow {
  fleet::BatchId id;
  std::int64_t number = 0;
};

// A statement of whole readings, with the bounds of `number` as its two parameters, and what reads its rows.
Statement readingsBetween(const Connection&);
class ReadingRow {
 public:
  // The reading of the row at which the statement stands; the batch's id is the caller's to give.
  void read(const Statement& row, const BatchRow& batch, fleet::Reading& out);
  // True while the row has the same unit as the row before.
  static fleet::Uuid unit(const Statement& row) { return row.uuid(1); }
  static Bytes digest(const Statement& row) { return row.blob(15); }

 private:
  // Words seen lately in each text column: most rows repeat them, and the pool of words is behind a lock.
  static constexpr std::size_t kKept = 512;
  fleet::Word word(std::size_t column, std::string_view text);
  std::array<std::array<fleet::Word, kKept>, 5> m_words;
};

}  // namespace ductwright::store
