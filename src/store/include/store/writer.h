#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fleet/record.h"
#include "quantity/result.h"
#include "store/signed_bytes.h"

namespace ductwright::store {

struct ProjectInfo {
  std::string name;
  quantity::System system = quantity::System::ip;
  quantity::Length elevation;
};

// A column mapping that a person chose to keep. The text is the importer's own.
struct KeptMapping {
  std::string table;  // "schedule", "readings" …
  std::string name;
  std::string text;
};

// Writes state and facts inside one commit. Nothing is visible outside until the commit returns.
// The first failure (a full disk, a cancel, a rule of the file) is kept, later calls do nothing, and the
// commit answers with it: callers need not look after each call.
// `put` adds the record or replaces the one with the same key; a null id in a record is a programming error.
class Writer {
 public:
  void put(const ProjectInfo&);
  void put(const fleet::Building&);
  void put(const fleet::AirHandler&);
  void put(const fleet::Unit&);  // a new unit comes last in the schedule's order
  void put(const fleet::ControllerProfile&);
  void put(const fleet::RoomSensor&);
  void put(const fleet::NetworkSegment&);
  void put(const fleet::Instrument&);
  void put(fleet::UnitId, const fleet::Run&);
  void put(const fleet::FoundSetting&);
  void put(const fleet::Deficiency&);  // its moves: addMove
  void put(const fleet::Criteria&);    // a version that exists is never overwritten
  void put(const KeptMapping&);

  // Removes the state of a unit; its readings stay in the file as facts. Refused while it has a sign-off.
  void remove(fleet::UnitId);
  void remove(fleet::BuildingId);
  void remove(fleet::AirHandlerId);
  void remove(fleet::ProfileId);
  void remove(fleet::RoomSensorId);
  void remove(fleet::SegmentId);
  void remove(fleet::InstrumentId);
  void removeRun(fleet::UnitId, fleet::RunId);  // one without readings, begun by mistake
  void removeSettings(fleet::UnitId);
  void removeMapping(std::string_view table, std::string_view name);

  // Begins a batch of facts; `source` is a file's name, or "typed".
  fleet::BatchId newBatch(std::string_view source);
  // Adds a fact to a batch of this commit; of the reading, `key` and `withdrawn` are not looked at. Watches
  // for a cancel: after one, and after any failure, it does nothing.
  fleet::FactKey addReading(fleet::BatchId, fleet::UnitId, const fleet::Reading&);

  // Strikes a reading, or all of a batch: shown, no longer judged. A reason is required.
  void withdraw(fleet::FactKey, std::string_view reason);
  void withdrawBatch(fleet::BatchId, std::string_view reason);

  void addMove(fleet::UnitId, fleet::DeficiencyId, const fleet::DeficiencyMove&);
  // Adds a sign-off; its digest becomes that of the bytes. Undo stops here.
  void sign(const fleet::SignOff&, const SignedBytes&);
  // Marks a sign-off as broken; it stays broken when the change that broke it is undone.
  void breakSignOff(fleet::UnitId, fleet::SignOffId, std::string_view because, fleet::Timestamp at,
                    std::string_view by);

  [[nodiscard]] bool failed() const;
  [[nodiscard]] const std::optional<Failure>& problem() const;

  struct State;
  explicit Writer(State& state) : m_state(state) {}
  Writer(const Writer&) = delete;
  Writer& operator=(const Writer&) = delete;

 private:
  State& m_state;
};

}  // namespace ductwright::store
