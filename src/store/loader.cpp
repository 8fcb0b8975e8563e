#include "loader.h"

#include <algorithm>
#include <set>
#include <tuple>
#include <unordered_map>
#include <unordered_set>

#include "columns.h"
#include "facts.h"
#include "journal.h"
#include "writer_state.h"

namespace ductwright::store {
namespace {

using fleet::IdHash;
using fleet::Snapshot;
using fleet::UnitRecord;

// Records of a table whose key is one id, in the order of `rest`.
template <class Record>
std::vector<Record> readAll(const Connection& db, std::string_view table, std::string_view rest) {
  std::vector<Record> out;
  Statement rows = db.prepare(selectSql<Record>(table, "id", rest));
  while (rows.step()) {
    Record& record = out.emplace_back();
    record.id = {rows.uuid(0)};
    RowReader reader(rows, 1);
    fields(reader, record);
  }
  return out;
}

std::vector<fleet::Instrument> readInstruments(const Connection& db) {
  auto out = readAll<fleet::Instrument>(db, "instrument", "ORDER BY serial, id");
  Statement rows = db.prepare(
      selectSql<fleet::Accuracy>("accuracy", "instrument", "WHERE instrument = ? ORDER BY position"));
  for (fleet::Instrument& instrument : out) {
    rows.with(instrument.id.uuid);
    while (rows.step()) {
      RowReader reader(rows, 1);
      fields(reader, instrument.accuracies.emplace_back());
    }
  }
  return out;
}

std::vector<fleet::Deficiency> readDeficiencies(const Connection& db) {
  std::vector<fleet::Deficiency> out;
  std::unordered_map<fleet::Uuid, std::size_t, IdHash> places;
  Statement rows = db.prepare(selectSql<fleet::Deficiency>("deficiency", "unit, id", "ORDER BY number, id"));
  while (rows.step()) {
    places[rows.uuid(1)] = out.size();
    fleet::Deficiency& deficiency = out.emplace_back();
    deficiency.unit = {rows.uuid(0)};
    deficiency.id = {rows.uuid(1)};
    RowReader reader(rows, 2);
    fields(reader, deficiency);
  }
  Statement moves = db.prepare(selectSql<fleet::DeficiencyMove>("deficiency_move", "deficiency",
                                                                "ORDER BY unit, deficiency, position"));
  while (moves.step()) {
    const auto place = places.find(moves.uuid(0));
    if (place == places.end()) continue;
    RowReader reader(moves, 1);
    fields(reader, out[place->second].moves.emplace_back());
  }
  return out;
}

void readProject(const Connection& db, Snapshot& out) {
  ProjectInfo info;
  Statement row = db.prepare(selectSql<ProjectInfo>("project", "id"));
  if (!row.step()) throw SqlError(SQLITE_CORRUPT, "the project's own row is missing");
  RowReader reader(row, 1);
  fields(reader, info);
  out.projectName = info.name;
  out.system = info.system;
  out.elevation = info.elevation;
}

void readCriteria(const Connection& db, Snapshot& out) {
  Statement row =
      db.prepare(selectSql<fleet::Criteria>("criteria", "version", "ORDER BY version DESC LIMIT 1"));
  out.criteria = {};
  if (!row.step()) return;
  out.criteria.version = static_cast<int>(row.integer(0));
  RowReader reader(row, 1);
  fields(reader, out.criteria);
}

void readLists(const Connection& db, Snapshot& out, const Changed& what) {
  if (what.project) readProject(db, out);
  if (what.criteria) readCriteria(db, out);
  if (what.buildings) out.buildings = readAll<fleet::Building>(db, "building", "ORDER BY id");
  if (what.airHandlers) out.airHandlers = readAll<fleet::AirHandler>(db, "air_handler", "ORDER BY name, id");
  if (what.profiles)
    out.profiles = readAll<fleet::ControllerProfile>(db, "controller_profile", "ORDER BY name, id");
  if (what.roomSensors) out.roomSensors = readAll<fleet::RoomSensor>(db, "room_sensor", "ORDER BY name, id");
  if (what.segments)
    out.segments = readAll<fleet::NetworkSegment>(db, "network_segment", "ORDER BY name, id");
  if (what.instruments) out.instruments = readInstruments(db);
  if (what.deficiencies) out.deficiencies = readDeficiencies(db);
}

struct StandingBatch : BatchRow {
  bool withdrawn = false;
};

std::vector<StandingBatch> standingBatches(const Connection& db) {
  std::vector<StandingBatch> out;
  Statement rows = db.prepare(
      "SELECT b.id, b.number, s.withdrawn <> '' FROM standing_batch s JOIN batch b "
      "ON b.id = s.batch ORDER BY b.number");
  while (rows.step()) out.push_back({{{rows.uuid(0)}, rows.integer(1)}, rows.integer(2) != 0});
  return out;
}

// By procedure, run, step; rows come in the order in which they were recorded.
void sortReadings(std::vector<fleet::Reading>& readings) {
  const auto before = [](const fleet::Reading& a, const fleet::Reading& b) {
    return std::tie(a.procedure, a.run, a.step) < std::tie(b.procedure, b.run, b.step);
  };
  if (!std::is_sorted(readings.begin(), readings.end(), before))
    std::stable_sort(readings.begin(), readings.end(), before);
}

// Reads the rows of unit-owned tables and hands each to the record it belongs to.
class Records {
 public:
  explicit Records(std::vector<std::shared_ptr<UnitRecord>>& records) : m_records(records) {
    m_places.reserve(records.size());
    for (std::size_t i = 0; i < records.size(); ++i) m_places.emplace(records[i]->unit.id.uuid, i);
  }
  // Null where the unit is not in the list: removed, or not being read.
  UnitRecord* find(const fleet::Uuid& unit) {
    if (unit == m_lastUnit) return m_last;
    const auto place = m_places.find(unit);
    m_last = place == m_places.end() ? nullptr : m_records[place->second].get();
    m_lastUnit = unit;
    return m_last;
  }

