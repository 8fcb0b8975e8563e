#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "exchange/import.h"

// What an import would change in the present project. Nothing is ever removed by importing: what the file does not
// have is told. Columns that the file does not have stay as they are; an empty cell of a column it has clears the field.
namespace ductwright::exchange {

struct FieldChange {
  std::size_t column = 0;      // of columnsOf(kind)
  std::string before, after;  // in words; empty: not given
};

template <class Record>
struct Changed {
  std::uint32_t row = 0;
  Record record;  // as it will be, with the id it has
  std::vector<FieldChange> fields;
};

template <class Record>
struct Changes {
  std::vector<Placed<Record>> added;
  std::vector<Changed<Record>> changed;
  std::size_t unchanged = 0;
  std::vector<std::string> dropped;  // in the project, not in the file: kept

  [[nodiscard]] bool nothing() const { return added.empty() && changed.empty(); }
  // "3 added, 2 changed (1-04: cooling max flow 450 cfm → 480 cfm; …), 61 unchanged, 1 not in the file (kept): 1-09"
  [[nodiscard]] std::string text() const;
};

using ScheduleChanges = Changes<fleet::Unit>;

ScheduleChanges compare(const Import<fleet::Unit>&, const fleet::Snapshot& project);
Changes<fleet::AirHandler> compare(const Import<fleet::AirHandler>&, const fleet::Snapshot& project);
Changes<fleet::ControllerProfile> compare(const Import<fleet::ControllerProfile>&, const fleet::Snapshot& project);
Changes<fleet::RoomSensor> compare(const Import<fleet::RoomSensor>&, const fleet::Snapshot& project);
Changes<fleet::NetworkSegment> compare(const Import<fleet::NetworkSegment>&, const fleet::Snapshot& project);
Changes<fleet::Instrument> compare(const Import<fleet::Instrument>&, const fleet::Snapshot& project);

// A setting read from a controller beside the schedule's.
struct SettingComparison {
  fleet::UnitId unit;
  std::string tag;
  std::size_t column = 0;  // of the schedule
  std::string scheduled;   // empty: not given
  std::string found;       // as read
  bool same = false;       // equal to the last digit that was read
};

// The newest value of each setting of every unit, compared with the schedule, in the order of the schedule.
std::vector<SettingComparison> compareSettings(const fleet::Snapshot& project);
std::vector<SettingComparison> compareSettings(const std::vector<fleet::FoundSetting>& found,
                                               const fleet::Snapshot& project);

}  // namespace ductwright::exchange
