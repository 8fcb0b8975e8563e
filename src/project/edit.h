#pragma once

#include <memory>
#include <unordered_map>
#include <unordered_set>

#include "fleet/record.h"
#include "store/project_file.h"

namespace ductwright::project {

// One action under way: what the writer stores, done to the next snapshot as well, so that the action can be
// judged before it is committed. Units that it does not touch stay shared with the snapshot before.
class Edit {
 public:
  Edit(const fleet::Snapshot& before, store::Writer& writer);

  [[nodiscard]] const fleet::Snapshot& next() const { return m_next; }
  [[nodiscard]] fleet::Snapshot& next() { return m_next; }  // for what is not a unit's record
  [[nodiscard]] store::Writer& writer() { return m_writer; }
  [[nodiscard]] const std::unordered_set<fleet::UnitId, fleet::IdHash>& touched() const { return m_touched; }
  [[nodiscard]] bool designChanged() const { return m_designChanged; }
  [[nodiscard]] bool unitListChanged() const { return m_unitListChanged; }
  [[nodiscard]] bool deficienciesChanged() const { return m_deficienciesChanged; }
  // Something that every unit's verdict may hang on has changed.
  void changeDesign() { m_designChanged = true; }

  // The unit's own copy, to be changed; null when there is no such unit.
  fleet::UnitRecord* touch(fleet::UnitId);
  [[nodiscard]] const fleet::UnitRecord* find(fleet::UnitId) const;

  void put(const fleet::Unit&);
  void remove(fleet::UnitId);
  void put(fleet::UnitId, const fleet::Run&);
  fleet::FactKey add(fleet::BatchId, fleet::UnitId, fleet::Reading);
  void withdraw(fleet::UnitId, fleet::FactKey, const std::string& reason);
  void put(const fleet::FoundSetting&);
  void put(const fleet::Deficiency&);
  void move(fleet::DeficiencyId, const fleet::DeficiencyMove&);
  void sign(const fleet::SignOff&, const store::SignedBytes&);
  void breakSignOff(fleet::UnitId, fleet::SignOffId, const std::string& because, fleet::Timestamp, const std::string& by);

  // Puts the readings of touched units in their order; to be called before anyone reads `next`.
  void finish();

 private:
  fleet::Snapshot m_next;
  store::Writer& m_writer;
  std::unordered_map<fleet::UnitId, std::size_t, fleet::IdHash> m_index;
  std::unordered_set<fleet::UnitId, fleet::IdHash> m_touched;
  std::unordered_map<fleet::UnitId, std::shared_ptr<fleet::UnitRecord>, fleet::IdHash> m_own;
  bool m_designChanged = false, m_unitListChanged = false, m_deficienciesChanged = false;
};

}  // namespace ductwright::project
