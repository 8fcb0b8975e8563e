#include "exchange/export.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <string>
#include <utility>

#include "field.h"
#include "written_number.h"

namespace ductwright::exchange {
namespace {

using fleet::Snapshot;
using quantity::Dimension;

// The header's unit; none where the numbers have none or it depends on the row. Ratios are written as shares of one.
const quantity::Unit* headerUnit(const Column& column, quantity::System system) {
  return column.dimension ? &quantity::unitFor(*column.dimension, system) : nullptr;
}

std::vector<SheetColumn> sheetColumns(TableKind kind, quantity::System system) {
  std::vector<SheetColumn> out;
  for (const Column& column : columnsOf(kind)) {
    SheetColumn each{.header = std::string(column.name)};
    if (column.dimension) each.kind = ColumnKind::number;
    const quantity::Unit* unit = headerUnit(column, system);
    if (unit && *column.dimension != Dimension::ratio) each.unit = unit->symbol;
    out.push_back(std::move(each));
  }
  return out;
}

// Goes through a list, one row a record.
template <class Count, class RowAt>
SheetStream rowsOf(TableKind kind, quantity::System system, Count count, RowAt rowAt) {
  return {std::string(name(kind)), sheetColumns(kind, system), [count, rowAt, next = std::size_t{0}](SheetRow& row) mutable {
            if (next == count()) return false;
            row.clear();
            rowAt(next++, row);
            return true;
          }};
}

template <class Record>
void appendFields(const Record& record, quantity::System system, SheetRow& row) {
  for (const auto& field : fieldsOf<Record>()) row.push_back(field.write(record, headerUnit(field.column, system)));
}

template <class Record>
SheetStream recordsOf(TableKind kind, const Snapshot& project, const std::vector<Record>& list) {
  return rowsOf(kind, project.system, [&list] { return list.size(); },
                [&list, &project](std::size_t i, SheetRow& row) { appendFields(list[i], project.system, row); });
}

SheetStream schedule(const Snapshot& project) {
  return rowsOf(TableKind::schedule, project.system, [&] { return project.units.size(); },
                [&](std::size_t i, SheetRow& row) { appendFields(project.units[i]->unit, project.system, row); });
}

SheetValue text(const std::string& value) { return value.empty() ? SheetValue{} : SheetValue{value}; }

// Text that gives `si` again wherever it is read, with its unit.
std::string numberWithUnit(double si, const quantity::Unit& unit) {
  const SheetValue value = fileNumber(si, unit);
  if (const auto* text = std::get_if<std::string>(&value)) return *text;
  const std::string number = exactNumber(std::get<double>(value));
  return unit.symbol.empty() ? number : number + " " + std::string(unit.symbol);
}

// As it was typed, where that is read again without knowing the file's decimal mark; else the number in full.
std::string readingValue(const fleet::Reading& reading, quantity::System system) {
  const Dimension dimension = fleet::dimensionOf(reading.quantity);
  const std::string& typed = reading.typed.text();
  const auto number = WrittenNumber::leading(typed);
  const bool plain = dimension == Dimension::flag || (number && (number->mark() == DecimalMark::none || number->mark() == DecimalMark::point));
  if (plain) {
    const auto read = quantity::readQuantity(typed, dimension, system);
    const bool unitSaid = read && (read->unitWasTyped || read->unit->symbol.empty());
    if (unitSaid && read->si == reading.value) return typed;
  }
  if (dimension == Dimension::flag) return reading.value != 0 ? "1" : "0";
  const quantity::Unit* unit = number ? quantity::findUnit(dimension, trimmed(std::string_view(typed).substr(number->length()))) : nullptr;
  return numberWithUnit(reading.value, unit ? *unit : quantity::unitFor(dimension, system));
}

// 90.3F is written 90.3.
double shortest(float value) {
  std::array<char, 40> buffer{};
  const char* end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value).ptr;
  double out = 0;
  std::from_chars(buffer.data(), end, out);
  return out;
}

void appendReading(const fleet::Unit& unit, const fleet::Reading& r, quantity::System system, SheetRow& row) {
  row.push_back(text(unit.tag));
  row.push_back(static_cast<double>(r.run));
  row.push_back(std::string(fleet::name(r.procedure)));
  row.push_back(fleet::stepName(r.procedure, r.step));
  row.push_back(text(r.outlet.text()));
  row.push_back(std::string(fleet::name(r.quantity)));
  row.push_back(readingValue(r, system));
  row.push_back(text(r.instrument.text()));
  row.push_back(r.takenAt ? SheetValue{*r.takenAt} : SheetValue{});
  row.push_back(text(r.takenBy.text()));
  row.push_back(r.waited ? SheetValue{shortest(*r.waited)} : SheetValue{});
  row.push_back(text(r.note.text()));
}

SheetStream readings(const Snapshot& project) {
  auto columns = sheetColumns(TableKind::readings, project.system);
  columns[6].kind = ColumnKind::text;  // a value carries its unit
  return {std::string(name(TableKind::readings)), std::move(columns),
          [&project, unit = std::size_t{0}, next = std::size_t{0}](SheetRow& row) mutable {
            row.clear();
            for (; unit < project.units.size(); ++unit, next = 0) {
              const auto& record = *project.units[unit];
              while (next < record.readings.size() && record.readings[next].withdrawn) ++next;
              if (next == record.readings.size()) continue;
              appendReading(record.unit, record.readings[next++], project.system, row);
              return true;
            }
            return false;
          }};
}

SheetStream settings(const Snapshot& project) {
  auto columns = sheetColumns(TableKind::settings, project.system);
  columns[2].kind = ColumnKind::text;
  return {std::string(name(TableKind::settings)), std::move(columns),
          [&project, unit = std::size_t{0}, next = std::size_t{0}](SheetRow& row) mutable {
            row.clear();
            for (; unit < project.units.size(); ++unit, next = 0) {
              const auto& record = *project.units[unit];
              if (next == record.settings.size()) continue;
              const fleet::FoundSetting& s = record.settings[next++];
              row.push_back(text(record.unit.tag));
              row.push_back(text(s.setting));
              row.push_back(text(s.typed));
              row.push_back(s.readAt ? SheetValue{*s.readAt} : SheetValue{});
              return true;
            }
            return false;
          }};
}

// The dimension of an accuracy's fixed part.
Dimension toleranceOf(const std::string& quantityName) {
  const auto reading = fleet::read<fleet::ReadingQuantity>(quantityName);
  Dimension dimension = Dimension::airflow;
  if (reading) dimension = fleet::dimensionOf(*reading);
  const std::string word = fleet::foldedWord(quantityName);
  for (const Dimension d : {Dimension::velocity, Dimension::pressure, Dimension::temperature, Dimension::power, Dimension::waterFlow, Dimension::ratio})
    if (!reading && fleet::foldedWord(quantity::name(d)) == word) dimension = d;
  return dimension == Dimension::temperature ? Dimension::temperatureDifference : dimension;
}

SheetStream instruments(const Snapshot& project) {
  auto columns = sheetColumns(TableKind::instruments, project.system);
  columns[3].unit = "%";
  columns[4].kind = columns[5].kind = ColumnKind::text;
  columns[7].kind = columns[8].kind = ColumnKind::date;
  return {std::string(name(TableKind::instruments)), std::move(columns),
          [&project, at = std::size_t{0}, next = std::size_t{0}](SheetRow& row) mutable {
            row.clear();
            for (; at < project.instruments.size(); ++at, next = 0) {
              const fleet::Instrument& i = project.instruments[at];
              if (next == i.accuracies.size()) continue;
              const fleet::Accuracy& a = i.accuracies[next++];
              const auto limit = [&](double si) { return si == 0 ? SheetValue{} : SheetValue{numberWithUnit(si, quantity::unitFor(toleranceOf(a.quantity), project.system))}; };
              const auto day = [](const auto& d) { return d ? SheetValue{*d} : SheetValue{}; };
              row = {text(i.serial), text(i.description), text(a.quantity),
                     a.share == 0 ? SheetValue{} : fileNumber(a.share, quantity::unitFor(Dimension::ratio, project.system)), limit(a.plus), limit(a.resolution),
                     a.flowBasis ? SheetValue{std::string(fleet::name(*a.flowBasis))} : SheetValue{}, day(i.calibratedOn), day(i.calibrationDue)};
              return true;
            }
            return false;
          }};
}

}  // namespace

