#include "exchange/changes.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <unordered_map>
#include <unordered_set>
#include <utility>

#include "field.h"
#include "fleet/timestamp.h"
#include "text.h"
#include "written_number.h"

namespace ductwright::exchange {
namespace {

constexpr std::size_t kNamed = 5;  // in a summary

const std::string& nameOf(const fleet::Unit& r) { return r.tag; }
const std::string& nameOf(const fleet::Instrument& r) { return r.serial; }
template <class Record>
const std::string& nameOf(const Record& r) {
  return r.name;
}

// Two texts that differ where the values differ: more digits where the usual ones hide it.
template <class Record>
FieldChange changeOf(const Field<Record>& field, std::size_t column, const Record& before, const Record& after, quantity::System system) {
  FieldChange out{column, field.show(before, system), field.show(after, system)};
  if (out.before != out.after || !field.column.dimension) return out;
  const auto& unit = quantity::unitFor(*field.column.dimension, system);
  const auto exact = [&](const Record& r) {
    const auto si = field.number(r);
    return si ? quantity::writeExact(*si, unit) + (unit.symbol.empty() ? "" : " " + std::string(unit.symbol)) : field.show(r, system);
  };
  out.before = exact(before);
  out.after = exact(after);
  return out;
}

// The fields that the file gives, put on the record that is there.
template <class Record>
std::vector<FieldChange> merge(Record& into, const Record& from, const std::vector<std::size_t>& given, quantity::System system) {
  std::vector<FieldChange> out;
  const auto fields = fieldsOf<Record>();
  for (const std::size_t column : given) {
    const auto& field = fields[column];
    if (field.same(into, from)) continue;
    out.push_back(changeOf(field, column, into, from, system));
    field.copy(into, from);
  }
  return out;
}

std::string accuracyText(const fleet::Instrument& instrument) {
  std::string out;
  for (const fleet::Accuracy& a : instrument.accuracies) {
    (out += out.empty() ? "" : "; ") += a.quantity + " ±(" + exactNumber(a.share * 100) + " % + " + exactNumber(a.plus) + ")";
    if (a.resolution != 0) (out += ", resolution ") += exactNumber(a.resolution);
    if (a.flowBasis) (out += ", ") += fleet::name(*a.flowBasis);
  }
  return out;
}

// An instrument's accuracies are replaced one by one: those that the file does not name stay.
std::vector<FieldChange> merge(fleet::Instrument& into, const fleet::Instrument& from, const std::vector<std::size_t>& given, quantity::System) {
  enum : std::size_t { serial, description, quantityColumn, percent, plus, resolution, basis, calibratedOn, due };
  const auto has = [&](std::size_t column) { return std::find(given.begin(), given.end(), column) != given.end(); };
  std::vector<FieldChange> out;
  const auto text = [](const std::optional<fleet::Day>& d) { return d ? d->text() : std::string(); };
  const auto change = [&](std::size_t column, auto& mine, const auto& theirs, std::string before, std::string after) {
    if (!has(column) || mine == theirs) return;
    out.push_back({column, std::move(before), std::move(after)});
    mine = theirs;
  };
  const std::string before = accuracyText(into);
  for (const fleet::Accuracy& a : from.accuracies) {
    const auto at = std::find_if(into.accuracies.begin(), into.accuracies.end(), [&](const fleet::Accuracy& b) {
      return fleet::foldedWord(b.quantity) == fleet::foldedWord(a.quantity);
    });
    if (at == into.accuracies.end()) {
      into.accuracies.push_back(a);
      continue;
    }
    if (has(percent)) at->share = a.share;
    if (has(plus)) at->plus = a.plus;
    if (has(resolution)) at->resolution = a.resolution;
    if (has(basis)) at->flowBasis = a.flowBasis;
  }
  if (const std::string after = accuracyText(into); after != before) out.push_back({quantityColumn, before, after});
  change(description, into.description, from.description, into.description, from.description);
  change(calibratedOn, into.calibratedOn, from.calibratedOn, text(into.calibratedOn), text(from.calibratedOn));
  change(due, into.calibrationDue, from.calibrationDue, text(into.calibrationDue), text(from.calibrationDue));
  return out;
}

template <class Record, class List>
Changes<Record> changesOf(const Import<Record>& import, const List& present, quantity::System system) {
  Changes<Record> out;
  std::unordered_map<std::string_view, const Record*> known;
  for (const Record* record : present) known.emplace(nameOf(*record), record);
  std::unordered_set<std::string_view> seen;
  for (const auto& [row, record] : import.records) {
    seen.insert(nameOf(record));
    const auto at = known.find(nameOf(record));
    if (at == known.end()) {
      out.added.push_back({row, record});
      continue;
    }
    Record merged = *at->second;
    auto fields = merge(merged, record, import.given, system);
    if (fields.empty())
      ++out.unchanged;
    else
      out.changed.push_back({row, std::move(merged), std::move(fields)});
  }
  for (const Record* record : present)
    if (!seen.contains(nameOf(*record))) out.dropped.push_back(nameOf(*record));
  return out;
}

template <class Record>
std::vector<const Record*> pointersTo(const std::vector<Record>& list) {
  std::vector<const Record*> out;
  for (const Record& record : list) out.push_back(&record);
  return out;
}

template <class Record>
constexpr TableKind kKind = TableKind::schedule;
template <>
constexpr TableKind kKind<fleet::AirHandler> = TableKind::airHandlers;
template <>
constexpr TableKind kKind<fleet::ControllerProfile> = TableKind::profiles;
template <>
constexpr TableKind kKind<fleet::RoomSensor> = TableKind::roomSensors;
template <>
constexpr TableKind kKind<fleet::NetworkSegment> = TableKind::segments;
template <>
constexpr TableKind kKind<fleet::Instrument> = TableKind::instruments;

std::string orEmpty(const std::string& text) { return text.empty() ? "(empty)" : text; }

}  // namespace

template <class Record>
std::string Changes<Record>::text() const {
  std::string out = std::to_string(added.size()) + " added, " + std::to_string(changed.size()) + " changed";
  if (!changed.empty()) {
    out += " (";
    for (std::size_t i = 0; i < std::min(kNamed, changed.size()); ++i) {
      out += (i == 0 ? "" : "; ") + nameOf(changed[i].record) + ": ";
      const auto& fields = changed[i].fields;
      for (std::size_t f = 0; f < fields.size(); ++f)
        ((out += f == 0 ? "" : ", ") += columnsOf(kKind<Record>)[fields[f].column].name) += " " + orEmpty(fields[f].before) + " → " + orEmpty(fields[f].after);
    }
    out += changed.size() > kNamed ? "; …)" : ")";
  }
  out += ", " + std::to_string(unchanged) + " unchanged";
  if (dropped.empty()) return out;
  out += ", " + std::to_string(dropped.size()) + " not in the file (kept): ";
  for (std::size_t i = 0; i < std::min(kNamed, dropped.size()); ++i) out += (i == 0 ? "" : ", ") + dropped[i];
  return out += dropped.size() > kNamed ? ", …" : "";
}

template struct Changes<fleet::Unit>;
template struct Changes<fleet::AirHandler>;
template struct Changes<fleet::ControllerProfile>;
template struct Changes<fleet::RoomSensor>;
template struct Changes<fleet::NetworkSegment>;
template struct Changes<fleet::Instrument>;

ScheduleChanges compare(const Import<fleet::Unit>& import, const fleet::Snapshot& project) {
  std::vector<const fleet::Unit*> present;
  for (const auto& record : project.units) present.push_back(&record->unit);
  return changesOf(import, present, project.system);
}
Changes<fleet::AirHandler> compare(const Import<fleet::AirHandler>& import, const fleet::Snapshot& project) {
  return changesOf(import, pointersTo(project.airHandlers), project.system);
}
Changes<fleet::ControllerProfile> compare(const Import<fleet::ControllerProfile>& import, const fleet::Snapshot& project) {
  return changesOf(import, pointersTo(project.profiles), project.system);
}
Changes<fleet::RoomSensor> compare(const Import<fleet::RoomSensor>& import, const fleet::Snapshot& project) {
  return changesOf(import, pointersTo(project.roomSensors), project.system);
}
Changes<fleet::NetworkSegment> compare(const Import<fleet::NetworkSegment>& import, const fleet::Snapshot& project) {
  return changesOf(import, pointersTo(project.segments), project.system);
}
Changes<fleet::Instrument> compare(const Import<fleet::Instrument>& import, const fleet::Snapshot& project) {
  return changesOf(import, pointersTo(project.instruments), project.system);
}

}  // namespace ductwright::exchange