 private:
  std::vector<std::shared_ptr<UnitRecord>>& m_records;
  std::unordered_map<fleet::Uuid, std::size_t, IdHash> m_places;
  fleet::Uuid m_lastUnit;
  UnitRecord* m_last = nullptr;
};

// `rows` have the unit's id in column 0.
void takeRuns(Statement& rows, Records& records) {
  while (rows.step()) {
    UnitRecord* record = records.find(rows.uuid(0));
    if (record == nullptr) continue;
    fleet::Run& run = record->runs.emplace_back();
    run.id = {rows.uuid(1)};
    RowReader reader(rows, 2);
    fields(reader, run);
  }
}

void takeSettings(Statement& rows, Records& records) {
  while (rows.step()) {
    UnitRecord* record = records.find(rows.uuid(0));
    if (record == nullptr) continue;
    fleet::FoundSetting& setting = record->settings.emplace_back();
    setting.unit = record->unit.id;
    setting.setting = rows.text(1);
    RowReader reader(rows, 2);
    fields(reader, setting);
  }
}

void takeSignOffs(Statement& rows, Records& records) {
  while (rows.step()) {
    UnitRecord* record = records.find(rows.uuid(0));
    if (record == nullptr) continue;
    fleet::SignOff& signOff = record->signOffs.emplace_back();
    signOff.unit = record->unit.id;
    signOff.id = {rows.uuid(1)};
    RowReader reader(rows, 2);
    fields(reader, signOff);
  }
}

struct KeyHash {
  std::size_t operator()(const fleet::FactKey& key) const { return IdHash{}(key.batch) ^ key.ordinal; }
};
using Keys = std::unordered_set<fleet::FactKey, KeyHash>;

void takeWithdrawn(Statement& rows, Keys& keys) {
  while (rows.step()) keys.insert({{rows.uuid(1)}, static_cast<std::uint32_t>(rows.integer(2))});
}

constexpr const char* kRunOrder = "ORDER BY unit, procedure, number, id";
constexpr const char* kSignOffOrder = "ORDER BY unit, at, id";
constexpr const char* kWithdrawn = "SELECT unit, batch, ordinal FROM withdrawn_reading ";

// Readings of standing batches, for the units in `records`.
void takeReadings(const Connection& db, const std::vector<StandingBatch>& batches, Records& records,
                  const Progress& progress) {
  Statement rows = readingsBetween(db);
  const auto reader = std::make_unique<ReadingRow>();
  std::uint64_t done = 0;
  for (const StandingBatch& batch : batches) {
    rows.with(firstNumber(batch.number), lastNumber(batch.number));
    while (rows.step()) {
      if (++done % 4096 == 0) {
        if (progress.stop.stop_requested()) throw Stopped{};
        if (progress.report) progress.report(done);
      }
      UnitRecord* record = records.find(ReadingRow::unit(rows));
      if (record == nullptr) continue;
      fleet::Reading& reading = record->readings.emplace_back();
      reader->read(rows, batch, reading);
      reading.withdrawn = batch.withdrawn;
    }
  }
}

std::shared_ptr<UnitRecord> readUnit(const Statement& row) {
  auto record = std::make_shared<UnitRecord>();
  record->unit.id = {row.uuid(0)};
  RowReader reader(row, 1);
  fields(reader, record->unit);
  return record;
}

void strike(UnitRecord& record, const Keys& withdrawn) {
  for (fleet::Reading& reading : record.readings)
    if (withdrawn.count(reading.key) != 0) reading.withdrawn = true;
}

// Reads the parts of the named units' records that are not readings.
void readParts(const Connection& db, const std::vector<std::shared_ptr<UnitRecord>>& units, Records& records,
               Keys& withdrawn) {
  Statement runs =
      db.prepare(selectSql<fleet::Run>("run", "unit, id", "WHERE unit = ? ORDER BY procedure, number, id"));
  Statement settings = db.prepare(
      selectSql<fleet::FoundSetting>("found_setting", "unit, setting", "WHERE unit = ? ORDER BY setting"));
  Statement signOffs =
      db.prepare(selectSql<fleet::SignOff>("sign_off", "unit, id", "WHERE unit = ? ORDER BY at, id"));
  Statement struck = db.prepare(std::string(kWithdrawn) + "WHERE unit = ?");
  for (const auto& record : units) {
    takeRuns(runs.with(record->unit.id.uuid), records);
    takeSettings(settings.with(record->unit.id.uuid), records);
    takeSignOffs(signOffs.with(record->unit.id.uuid), records);
    takeWithdrawn(struck.with(record->unit.id.uuid), withdrawn);
  }
}

// The readings that the units had, without those of the changed batches, then those of changed batches that
// stand.
void refreshReadings(const Connection& db, const Snapshot& before, const Changed& changed,
                     const std::vector<std::shared_ptr<UnitRecord>>& units, Records& records) {
  std::unordered_map<fleet::Uuid, const UnitRecord*, IdHash> old;
  for (const auto& unit : before.units) old.emplace(unit->unit.id.uuid, unit.get());
  const std::set<fleet::BatchId> batches(changed.batches.begin(), changed.batches.end());

  std::unordered_map<fleet::BatchId, StandingBatch, IdHash> standing;
  for (const StandingBatch& batch : standingBatches(db)) standing.emplace(batch.id, batch);
  std::vector<StandingBatch> again;
  for (const fleet::BatchId id : batches)
    if (const auto it = standing.find(id); it != standing.end()) again.push_back(it->second);

  // A unit that came back has all its readings read again.
  bool all = false;
  for (const auto& record : units) {
    const auto it = old.find(record->unit.id.uuid);
    if (it == old.end()) {
      all = true;
      continue;
    }
    for (const fleet::Reading& reading : it->second->readings) {
      const auto batch = standing.find(reading.key.batch);
      if (batches.count(reading.key.batch) != 0 || batch == standing.end()) continue;
      record->readings.push_back(reading);
      record->readings.back().withdrawn = batch->second.withdrawn;
    }
  }
  if (all) {
    for (const auto& record : units) record->readings.clear();
    again = standingBatches(db);
  }
  takeReadings(db, again, records, {});
  for (const auto& record : units) {
    std::stable_sort(record->readings.begin(), record->readings.end(),
                     [&](const fleet::Reading& a, const fleet::Reading& b) {
                       const auto na = standing.at(a.key.batch).number, nb = standing.at(b.key.batch).number;
                       return std::tie(a.procedure, a.run, a.step, na, a.key.ordinal) <
                              std::tie(b.procedure, b.run, b.step, nb, b.key.ordinal);
                     });
  }
}

// False where `out` lacks a unit that did not change: it was not the state just before.
bool refreshList(const Connection& db, Snapshot& out, const std::vector<std::shared_ptr<UnitRecord>>& changed,
                 bool listChanged) {
  std::unordered_map<fleet::Uuid, std::shared_ptr<const UnitRecord>, IdHash> fresh;
  for (const auto& record : changed) fresh.emplace(record->unit.id.uuid, record);
  if (!listChanged) {
    for (auto& unit : out.units)
      if (const auto it = fresh.find(unit->unit.id.uuid); it != fresh.end()) unit = it->second;
    return true;
  }
  for (const auto& unit : out.units) fresh.emplace(unit->unit.id.uuid, unit);
  std::vector<std::shared_ptr<const UnitRecord>> list;
  Statement rows = db.prepare("SELECT id FROM unit ORDER BY position, id");
  while (rows.step()) {
    const auto it = fresh.find(rows.uuid(0));
    if (it == fresh.end()) return false;
    list.push_back(it->second);
  }
  out.units = std::move(list);
  return true;
}

Changed everyList() {
  Changed all;
  all.project = all.buildings = all.airHandlers = all.profiles = all.roomSensors = all.segments = true;
  all.instruments = all.deficiencies = all.criteria = true;
  return all;
}

std::uint64_t revisionOf(const Connection& db) {
  const auto head = headOf(db);
  if (!head) throw SqlError(SQLITE_CORRUPT, "the journal is empty");
  return static_cast<std::uint64_t>(head->number);
}

void addUnitsOfBatch(const Connection& db, fleet::BatchId batch, std::set<fleet::UnitId>& units) {
  Statement rows = db.prepare(
      "SELECT r.unit FROM batch b JOIN reading r ON r.number BETWEEN b.number << 32 "
      "AND (b.number << 32) + 4294967295 WHERE b.id = ?");
  rows.bind(1, batch.uuid);
  fleet::Uuid last;
  while (rows.step())
    if (const fleet::Uuid unit = rows.uuid(0); unit != last) {
      units.insert({unit});
      last = unit;
    }
}

}  // namespace

fleet::Snapshot loadSnapshot(const Connection& db, const Progress& progress) {
  const ReadTransaction reading(db);  // one state of the file throughout
  Snapshot out;
  out.revision = revisionOf(db);
  readLists(db, out, everyList());

  std::vector<std::shared_ptr<UnitRecord>> units;
  Statement rows = db.prepare(selectSql<fleet::Unit>("unit", "id", "ORDER BY position, id"));
  while (rows.step()) units.push_back(readUnit(rows));
  Records records(units);
  Statement runs = db.prepare(selectSql<fleet::Run>("run", "unit, id", kRunOrder));
  takeRuns(runs, records);
  Statement settings =
      db.prepare(selectSql<fleet::FoundSetting>("found_setting", "unit, setting", "ORDER BY unit, setting"));
  takeSettings(settings, records);
  Statement signOffs = db.prepare(selectSql<fleet::SignOff>("sign_off", "unit, id", kSignOffOrder));
  takeSignOffs(signOffs, records);
  Keys withdrawn;
  Statement struck = db.prepare(kWithdrawn);
  takeWithdrawn(struck, withdrawn);
  takeReadings(db, standingBatches(db), records, progress);

  out.units.reserve(units.size());
  for (auto& record : units) {
    sortReadings(record->readings);
    record->readings.shrink_to_fit();
    if (!withdrawn.empty()) strike(*record, withdrawn);
    out.units.push_back(std::move(record));
  }
  return out;
}

fleet::Snapshot refreshedSnapshot(const Connection& db, const fleet::Snapshot& before,
                                  const Changed& changed) {
  std::optional<ReadTransaction> reading(std::in_place, db);
  Snapshot out = before;
  out.revision = revisionOf(db);
  readLists(db, out, changed);

  std::vector<std::shared_ptr<UnitRecord>> units;
  Statement row = db.prepare(selectSql<fleet::Unit>("unit", "id", "WHERE id = ?"));
  for (const fleet::UnitId id : changed.units)
    if (row.with(id.uuid).step()) units.push_back(readUnit(row));
  row.reset();
  Records records(units);
  Keys withdrawn;
  readParts(db, units, records, withdrawn);
  refreshReadings(db, before, changed, units, records);
  for (const auto& record : units) strike(*record, withdrawn);
  if (refreshList(db, out, units, changed.unitList)) return out;
  reading.reset();
  return loadSnapshot(db, {});
}

Changed changedBy(const Connection& db, const std::vector<std::uint8_t>& changeset, int schemaVersion) {
  Changed out;
  std::set<fleet::UnitId> units;
  std::set<fleet::BatchId> batches;
  forEachChange(changeset, schemaVersion, [&](const RowChange& change) {
    const std::string_view table = change.table().name;
    if (table == "project")
      out.project = true;
    else if (table == "building")
      out.buildings = true;
    else if (table == "air_handler")
      out.airHandlers = true;
    else if (table == "controller_profile")
      out.profiles = true;
    else if (table == "room_sensor")
      out.roomSensors = true;
    else if (table == "network_segment")
      out.segments = true;
    else if (table == "instrument" || table == "accuracy")
      out.instruments = true;
    else if (table == "criteria")
      out.criteria = true;
    else if (table == "mapping")
      out.mappings = true;
    else if (table == "deficiency" || table == "deficiency_move")
      out.deficiencies = true;
    else if (table == "standing_batch")
      batches.insert({uuidOf(change.key(0))});
    else
      units.insert({uuidOf(change.key(0))});
    if (table == "unit" && change.operation() != SQLITE_UPDATE) out.unitList = true;
  });
  for (const fleet::BatchId batch : batches) addUnitsOfBatch(db, batch, units);
  out.units.assign(units.begin(), units.end());
  out.batches.assign(batches.begin(), batches.end());
  return out;
}

}  // namespace ductwright::store
