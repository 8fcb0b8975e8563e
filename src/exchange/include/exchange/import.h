#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "exchange/mapping.h"
#include "exchange/problem.h"
#include "exchange/table.h"
#include "fleet/building.h"
#include "fleet/record.h"

// Small tables, read whole into records. A row with an error gives no record; a row with warnings does.
namespace ductwright::exchange {

template <class Record>
struct Placed {
  std::uint32_t row = 0;  // as a spreadsheet numbers it
  Record record;
};

template <class Record>
struct Import {
  std::vector<Placed<Record>> records;  // ids are null
  std::vector<std::size_t> given;       // which of columnsOf(kind) the file has
  Problems problems;                    // of the table, the mapping and the cells, by row
};

Import<fleet::Unit> readSchedule(const Table&, const Layout&);
Import<fleet::AirHandler> readAirHandlers(const Table&, const Layout&);
Import<fleet::ControllerProfile> readProfiles(const Table&, const Layout&);
Import<fleet::RoomSensor> readRoomSensors(const Table&, const Layout&);
Import<fleet::NetworkSegment> readSegments(const Table&, const Layout&);
// One row a quantity; rows of one serial number become one instrument.
Import<fleet::Instrument> readInstruments(const Table&, const Layout&);
// Units are looked up by their tag in `project`.
Import<fleet::FoundSetting> readSettings(const Table&, const Layout&, const fleet::Snapshot& project);

// One field of a unit's schedule as text in the project's system ("450 cfm", "hot water"; empty: not given), and back.
std::string scheduleText(const fleet::Unit&, std::size_t column, quantity::System);
// Reads what a person typed; a failure says what is wrong and leaves the unit as it was.
Result<void> setScheduleText(fleet::Unit&, std::size_t column, std::string_view typed, quantity::System);
// The number of the schedule's column with this header or a known synonym.
std::optional<std::size_t> scheduleColumn(std::string_view header);

}  // namespace ductwright::exchange
