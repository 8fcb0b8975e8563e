#include "store/writer.h"

#include <cassert>

#include "columns.h"
#include "writer_state.h"

namespace ductwright::store {
namespace {

// Runs one step of the commit unless an earlier one failed; a failure is kept.
template <class Step>
void attempt(Writer::State& state, Step step) {
  if (state.problem) return;
  try {
    step();
  } catch (const SqlError& error) {
    state.problem = Failure{sentenceOf(error)};
  } catch (const Stopped&) {
    state.problem = Failure{"Cancelled: nothing was changed."};
  }
}

void refuse(Writer::State& state, std::string sentence) {
  state.problem = Failure{std::move(sentence)};
}

// Adds or replaces a record whose key is one id.
template <class Record, class Key>
void upsert(Writer::State& state, std::string_view table, Key id, const Record& record) {
  assert(!id.isNull());
  attempt(state, [&] {
    static const std::string sql = upsertSql<Record>(table, {"id"});
    Statement& s = state.statement(sql);
    s.with(id.uuid);
    Binder binder(s, 2);
    fields(binder, record);
    s.run();
  });
}

void removeRows(Writer::State& state, std::string_view table, std::string_view column,
                const fleet::Uuid& id) {
  state.statement("DELETE FROM " + std::string(table) + " WHERE " + std::string(column) + " = ?")
      .with(id)
      .run();
}

void watchForCancel(Writer::State& state) {
  if (state.facts.written() % 1024 != 0) return;
  if (state.progress.stop.stop_requested()) throw Stopped{};
  if (state.progress.report) state.progress.report(state.facts.written());
}

// A fact's unit; a fact that is not there is a failure of this commit.
std::optional<fleet::Uuid> unitOfFact(Writer::State& state, const fleet::FactKey& key) {
  Statement& s = state.statement(
      "SELECT reading.unit FROM batch JOIN reading ON reading.number = (batch.number << 32) + ? "
      "WHERE batch.id = ?");
  s.with(std::int64_t{key.ordinal}, key.batch.uuid);
  if (!s.step()) return std::nullopt;
  const fleet::Uuid unit = s.uuid(0);
  s.reset();
  return unit;
}

}  // namespace

bool Writer::failed() const {
  return m_state.problem.has_value();
}
const std::optional<Failure>& Writer::problem() const {
  return m_state.problem;
}

void Writer::put(const ProjectInfo& info) {
  attempt(m_state, [&] {
    Statement row = m_state.db.prepare("SELECT id FROM project");
    const fleet::Uuid id = row.step() ? row.uuid(0) : m_state.environment.newUuid();
    upsert(m_state, "project", fleet::BuildingId{id}, info);
  });
}

void Writer::put(const fleet::Building& b) {
  upsert(m_state, "building", b.id, b);
}
void Writer::put(const fleet::AirHandler& a) {
  upsert(m_state, "air_handler", a.id, a);
}
void Writer::put(const fleet::ControllerProfile& p) {
  upsert(m_state, "controller_profile", p.id, p);
}
void Writer::put(const fleet::RoomSensor& s) {
  upsert(m_state, "room_sensor", s.id, s);
}
void Writer::put(const fleet::NetworkSegment& s) {
  upsert(m_state, "network_segment", s.id, s);
}

void Writer::put(const fleet::Unit& unit) {
  assert(!unit.id.isNull());
  attempt(m_state, [&] {
    if (!m_state.nextPosition)
      m_state.nextPosition = m_state.db.number("SELECT coalesce(max(position), 0) + 1 FROM unit");
    static const std::string sql = upsertSql<fleet::Unit>("unit", {"id"}, {"position"});
    Statement& s = m_state.statement(sql);
    s.with(unit.id.uuid, (*m_state.nextPosition)++);
    Binder binder(s, 3);
    fields(binder, unit);
    s.run();
  });
}

void Writer::put(const fleet::Instrument& instrument) {
  upsert(m_state, "instrument", instrument.id, instrument);
  attempt(m_state, [&] {
    removeRows(m_state, "accuracy", "instrument", instrument.id.uuid);
    static const std::string sql = upsertSql<fleet::Accuracy>("accuracy", {"instrument", "position"});
    for (std::size_t i = 0; i < instrument.accuracies.size(); ++i) {
      Statement& s = m_state.statement(sql);
      s.with(instrument.id.uuid, static_cast<std::int64_t>(i));
      Binder binder(s, 3);
      fields(binder, instrument.accuracies[i]);
      s.run();
    }
  });
}

void Writer::put(fleet::UnitId unit, const fleet::Run& run) {
  assert(!unit.isNull() && !run.id.isNull());
  attempt(m_state, [&] {
    static const std::string sql = upsertSql<fleet::Run>("run", {"unit", "id"});
    Statement& s = m_state.statement(sql);
    s.with(unit.uuid, run.id.uuid);
    Binder binder(s, 3);
    fields(binder, run);
    s.run();
  });
}

void Writer::put(const fleet::FoundSetting& setting) {
  attempt(m_state, [&] {
    static const std::string sql = upsertSql<fleet::FoundSetting>("found_setting", {"unit", "setting"});
    Statement& s = m_state.statement(sql);
    s.with(setting.unit.uuid, setting.setting);
    Binder binder(s, 3);
    fields(binder, setting);
    s.run();
  });
}

void Writer::put(const fleet::Deficiency& deficiency) {
  assert(!deficiency.id.isNull());
  attempt(m_state, [&] {
    static const std::string sql = upsertSql<fleet::Deficiency>("deficiency", {"unit", "id"});
    Statement& s = m_state.statement(sql);
    s.with(deficiency.unit.uuid, deficiency.id.uuid);
    Binder binder(s, 3);
    fields(binder, deficiency);
    s.run();
  });
}

void Writer::put(const fleet::Criteria& criteria) {
  attempt(m_state, [&] {
    Statement& known = m_state.statement("SELECT 1 FROM criteria WHERE version = ?");
    const bool exists = known.with(criteria.version).step();
    known.reset();
    if (exists)
      return refuse(m_state, "The acceptance criteria have a version " + std::to_string(criteria.version) +
                                 " already. Save the change as the next version.");
    static const std::string sql = upsertSql<fleet::Criteria>("criteria", {"version"});
    Statement& s = m_state.statement(sql);
    s.with(criteria.version);
    Binder binder(s, 2);
    fields(binder, criteria);
    s.run();
  });
}

void Writer::put(const KeptMapping& mapping) {
  attempt(m_state, [&] {
    m_state
        .statement(
            "INSERT INTO mapping (for_table, name, columns) VALUES (?, ?, ?) "
            "ON CONFLICT (for_table, name) DO UPDATE SET columns = excluded.columns")
        .with(mapping.table, mapping.name, mapping.text)
        .run();
  });
}

void Writer::remove(fleet::UnitId id) {
  attempt(m_state, [&] {
    Statement& signedOff = m_state.statement("SELECT 1 FROM sign_off WHERE unit = ?");
    const bool isSigned = signedOff.with(id.uuid).step();
    signedOff.reset();
    if (isSigned) return refuse(m_state, "The unit has a sign-off and stays in the project.");
    for (const char* table : {"run", "found_setting", "withdrawn_reading", "deficiency_move", "deficiency"})
      removeRows(m_state, table, "unit", id.uuid);
    removeRows(m_state, "unit", "id", id.uuid);
  });
}

void Writer::remove(fleet::BuildingId id) {
  attempt(m_state, [&] { removeRows(m_state, "building", "id", id.uuid); });
}
void Writer::remove(fleet::AirHandlerId id) {
  attempt(m_state, [&] { removeRows(m_state, "air_handler", "id", id.uuid); });
}
void Writer::remove(fleet::ProfileId id) {
  attempt(m_state, [&] { removeRows(m_state, "controller_profile", "id", id.uuid); });
}
void Writer::remove(fleet::RoomSensorId id) {
  attempt(m_state, [&] { removeRows(m_state, "room_sensor", "id", id.uuid); });
}
void Writer::remove(fleet::SegmentId id) {
  attempt(m_state, [&] { removeRows(m_state, "network_segment", "id", id.uuid); });
}
void Writer::remove(fleet::InstrumentId id) {
  attempt(m_state, [&] {
    removeRows(m_state, "accuracy", "instrument", id.uuid);
    removeRows(m_state, "instrument", "id", id.uuid);
  });
}

void Writer::removeRun(fleet::UnitId unit, fleet::RunId run) {
  attempt(m_state, [&] {
    m_state.statement("DELETE FROM run WHERE unit = ? AND id = ?").with(unit.uuid, run.uuid).run();
  });
}

void Writer::removeSettings(fleet::UnitId unit) {
  attempt(m_state, [&] { removeRows(m_state, "found_setting", "unit", unit.uuid); });
}

void Writer::removeMapping(std::string_view table, std::string_view name) {
  attempt(m_state, [&] {
    m_state.statement("DELETE FROM mapping WHERE for_table = ? AND name = ?").with(table, name).run();
  });
}

fleet::BatchId Writer::newBatch(std::string_view source) {
  const auto id = m_state.environment.newId<fleet::Batch>();
  attempt(m_state, [&] { m_state.facts.begin(id, source); });
  return id;
}

fleet::FactKey Writer::addReading(fleet::BatchId batch, fleet::UnitId unit, const fleet::Reading& reading) {
  fleet::FactKey key{batch, 0};
  attempt(m_state, [&] {
    key = m_state.facts.add(batch, unit, reading);
    watchForCancel(m_state);
  });
  return key;
}

void Writer::withdraw(fleet::FactKey key, std::string_view reason) {
  attempt(m_state, [&] {
    if (reason.empty()) return refuse(m_state, "Say why the reading is struck.");
    const auto unit = unitOfFact(m_state, key);
    if (!unit) return refuse(m_state, "The reading is not in this project; open the project again.");
    m_state
        .statement(
            "INSERT INTO withdrawn_reading (unit, batch, ordinal, reason) VALUES (?, ?, ?, ?) "
            "ON CONFLICT (unit, batch, ordinal) DO UPDATE SET reason = excluded.reason")
        .with(*unit, key.batch.uuid, std::int64_t{key.ordinal}, reason)
        .run();
  });
}

void Writer::withdrawBatch(fleet::BatchId batch, std::string_view reason) {
  attempt(m_state, [&] {
    if (reason.empty()) return refuse(m_state, "Say why the readings are struck.");
    m_state.statement("UPDATE standing_batch SET withdrawn = ? WHERE batch = ?")
        .with(reason, batch.uuid)
        .run();
    if (sqlite3_changes(m_state.db.raw()) == 0)
      refuse(m_state, "The readings are not in this project, or their import was undone.");
  });
}

void Writer::addMove(fleet::UnitId unit, fleet::DeficiencyId deficiency, const fleet::DeficiencyMove& move) {
  attempt(m_state, [&] {
    Statement& last = m_state.statement(
        "SELECT coalesce(max(position), 0) + 1 FROM deficiency_move WHERE unit = ? AND deficiency = ?");
    last.with(unit.uuid, deficiency.uuid).step();
    const std::int64_t position = last.integer(0);
    last.reset();
    static const std::string sql =
        upsertSql<fleet::DeficiencyMove>("deficiency_move", {"unit", "deficiency", "position"});
    Statement& s = m_state.statement(sql);
    s.with(unit.uuid, deficiency.uuid, position);
    Binder binder(s, 4);
    fields(binder, move);
    s.run();
  });
}

void Writer::sign(const fleet::SignOff& signOff, const SignedBytes& bytes) {
  assert(!signOff.id.isNull() && !signOff.unit.isNull());
  attempt(m_state, [&] {
    fleet::SignOff stored = signOff;
    stored.digest = bytes.digest();
    Statement& s = m_state.statement(upsertSql<fleet::SignOff>("sign_off", {"unit", "id"}));
    s.with(signOff.unit.uuid, signOff.id.uuid);
    Binder binder(s, 3);
    fields(binder, stored);
    s.run();
    const Bytes text{reinterpret_cast<const std::uint8_t*>(bytes.text.data()), bytes.text.size()};
    m_state
        .statement(
            "INSERT INTO signed_text (unit, sign_off, format, head, size, text) VALUES (?, ?, ?, ?, ?, ?)")
        .with(signOff.unit.uuid, signOff.id.uuid, bytes.format, Bytes(m_state.head),
              static_cast<std::int64_t>(text.size()), Bytes(packed(text)))
        .run();
  });
}

void Writer::breakSignOff(fleet::UnitId unit, fleet::SignOffId id, std::string_view because,
                          fleet::Timestamp at, std::string_view by) {
  attempt(m_state, [&] {
    if (because.empty()) return refuse(m_state, "Say why something that was signed is changed.");
    // The first change that broke it stays named.
    m_state
        .statement(
            "UPDATE sign_off SET broken_because = ?, broken_at = ?, broken_offset = ?, broken_by = ? "
            "WHERE unit = ? AND id = ? AND broken_because = ''")
        .with(because, at.utcMillis, static_cast<int>(at.offsetMinutes), by, unit.uuid, id.uuid)
        .run();
  });
}

}  // namespace ductwright::store