SheetStream tableOf(TableKind kind, const Snapshot& project) {
  switch (kind) {
    case TableKind::schedule: return schedule(project);
    case TableKind::airHandlers: return recordsOf(kind, project, project.airHandlers);
    case TableKind::profiles: return recordsOf(kind, project, project.profiles);
    case TableKind::roomSensors: return recordsOf(kind, project, project.roomSensors);
    case TableKind::segments: return recordsOf(kind, project, project.segments);
    case TableKind::settings: return settings(project);
    case TableKind::instruments: return instruments(project);
    case TableKind::readings: return readings(project);
  }
  return {};
}

Sheet sheetOf(TableKind kind, const Snapshot& project) {
  SheetStream stream = tableOf(kind, project);
  Sheet out{stream.name, std::move(stream.columns), {}};
  for (SheetRow row; stream.next(row);) out.rows.push_back(std::exchange(row, {}));
  return out;
}

Result<void> exportTable(TableKind kind, const Snapshot& project, const std::filesystem::path& file) {
  std::string ending = file.extension().string();
  std::transform(ending.begin(), ending.end(), ending.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  if (ending == ".csv") return writeCsv(file, tableOf(kind, project));
  if (ending == ".xlsx") return writeXlsx(file, tableOf(kind, project));
  return failure("“" + file.string() + "” ends neither in .csv nor in .xlsx: choose one of the two.");
}

}  // namespace ductwright::exchange
