#include "schema.h"

#include <algorithm>
#include <map>
#include <utility>

namespace ductwright::store {
namespace {

// Enumerations of state are the words of the trade; those of readings are their numbers, which never change.
constexpr const char* kVersion1[] = {
    // The journal.
    "CREATE TABLE journal (hash BLOB NOT NULL PRIMARY KEY, number INTEGER NOT NULL UNIQUE, kind TEXT NOT "
    "NULL, "
    "action TEXT NOT NULL, author TEXT NOT NULL, role TEXT NOT NULL, reason TEXT NOT NULL, device TEXT NOT "
    "NULL, "
    "at INTEGER NOT NULL, at_offset INTEGER NOT NULL, schema_version INTEGER NOT NULL, about BLOB, "
    "stops_undo INTEGER NOT NULL, content BLOB NOT NULL, size INTEGER NOT NULL, "
    "changeset BLOB NOT NULL) STRICT",
    "CREATE TABLE journal_parent (entry BLOB NOT NULL REFERENCES journal (hash), parent BLOB NOT NULL, "
    "PRIMARY KEY (entry, parent)) STRICT, WITHOUT ROWID",
    "CREATE TABLE content_sum (id INTEGER NOT NULL PRIMARY KEY CHECK (id = 1), sum BLOB NOT NULL) STRICT",

    // Facts: written once. A batch names the journal entry that brought it, by its number. A reading's number
    // is its
    // batch's number * 2^32 + its place in the batch.
    "CREATE TABLE batch (id BLOB NOT NULL PRIMARY KEY, number INTEGER NOT NULL UNIQUE, entry INTEGER NOT "
    "NULL, "
    "source TEXT NOT NULL, count INTEGER NOT NULL, digest BLOB NOT NULL) STRICT",
    "CREATE INDEX batch_of_entry ON batch (entry)",
    "CREATE TABLE reading (number INTEGER NOT NULL PRIMARY KEY, unit BLOB NOT NULL, procedure INTEGER NOT "
    "NULL, "
    "run INTEGER NOT NULL, step INTEGER NOT NULL, quantity INTEGER NOT NULL, value REAL NOT NULL, taken_at "
    "INTEGER, "
    "taken_offset INTEGER, waited REAL, outlet TEXT NOT NULL, typed TEXT NOT NULL, instrument TEXT NOT NULL, "
    "taken_by TEXT NOT NULL, note TEXT NOT NULL, hash BLOB NOT NULL) STRICT",

    // State: whether facts count.
    "CREATE TABLE standing_batch (batch BLOB NOT NULL PRIMARY KEY REFERENCES batch (id), "
    "withdrawn TEXT NOT NULL) STRICT, WITHOUT ROWID",

    // State: the building as designed.
    "CREATE TABLE project (id BLOB NOT NULL PRIMARY KEY, name TEXT NOT NULL, system TEXT NOT NULL, "
    "elevation REAL NOT NULL) STRICT, WITHOUT ROWID",
    "CREATE TABLE building (id BLOB NOT NULL PRIMARY KEY, name TEXT NOT NULL, elevation REAL NOT NULL) "
    "STRICT, WITHOUT ROWID",
    "CREATE TABLE air_handler (id BLOB NOT NULL PRIMARY KEY, name TEXT NOT NULL, design_flow REAL, "
    "supplies_warm_air INTEGER, supply_air_temperature REAL, duct_static_pressure REAL) STRICT, WITHOUT "
    "ROWID",
    "CREATE TABLE unit (id BLOB NOT NULL PRIMARY KEY, position INTEGER NOT NULL, tag TEXT NOT NULL, "
    "building TEXT NOT NULL, floor TEXT NOT NULL, zone TEXT NOT NULL, air_handler TEXT NOT NULL, "
    "kind TEXT NOT NULL, inlet_diameter REAL, cooling_max REAL, cooling_min REAL, heating_max REAL, "
    "heating_min REAL, reheat REAL, unoccupied REAL, standby REAL, fan REAL, hot_max REAL, hot_min REAL, "
    "ventilation_min REAL, flow_basis TEXT NOT NULL, heat TEXT NOT NULL, heater_position TEXT NOT NULL, "
    "heater_power REAL, heater_stages INTEGER, heat_enable_ratio REAL, coil_water_flow REAL, "
    "coil_entering_water REAL, design_entering_air REAL, design_discharge REAL, discharge_limit REAL, "
    "zone_heating_setpoint REAL, zone_cooling_setpoint REAL, flow_coefficient REAL, stroke_time REAL, "
    "profile TEXT NOT NULL, room_sensor TEXT NOT NULL, segment TEXT NOT NULL, mac_address INTEGER, "
    "device_instance INTEGER) STRICT, WITHOUT ROWID",
    "CREATE TABLE controller_profile (id BLOB NOT NULL PRIMARY KEY, name TEXT NOT NULL, "
    "kinds_served TEXT NOT NULL, heat_served TEXT NOT NULL, inlets INTEGER, fan INTEGER, exhaust INTEGER, "
    "damper_feedback INTEGER, discharge_sensor INTEGER, schedules TEXT NOT NULL, trends TEXT NOT NULL, "
    "alarms TEXT NOT NULL, protocol TEXT NOT NULL, least_controllable_pressure REAL, stroke_time REAL, "
    "unit_load REAL, document TEXT NOT NULL) STRICT, WITHOUT ROWID",
    "CREATE TABLE room_sensor (id BLOB NOT NULL PRIMARY KEY, name TEXT NOT NULL, display INTEGER, "
    "adjustment INTEGER, override INTEGER, motion INTEGER, can_set_up_controller INTEGER) STRICT, WITHOUT "
    "ROWID",
    "CREATE TABLE network_segment (id BLOB NOT NULL PRIMARY KEY, name TEXT NOT NULL, speed REAL, "
    "highest_address INTEGER, load_limit REAL) STRICT, WITHOUT ROWID",
    "CREATE TABLE instrument (id BLOB NOT NULL PRIMARY KEY, serial TEXT NOT NULL, description TEXT NOT NULL, "
    "calibrated_on TEXT, calibration_due TEXT) STRICT, WITHOUT ROWID",
    "CREATE TABLE accuracy (instrument BLOB NOT NULL REFERENCES instrument (id), position INTEGER NOT NULL, "
    "quantity TEXT NOT NULL, share REAL NOT NULL, plus REAL NOT NULL, resolution REAL NOT NULL, expanded "
    "REAL, "
    "coverage REAL, flow_basis TEXT, PRIMARY KEY (instrument, position)) STRICT, WITHOUT ROWID",
    "CREATE TABLE criteria (version INTEGER NOT NULL PRIMARY KEY, rule TEXT NOT NULL, "
    "capability_ratio REAL NOT NULL, capability_low REAL NOT NULL, capability_high REAL NOT NULL, "
    "guard_low REAL NOT NULL, guard_high REAL NOT NULL, close_low REAL NOT NULL, close_high REAL NOT NULL, "
    "flow_low REAL NOT NULL, flow_high REAL NOT NULL, flow_floor REAL NOT NULL, reported_share REAL NOT "
    "NULL, "
    "reported_floor REAL NOT NULL, heat_enable_ratio REAL NOT NULL, lockout_flow_tolerance REAL NOT NULL, "
    "lockout_reported_share REAL NOT NULL, rise_share REAL NOT NULL, rise_floor REAL NOT NULL, "
    "limit_above_setpoint REAL NOT NULL, ventilation_note REAL NOT NULL, cold_when_off REAL NOT NULL, "
    "nameplate_share REAL NOT NULL, coil_model_share REAL NOT NULL, default_flow_share REAL NOT NULL, "
    "default_power_share REAL NOT NULL, default_temperature REAL NOT NULL, same_instrument REAL NOT NULL, "
    "humidity_ratio REAL NOT NULL, stroke_unknown REAL NOT NULL, settle REAL NOT NULL, "
    "lockout_wait REAL NOT NULL, heat_on_wait REAL NOT NULL, heat_off_water_wait REAL NOT NULL, "
    "heat_off_electric_wait REAL NOT NULL, least_controllable REAL NOT NULL, starved_damper REAL NOT NULL, "
    "valve_open REAL NOT NULL, largest_correction REAL NOT NULL) STRICT",
    "CREATE TABLE mapping (for_table TEXT NOT NULL, name TEXT NOT NULL, columns TEXT NOT NULL, "
    "PRIMARY KEY (for_table, name)) STRICT, WITHOUT ROWID",

    // State: what was recorded about a unit.
    "CREATE TABLE run (unit BLOB NOT NULL REFERENCES unit (id), id BLOB NOT NULL, procedure TEXT NOT NULL, "
    "number INTEGER NOT NULL, started_at INTEGER, started_offset INTEGER, started_by TEXT NOT NULL, "
    "PRIMARY KEY (unit, id)) STRICT, WITHOUT ROWID",
    "CREATE TABLE found_setting (unit BLOB NOT NULL REFERENCES unit (id), setting TEXT NOT NULL, "
    "typed TEXT NOT NULL, value REAL, read_at INTEGER, read_offset INTEGER, PRIMARY KEY (unit, setting)) "
    "STRICT, WITHOUT ROWID",
    "CREATE TABLE withdrawn_reading (unit BLOB NOT NULL, batch BLOB NOT NULL REFERENCES batch (id), "
    "ordinal INTEGER NOT NULL, reason TEXT NOT NULL, PRIMARY KEY (unit, batch, ordinal)) STRICT, WITHOUT "
    "ROWID",
    "CREATE TABLE deficiency (unit BLOB NOT NULL, id BLOB NOT NULL, number INTEGER NOT NULL, "
    "cause TEXT NOT NULL, party TEXT NOT NULL, severity TEXT NOT NULL, title TEXT NOT NULL, "
    "evidence TEXT NOT NULL, closes TEXT NOT NULL, PRIMARY KEY (unit, id)) STRICT, WITHOUT ROWID",
    "CREATE TABLE deficiency_move (unit BLOB NOT NULL, deficiency BLOB NOT NULL, position INTEGER NOT NULL, "
    "to_state TEXT NOT NULL, at INTEGER NOT NULL, at_offset INTEGER NOT NULL, by TEXT NOT NULL, "
    "role TEXT NOT NULL, note TEXT NOT NULL, PRIMARY KEY (unit, deficiency, position), "
    "FOREIGN KEY (unit, deficiency) REFERENCES deficiency (unit, id)) STRICT, WITHOUT ROWID",
    "CREATE TABLE sign_off (unit BLOB NOT NULL REFERENCES unit (id), id BLOB NOT NULL, person TEXT NOT NULL, "
    "role TEXT NOT NULL, meaning TEXT NOT NULL, at INTEGER NOT NULL, at_offset INTEGER NOT NULL, "
    "digest TEXT NOT NULL, broken_because TEXT NOT NULL, broken_at INTEGER, broken_offset INTEGER, "
    "broken_by TEXT NOT NULL, PRIMARY KEY (unit, id)) STRICT, WITHOUT ROWID",
    "CREATE TABLE signed_text (unit BLOB NOT NULL, sign_off BLOB NOT NULL, format INTEGER NOT NULL, "
    "head BLOB NOT NULL, size INTEGER NOT NULL, text BLOB NOT NULL, PRIMARY KEY (unit, sign_off), "
    "FOREIGN KEY (unit, sign_off) REFERENCES sign_off (unit, id)) STRICT, WITHOUT ROWID",
};

// Version 2: a run says why it was done again.
constexpr const char* kVersion2[] = {"ALTER TABLE run ADD COLUMN reason TEXT NOT NULL DEFAULT ''"};

constexpr std::span<const char* const> kSteps[] = {kVersion1, kVersion2};
static_assert(std::size(kSteps) == kSchemaVersion);

// In the order in which they are captured. A version that adds a table or a column adds it here with its
// number.
struct FrozenTable {
  std::string_view name;
  int since;
  std::size_t keys;
};
constexpr FrozenTable kTables[] = {
    {"project", 1, 1},
    {"building", 1, 1},
    {"air_handler", 1, 1},
    {"controller_profile", 1, 1},
    {"room_sensor", 1, 1},
    {"network_segment", 1, 1},
    {"instrument", 1, 1},
    {"accuracy", 1, 2},
    {"criteria", 1, 1},
    {"mapping", 1, 2},
    {"unit", 1, 1},
    {"run", 1, 2},
    {"found_setting", 1, 2},
    {"standing_batch", 1, 1},
    {"withdrawn_reading", 1, 3},
    {"deficiency", 1, 2},
    {"deficiency_move", 1, 3},
    {"sign_off", 1, 2},
    {"signed_text", 1, 2},
};

// Made once from the frozen statements themselves: what version n's statements make is what version n had.
std::vector<StateTable> readTables(int version) {
  static std::map<std::string, std::string, std::less<>> words;  // only grown while the lists are made
  const Connection db = Connection::inMemory();
  makeTables(db, version);
  std::vector<StateTable> out;
  for (const FrozenTable& table : kTables) {
    if (table.since > version) continue;
    StateTable state{table.name, {}, table.keys};
    Statement columns = db.prepare("SELECT name FROM pragma_table_info(?) ORDER BY cid");
    columns.bind(1, table.name);
    while (columns.step()) {
      const std::string column(columns.text(0));
      state.columns.push_back(words.try_emplace(column, column).first->second);
    }
    out.push_back(std::move(state));
  }
  return out;
}

using Shape = std::vector<std::pair<std::string, std::string>>;
Shape shapeOf(const Connection& db) {
  Shape out;
  Statement rows = db.prepare("SELECT type || ' ' || name, coalesce(sql, '') FROM sqlite_schema ORDER BY 1");
  while (rows.step()) out.emplace_back(rows.text(0), rows.text(1));
  return out;
}

}  // namespace

const std::vector<StateTable>& stateTables(int version) {
  static const std::vector<std::vector<StateTable>> all = [] {
    std::vector<std::vector<StateTable>> lists(1);
    for (int v = 1; v <= kSchemaVersion; ++v) lists.push_back(readTables(v));
    return lists;
  }();
  return all.at(static_cast<std::size_t>(version));
}

const StateTable* stateTable(int version, std::string_view name) {
  const auto& tables = stateTables(version);
  const auto it =
      std::find_if(tables.begin(), tables.end(), [&](const StateTable& t) { return t.name == name; });
  return it == tables.end() ? nullptr : &*it;
}

void takeOneStep(const Connection& db, int fromVersion) {
  for (const char* statement : kSteps[static_cast<std::size_t>(fromVersion)]) db.execute(statement);
  db.execute("PRAGMA user_version=" + std::to_string(fromVersion + 1));
}

void makeTables(const Connection& db, int version) {
  db.execute("PRAGMA application_id=" + std::to_string(kApplicationId));
  for (int v = 0; v < version; ++v) takeOneStep(db, v);
}

std::optional<std::string> schemaDifference(const Connection& db, int version) {
  static const std::vector<Shape> shapes = [] {
    std::vector<Shape> all(1);
    for (int v = 1; v <= kSchemaVersion; ++v) {
      const Connection ours = Connection::inMemory();
      makeTables(ours, v);
      all.push_back(shapeOf(ours));
    }
    return all;
  }();
  const Shape& expected = shapes.at(static_cast<std::size_t>(version));
  const Shape found = shapeOf(db);
  for (const auto& part : found)
    if (std::find(expected.begin(), expected.end(), part) == expected.end())
      return part.first + " is not as this program makes it";
  for (const auto& part : expected)
    if (std::find(found.begin(), found.end(), part) == found.end()) return part.first + " is missing";
  return std::nullopt;
}

}  // namespace ductwright::store
