#pragma once

#include <gtest/gtest.h>

#include <initializer_list>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "exchange/import.h"
#include "exchange/mapping.h"
#include "exchange/readings.h"
#include "exchange/table.h"

// Short ways from text to records.
namespace ductwright::exchange::testing {

inline Table tableFrom(std::string text, const TableChoice& choice = {}) {
  auto table = readTable(std::move(text), choice);
  EXPECT_TRUE(table) << (table ? "" : table.error().sentence);
  return table ? *table : readPasted("");
}

inline Layout layoutFrom(TableKind kind, const Table& table, quantity::System system = quantity::System::ip) {
  return layoutOf(suggestMapping(kind, table), table, system);
}

inline Import<fleet::Unit> scheduleFrom(std::string text, quantity::System system = quantity::System::ip) {
  const Table table = tableFrom(std::move(text));
  return readSchedule(table, layoutFrom(TableKind::schedule, table, system));
}

inline fleet::UnitId unitId(std::uint8_t n) {
  fleet::UnitId id;
  id.uuid.bytes[15] = n;
  id.uuid.bytes[0] = 1;
  return id;
}

// An invented project with the given tags; unit n has unitId(n), from 1.
inline fleet::Snapshot projectWith(std::initializer_list<std::string_view> tags) {
  fleet::Snapshot out;
  std::uint8_t n = 0;
  for (const std::string_view tag : tags) {
    auto record = std::make_shared<fleet::UnitRecord>();
    record->unit.id = unitId(++n);
    record->unit.tag = std::string(tag);
    out.units.push_back(std::move(record));
  }
  return out;
}

inline ReadingImport readingsFrom(std::string text, const fleet::Snapshot& project) {
  const Table table = tableFrom(std::move(text));
  auto read = readReadings(table, layoutFrom(TableKind::readings, table, project.system), ReadingContext::of(project));
  EXPECT_TRUE(read);
  return read ? std::move(*read) : ReadingImport{};
}

// All problems as lines for the file "f".
inline std::vector<std::string> linesOf(const Problems& problems) {
  std::vector<std::string> out;
  for (const Problem& problem : problems.list()) out.push_back(problem.line("f"));
  return out;
}

}  // namespace ductwright::exchange::testing
