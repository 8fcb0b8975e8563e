#include "exchange/columns.h"

#include <array>
#include <vector>

#include "field.h"
#include "fleet/building.h"

namespace ductwright::exchange {
namespace {

using quantity::Dimension;

constexpr std::array<std::string_view, 8> kWords = {"schedule", "air-handlers", "profiles", "sensors",
                                                     "segments", "settings",     "instruments", "readings"};

// `number` here: the unit depends on the row.
constexpr auto kSettingColumns = std::to_array<Column>({
    {"unit", "tag unittag unitid unitno box boxtag terminal terminalunit vav vavtag", true, std::nullopt, {}},
    {"setting", "parameter point property setpoint name column", true, std::nullopt, {}},
    {"value", "presentvalue reading found", true, Dimension::number, {}},
    {"read at", "readon time timestamp date when readtime", false, std::nullopt, {}},
});

constexpr auto kInstrumentColumns = std::to_array<Column>({
    {"serial", "serialnumber serialno sn instrument", true, std::nullopt, {}},
    {"description", "name model instrumentname", false, std::nullopt, {}},
    {"quantity", "measures measurand function", true, std::nullopt, {}},
    {"percent of reading", "ofreading accuracy share percentreading accuracypercent accuracyofreading", false, Dimension::ratio, {}},
    {"plus", "plusminus offset accuracyplus absolute", false, Dimension::number, {}},
    {"resolution", "digit leastdigit", false, Dimension::number, {}},
    {"flow basis", "basis", false, std::nullopt, "actual, standard"},
    {"calibrated on", "calibrated calibrationdate datecalibrated lastcalibration calibrationdone", false, std::nullopt, {}},
    {"calibration due", "due duedate calibrationduedate nextcalibration", false, std::nullopt, {}},
});

constexpr auto kReadingColumns = std::to_array<Column>({
    {"unit", "tag unittag unitid unitno box boxtag terminal terminalunit vav vavtag", true, std::nullopt, {}},
    {"run", "runnumber runno testrun", false, Dimension::count, {}},
    {"procedure", "test procedurename criterion", true, std::nullopt, "airflow, reheat lockout, discharge rise"},
    {"step", "point stepname", true, std::nullopt, {}},
    {"outlet", "diffuser grille outletno outletnumber", false, std::nullopt, {}},
    {"quantity", "measurand what measured", true, std::nullopt, {}},
    {"value", "reading result measurement measuredvalue", true, Dimension::number, {}},
    {"instrument", "serial serialnumber instrumentserial instrumentserialnumber meter", false, std::nullopt, {}},
    {"taken at", "time timestamp datetime takenon readat date when", false, std::nullopt, {}},
    {"taken by", "by person technician takenperson initials", false, std::nullopt, {}},
    {"waited", "wait waittime settletime waitedseconds", false, Dimension::duration, {}},
    {"note", "notes remark remarks comment comments", false, std::nullopt, {}},
});

template <class Record>
std::span<const Column> columnsOfRecord() {
  static const std::vector<Column> columns = [] {
    std::vector<Column> out;
    for (const Field<Record>& field : fieldsOf<Record>()) out.push_back(field.column);
    return out;
  }();
  return columns;
}

}  // namespace

std::string_view name(TableKind kind) { return kWords[static_cast<std::size_t>(kind)]; }

std::optional<TableKind> readTableKind(std::string_view word) {
  for (std::size_t i = 0; i < kWords.size(); ++i)
    if (kWords[i] == word) return static_cast<TableKind>(i);
  return std::nullopt;
}

std::span<const Column> columnsOf(TableKind kind) {
  switch (kind) {
    case TableKind::schedule: return columnsOfRecord<fleet::Unit>();
    case TableKind::airHandlers: return columnsOfRecord<fleet::AirHandler>();
    case TableKind::profiles: return columnsOfRecord<fleet::ControllerProfile>();
    case TableKind::roomSensors: return columnsOfRecord<fleet::RoomSensor>();
    case TableKind::segments: return columnsOfRecord<fleet::NetworkSegment>();
    case TableKind::settings: return kSettingColumns;
    case TableKind::instruments: return kInstrumentColumns;
    case TableKind::readings: return kReadingColumns;
  }
  return {};
}

}  // namespace ductwright::exchange
