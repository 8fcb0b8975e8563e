#include "exchange/import.h"

#include "header_match.h"
#include "records.h"
#include "schedule_doubts.h"

namespace ductwright::exchange {

Import<fleet::Unit> readSchedule(const Table& table, const Layout& layout) {
  auto out = readRecords(table, layout, &fleet::Unit::tag);
  doubtSchedule(out, layout);
  out.problems.sortByRow();
  return out;
}

Import<fleet::AirHandler> readAirHandlers(const Table& table, const Layout& layout) {
  return readRecords(table, layout, &fleet::AirHandler::name);
}

Import<fleet::ControllerProfile> readProfiles(const Table& table, const Layout& layout) {
  return readRecords(table, layout, &fleet::ControllerProfile::name);
}

Import<fleet::RoomSensor> readRoomSensors(const Table& table, const Layout& layout) {
  return readRecords(table, layout, &fleet::RoomSensor::name);
}

Import<fleet::NetworkSegment> readSegments(const Table& table, const Layout& layout) {
  return readRecords(table, layout, &fleet::NetworkSegment::name);
}

std::string scheduleText(const fleet::Unit& unit, std::size_t column, quantity::System system) {
  return fieldsOf<fleet::Unit>()[column].show(unit, system);
}

Result<void> setScheduleText(fleet::Unit& unit, std::size_t column, std::string_view typed, quantity::System system) {
  const auto& field = fieldsOf<fleet::Unit>()[column];
  CellInput cell;
  cell.text = trimmed(typed);
  if (cell.text.empty()) {
    if (field.column.required) return failure("“" + std::string(field.column.name) + "” is empty: fill it in.");
    field.clear(unit);
    return {};
  }
  if (field.column.dimension) cell.unit = &quantity::unitFor(*field.column.dimension, system);
  const auto fault = field.read(unit, cell);
  if (fault && fault->weight == Weight::error) return failure(fault->what + ": " + fault->todo + ".");
  return {};
}

std::optional<std::size_t> scheduleColumn(std::string_view header) {
  const HeaderMatch match = matchHeader(TableKind::schedule, header);
  return match.match <= Match::synonym ? std::optional(match.column) : std::nullopt;
}

}  // namespace ductwright::exchange
