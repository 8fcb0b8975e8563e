#include "exchange/import.h"
#include "exchange/readings.h"
#include "field.h"
#include "records.h"

namespace ductwright::exchange {
namespace {

enum Column : std::size_t { unitColumn, setting, value, readAt };

// The value by the schedule's own reader, so that found and scheduled mean the same.
std::optional<Fault> readValue(Rows& rows, std::size_t row, std::size_t column, fleet::FoundSetting& out) {
  const auto& field = fieldsOf<fleet::Unit>()[column];
  CellInput cell = rows.cell(row, value);
  const bool isQuantity = field.column.dimension.has_value();
  const std::string& header = rows.layout(value).unitText;
  cell.unit = !isQuantity        ? nullptr
              : header.empty() ? &quantity::unitFor(*field.column.dimension, rows.layout().system)
                               : quantity::findUnit(*field.column.dimension, header);
  cell.unitFromHeader = !header.empty();
  if (isQuantity && cell.unit == nullptr && readBareNumber(cell))
    return Fault{Weight::error, cited(header) + " in the header is not a unit of " + std::string(quantity::name(*field.column.dimension)),
                 "write the unit in the cell"};
  fleet::Unit scratch;
  auto fault = field.read(scratch, cell);
  if (fault && fault->weight == Weight::error) return fault;
  out.typed = std::string(cell.text);
  if (!isQuantity) return fault;
  out.value = field.number(scratch);
  if (*field.column.dimension == quantity::Dimension::ratio) return fault;  // bare, it is a share
  if (const auto read = readMeasured(cell, *field.column.dimension); read && !read->unitInCell && !read->unit->symbol.empty())
    (out.typed += ' ') += read->unit->symbol;
  return fault;
}

}  // namespace

Import<fleet::FoundSetting> readSettings(const Table& table, const Layout& layout, const fleet::Snapshot& project) {
  Import<fleet::FoundSetting> out;
  Rows rows(table, layout, out.problems);
  for (std::size_t i = 0; i < layout.places.size(); ++i)
    if (rows.has(i)) out.given.push_back(i);
  const ReadingContext context = ReadingContext::of(project);
  for (std::size_t row = rows.first(); row < rows.end(); ++row) {
    fleet::FoundSetting found;
    bool good = !rows.isSpoilt(row);
    const auto bad = [&](std::size_t column, Fault fault) {
      good = good && fault.weight == Weight::warning;
      rows.tell(row, column, std::move(fault));
    };
    std::optional<std::size_t> column;
    if (rows.require(row, unitColumn)) {
      const auto unit = context.units.find(rows.text(row, unitColumn));
      if (unit == context.units.end())
        bad(unitColumn, {Weight::error, "the unit " + cited(rows.text(row, unitColumn)) + " is not in the project", "correct the tag or import its schedule first"});
      else
        found.unit = unit->second;
    } else {
      good = false;
    }
    if (rows.require(row, setting)) {
      column = scheduleColumn(rows.text(row, setting));
      if (!column) bad(setting, {Weight::error, cited(rows.text(row, setting)) + " is not a column of the schedule", "use a header of the schedule, such as cooling max flow"});
    } else {
      good = false;
    }
    if (!rows.require(row, value)) {
      good = false;
    } else if (column) {
      found.setting = columnsOf(TableKind::schedule)[*column].name;
      if (auto fault = readValue(rows, row, *column, found)) bad(value, std::move(*fault));
    }
    if (const auto text = rows.text(row, readAt); !text.empty()) {
      found.readAt = fleet::Timestamp::fromText(text);
      if (!found.readAt) bad(readAt, {Weight::error, cited(text) + " is not a day and time", "write it as 2026-03-04T10:15"});
    }
    if (good) out.records.push_back({rows.place(row), std::move(found)});
  }
  return out;
}

}  // namespace ductwright::exchange
