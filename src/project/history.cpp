#include <charconv>
#include <unordered_map>

#include "inside.h"

namespace ductwright::project {

using namespace fleet;

namespace {

std::string words(const store::Value& value) {
  struct Say {
    std::string operator()(std::monostate) const { return "—"; }
    std::string operator()(std::int64_t v) const { return std::to_string(v); }
    std::string operator()(double v) const {
      char buffer[32];
      return {buffer, std::to_chars(buffer, buffer + sizeof buffer, v).ptr};
    }
    std::string operator()(const std::string& v) const { return "“" + v + "”"; }
    std::string operator()(const std::vector<std::uint8_t>& v) const {
      Uuid id;
      if (v.size() != id.bytes.size()) return std::to_string(v.size()) + " bytes";
      std::copy(v.begin(), v.end(), id.bytes.begin());
      return id.text();
    }
  };
  return std::visit(Say{}, value);
}

std::string line(const store::Change& change, const std::string& where) {
  std::string out = where.empty() ? change.table : where + ", " + change.table;
  out += change.kind == store::Change::Kind::added ? " added" : change.kind == store::Change::Kind::removed ? " removed" : "";
  const char* separator = ": ";
  for (const auto& column : change.columns) {
    const bool key = change.kind == store::Change::Kind::changed && column.before == column.after;
    const bool nothing = (!column.before || std::holds_alternative<std::monostate>(*column.before)) &&
                         (!column.after || std::holds_alternative<std::monostate>(*column.after));
    if (key || nothing) continue;
    out += separator + column.column + " ";
    if (column.before && column.after) out += words(*column.before) + " → " + words(*column.after);
    else out += words(column.before ? *column.before : *column.after);
    separator = ", ";
  }
  return out;
}

std::string_view name(store::EntryKind kind) {
  switch (kind) {
    case store::EntryKind::create: return "create";
    case store::EntryKind::edit: return "edit";
    case store::EntryKind::undo: return "undo";
    case store::EntryKind::redo: return "redo";
    case store::EntryKind::migration: return "migration";
  }
  return "";
}

}  // namespace

Result<std::vector<HistoryEntry>> OpenProject::history(const std::string& unitTag, std::size_t most) const {
  const State now = state();
  std::optional<UnitId> unit;
  if (!unitTag.empty()) {
    const UnitRecord* record = now.snapshot->unit(unitTag);
    if (record == nullptr) return failure("There is no unit “" + unitTag + "” in this project.");
    unit = record->unit.id;
  }
  std::unordered_map<UnitId, std::string, IdHash> tags;
  for (const auto& record : now.snapshot->units) tags.emplace(record->unit.id, record->unit.tag);

  std::vector<HistoryEntry> out;
  const auto read = m_inside->worker.run([&] {
    return m_inside->file->history(unit, [&](const store::Entry& entry) {
      HistoryEntry e;
      e.id = store::hex(entry.hash);
      e.at = entry.at;
      e.person = entry.action.author;
      e.role = fleet::name(entry.action.role);
      e.device = entry.device;
      e.kind = name(entry.kind);
      e.action = entry.action.name;
      e.reason = entry.action.reason;
      for (const auto& facts : entry.facts)
        e.changes.push_back(std::to_string(facts.count) + (facts.count == 1 ? " reading from " : " readings from ") + facts.source);
      for (const auto& change : entry.changes) {
        const auto tag = change.unit ? tags.find(*change.unit) : tags.end();
        e.changes.push_back(line(change, tag == tags.end() ? std::string() : tag->second));
      }
      out.push_back(std::move(e));
      return most == 0 || out.size() < most;
    });
  });
  if (!read) return tl::make_unexpected(read.error());
  return out;
}

}  // namespace ductwright::project
