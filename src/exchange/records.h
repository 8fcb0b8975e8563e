#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>

#include "exchange/import.h"
#include "exchange/readings.h"
#include "field.h"
#include "rows.h"

namespace ductwright::exchange {

// A cell that says that there is nothing: empty, or in a column of numbers or words a dash or "n/a".
inline bool saysNothing(const CellInput& cell, const Column& column) {
  if (cell.text.empty()) return true;
  if (!column.dimension && column.words.empty()) return false;
  for (const std::string_view nothing : {"-", "–", "—", "n/a", "N/A", "NA"})
    if (cell.text == nothing) return true;
  return false;
}

// Reads the cells of one row into a record; nothing where a cell has an error.
template <class Record>
std::optional<Record> readRecord(Rows& rows, std::size_t row) {
  const auto fields = fieldsOf<Record>();
  Record record;
  bool good = !rows.isSpoilt(row);
  for (std::size_t i = 0; i < fields.size(); ++i) {
    if (!rows.has(i)) continue;
    const CellInput cell = rows.cell(row, i);
    if (saysNothing(cell, fields[i].column)) {
      good = (!fields[i].column.required || rows.missing(row, i)) && good;
      continue;
    }
    if (auto fault = fields[i].read(record, cell)) {
      good = good && fault->weight == Weight::warning;
      rows.tell(row, i, std::move(*fault));
    }
  }
  return good ? std::optional(std::move(record)) : std::nullopt;
}

// Notices names that stand in a file twice. The second one is an error; one that differs by case or blanks is doubted.
class NamesOnce {
 public:
  bool isNew(Rows& rows, std::size_t row, std::size_t column, std::string_view name) {
    const auto [seen, added] = m_rows.try_emplace(std::string(name), rows.place(row));
    if (!added) {
      rows.tell(row, column, {Weight::error, cited(name) + " stands in row " + std::to_string(seen->second) + " already",
                              "remove one of the two rows or correct the name"});
      return false;
    }
    const auto [like, newFold] = m_folded.try_emplace(fleet::foldedWord(name), std::string(name));
    if (!newFold)
      rows.tell(row, column, {Weight::warning, cited(name) + " differs from " + cited(like->second) + " only by case, blanks or hyphens",
                              "see whether they are the same"});
    return true;
  }

 private:
  std::unordered_map<std::string, std::uint32_t> m_rows;
  std::unordered_map<std::string, std::string> m_folded;
};

// Reads a table whose first column names its records.
template <class Record>
Import<Record> readRecords(const Table& table, const Layout& layout, std::string Record::*name) {
  Import<Record> out;
  Rows rows(table, layout, out.problems);
  for (std::size_t i = 0; i < layout.places.size(); ++i)
    if (rows.has(i)) out.given.push_back(i);
  NamesOnce names;
  for (std::size_t row = rows.first(); row < rows.end(); ++row) {
    auto record = readRecord<Record>(rows, row);
    const std::string_view written = rows.text(row, 0);
    const bool once = written.empty() || names.isNew(rows, row, 0, written);
    if (record && once && !((*record).*name).empty()) out.records.push_back({rows.place(row), std::move(*record)});
  }
  return out;
}

}  // namespace ductwright::exchange
