#include "edit.h"

#include <algorithm>

namespace ductwright::project {

using namespace fleet;

Edit::Edit(const Snapshot& before, store::Writer& writer) : m_next(before), m_writer(writer) {
  m_index.reserve(m_next.units.size());
  for (std::size_t i = 0; i < m_next.units.size(); ++i) m_index.emplace(m_next.units[i]->unit.id, i);
}

UnitRecord* Edit::touch(UnitId id) {
  if (const auto own = m_own.find(id); own != m_own.end()) return own->second.get();
  const auto at = m_index.find(id);
  if (at == m_index.end()) return nullptr;
  auto copy = std::make_shared<UnitRecord>(*m_next.units[at->second]);
  m_next.units[at->second] = copy;
  m_touched.insert(id);
  return m_own.emplace(id, std::move(copy)).first->second.get();
}

const UnitRecord* Edit::find(UnitId id) const {
  const auto at = m_index.find(id);
  return at == m_index.end() ? nullptr : m_next.units[at->second].get();
}

void Edit::put(const Unit& unit) {
  m_writer.put(unit);
  if (UnitRecord* record = touch(unit.id)) {
    record->unit = unit;
    return;
  }
  auto fresh = std::make_shared<UnitRecord>();
  fresh->unit = unit;
  m_index.emplace(unit.id, m_next.units.size());
  m_next.units.push_back(fresh);
  m_touched.insert(unit.id);
  m_own.emplace(unit.id, std::move(fresh));
  m_unitListChanged = true;
}

void Edit::remove(UnitId id) {
  const auto at = m_index.find(id);
  if (at == m_index.end()) return;
  m_writer.remove(id);
  m_next.units.erase(m_next.units.begin() + static_cast<std::ptrdiff_t>(at->second));
  std::erase_if(m_next.deficiencies, [&](const Deficiency& d) { return d.unit == id; });
  m_own.erase(id);
  m_touched.insert(id);
  m_index.clear();
  for (std::size_t i = 0; i < m_next.units.size(); ++i) m_index.emplace(m_next.units[i]->unit.id, i);
  m_unitListChanged = m_deficienciesChanged = true;
}

void Edit::put(UnitId id, const Run& run) {
  UnitRecord* record = touch(id);
  if (record == nullptr) return;
  m_writer.put(id, run);
  const auto same = std::find_if(record->runs.begin(), record->runs.end(), [&](const Run& r) { return r.id == run.id; });
  if (same != record->runs.end()) *same = run;
  else record->runs.push_back(run);
}

FactKey Edit::add(BatchId batch, UnitId id, Reading reading) {
  UnitRecord* record = touch(id);
  if (record == nullptr) return {};
  reading.key = m_writer.addReading(batch, id, reading);
  reading.withdrawn = false;
  record->readings.push_back(reading);
  return reading.key;
}

void Edit::withdraw(UnitId id, FactKey key, const std::string& reason) {
  UnitRecord* record = touch(id);
  if (record == nullptr) return;
  m_writer.withdraw(key, reason);
  for (Reading& reading : record->readings)
    if (reading.key == key) reading.withdrawn = true;
}

void Edit::put(const FoundSetting& setting) {
  UnitRecord* record = touch(setting.unit);
  if (record == nullptr) return;
  m_writer.put(setting);
  const auto same = std::find_if(record->settings.begin(), record->settings.end(), [&](const FoundSetting& s) {
    return s.setting == setting.setting && s.readAt == setting.readAt;
  });
  if (same != record->settings.end()) *same = setting;
  else record->settings.push_back(setting);
}

void Edit::put(const Deficiency& deficiency) {
  m_writer.put(deficiency);
  for (const DeficiencyMove& move : deficiency.moves) m_writer.addMove(deficiency.unit, deficiency.id, move);
  m_next.deficiencies.push_back(deficiency);
  m_deficienciesChanged = true;
}

void Edit::move(DeficiencyId id, const DeficiencyMove& move) {
  for (Deficiency& d : m_next.deficiencies) {
    if (d.id != id) continue;
    m_writer.addMove(d.unit, id, move);
    d.moves.push_back(move);
    m_deficienciesChanged = true;
  }
}

void Edit::sign(const SignOff& signOff, const store::SignedBytes& bytes) {
  UnitRecord* record = touch(signOff.unit);
  if (record == nullptr) return;
  m_writer.sign(signOff, bytes);
  record->signOffs.push_back(signOff);
  record->signOffs.back().digest = bytes.digest();
}

void Edit::breakSignOff(UnitId unit, SignOffId id, const std::string& because, Timestamp at, const std::string& by) {
  UnitRecord* record = touch(unit);
  if (record == nullptr) return;
  m_writer.breakSignOff(unit, id, because, at, by);
  for (SignOff& s : record->signOffs) {
    if (s.id != id) continue;
    s.brokenBecause = because;
    s.brokenAt = at;
    s.brokenBy = by;
  }
}

void Edit::finish() {
  for (const auto& [id, record] : m_own) std::sort(record->readings.begin(), record->readings.end(), recordedBefore);
}

}  // namespace ductwright::project
