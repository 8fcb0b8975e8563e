#include "project/import.h"

#include <algorithm>
#include <filesystem>
#include <variant>

#include "exchange/changes.h"
#include "exchange/import.h"
#include "exchange/readings.h"
#include "inside.h"

namespace ductwright::project {

using namespace fleet;

namespace {

// Everything that a preview read, kept for the import that may follow.
using Rows = std::variant<exchange::Changes<Unit>, exchange::Changes<AirHandler>, exchange::Changes<ControllerProfile>,
                          exchange::Changes<RoomSensor>, exchange::Changes<NetworkSegment>, exchange::Changes<Instrument>,
                          exchange::Import<FoundSetting>, exchange::ReadingImport>;
struct Parsed {
  std::uint64_t revision = 0;
  Rows rows;
};

constexpr std::size_t kSampleRows = 50;

std::string subject(const Unit& r) { return r.tag; }
std::string subject(const Instrument& r) { return r.serial; }
template <class Named>
std::string subject(const Named& r) {
  return r.name;
}

void addProblems(ImportPreview& preview, const exchange::Problems& problems) {
  for (const auto& p : problems.list()) {
    std::string sentence = p.what;
    if (!p.todo.empty()) (sentence += ", ") += p.todo;
    preview.problems.push_back({p.row, p.header, p.weight == exchange::Weight::error, std::move(sentence)});
  }
  preview.blocked = preview.blocked || problems.blocked();
  if (problems.unlisted() != 0)
    preview.problems.push_back({0, {}, false, std::to_string(problems.unlisted()) + " more problems like these are not listed"});
}

// Rows with an error, counted once each.
std::size_t rowsAtFault(const exchange::Problems& problems) {
  std::vector<std::uint32_t> rows;
  for (const auto& p : problems.list())
    if (p.weight == exchange::Weight::error && p.row != 0) rows.push_back(p.row);
  std::sort(rows.begin(), rows.end());
  return static_cast<std::size_t>(std::unique(rows.begin(), rows.end()) - rows.begin());
}

void findMissing(ImportPreview& preview, const exchange::Layout& layout) {
  const auto columns = exchange::columnsOf(layout.kind);
  for (std::size_t i = 0; i < columns.size(); ++i)
    if (columns[i].required && !layout.places[i].source) preview.missing.emplace_back(columns[i].name);
}

template <class Record>
void describe(ImportPreview& preview, const exchange::Changes<Record>& changes, TableKind kind) {
  const auto columns = exchange::columnsOf(kind);
  using What = ImportChange::What;
  for (const auto& added : changes.added) preview.changes.push_back({What::added, added.row, subject(added.record), {}});
  for (const auto& changed : changes.changed) {
    ImportChange line{What::changed, changed.row, subject(changed.record), {}};
    for (const auto& field : changed.fields)
      line.details.push_back(std::string(columns[field.column].name) + ": " + (field.before.empty() ? "—" : field.before) + " → " +
                             (field.after.empty() ? "—" : field.after));
    preview.changes.push_back(std::move(line));
  }
  for (const std::string& dropped : changes.dropped) preview.changes.push_back({What::dropped, 0, dropped, {}});
  preview.added = changes.added.size();
  preview.changed = changes.changed.size();
  preview.unchanged = changes.unchanged;
  preview.dropped = changes.dropped.size();
}

template <class Record>
Rows take(ImportPreview& preview, const exchange::Import<Record>& import, const Snapshot& project) {
  addProblems(preview, import.problems);
  preview.good = import.records.size();
  preview.rows = std::max(preview.rows, preview.good);
  if constexpr (std::is_same_v<Record, Instrument>) {  // several rows make one instrument
    const std::size_t bad = rowsAtFault(import.problems);
    preview.good = preview.rows - std::min(bad, preview.rows);
  }
  if (preview.blocked) preview.good = 0;
  auto changes = exchange::compare(import, project);
  describe(preview, changes, preview.request.kind);
  return changes;
}

Rows takeSettings(ImportPreview& preview, exchange::Import<FoundSetting> import, const Snapshot& project) {
  addProblems(preview, import.problems);
  preview.good = import.records.size();
  preview.added = preview.good;
  std::vector<FoundSetting> found;
  for (const auto& placed : import.records) found.push_back(placed.record);
  const auto columns = exchange::columnsOf(TableKind::schedule);
  for (const auto& c : exchange::compareSettings(found, project)) {
    if (c.same) continue;
    preview.changes.push_back({ImportChange::What::changed, 0, c.tag,
                               {std::string(columns[c.column].name) + ": scheduled " + (c.scheduled.empty() ? "—" : c.scheduled) +
                                ", found " + c.found}});
  }
  return import;
}

Rows takeReadings(ImportPreview& preview, exchange::ReadingImport import, const Snapshot& project) {
  exchange::leaveOutKnown(import, project);
  addProblems(preview, import.problems);
  preview.good = import.readings.size() + import.known;
  preview.added = import.readings.size();
  preview.unchanged = import.known;
  std::unordered_map<UnitId, std::size_t, IdHash> perUnit;
  for (const auto& placed : import.readings) ++perUnit[placed.unit];
  for (const auto& unit : project.units)
    if (const auto n = perUnit.find(unit->unit.id); n != perUnit.end())
      preview.changes.push_back({ImportChange::What::added, 0, unit->unit.tag, {std::to_string(n->second) + " readings"}});
  return import;
}

double confidence(exchange::Match match) {
  switch (match) {
    case exchange::Match::byHand:
    case exchange::Match::exact: return 1;
    case exchange::Match::synonym: return 0.9;
    case exchange::Match::likely: return 0.5;
    case exchange::Match::none: break;
  }
  return 0;
}

Result<exchange::Mapping> mappingFor(const ImportRequest& request, const exchange::Table& table) {
  if (request.mapping.empty()) return exchange::suggestMapping(request.kind, table);
  auto kept = exchange::readMapping(request.mapping);
  if (!kept) return kept;
  if (kept->kind != request.kind)
    return failure("This mapping is for " + std::string(name(kept->kind)) + ", not for " + std::string(name(request.kind)) + ".");
  return exchange::applyMapping(*kept, table);
}

void show(ImportPreview& preview, const exchange::Table& table, const exchange::Mapping& mapping) {
  preview.sheets = table.sheets();
  preview.mapping = mapping.text();
  for (const auto& h : mapping.headers) preview.columns.push_back({h.header, h.match <= exchange::Match::synonym ? h.column : std::string(), h.unit, confidence(h.match)});
  const std::size_t last = std::min(table.rows(), mapping.headerRow + 1 + kSampleRows);
  for (std::size_t row = mapping.headerRow; row < last; ++row) {
    auto& cells = preview.sampleRows.emplace_back();
    for (std::size_t column = 0; column < table.columns(); ++column) cells.emplace_back(table.text(row, column));
  }
}

Result<Rows> parse(ImportPreview& preview, const exchange::Table& table, const exchange::Layout& layout, const Snapshot& project,
                   const exchange::Job& job) {
  switch (preview.request.kind) {
    case TableKind::schedule: return take(preview, exchange::readSchedule(table, layout), project);
    case TableKind::airHandlers: return take(preview, exchange::readAirHandlers(table, layout), project);
    case TableKind::profiles: return take(preview, exchange::readProfiles(table, layout), project);
    case TableKind::roomSensors: return take(preview, exchange::readRoomSensors(table, layout), project);
    case TableKind::segments: return take(preview, exchange::readSegments(table, layout), project);
    case TableKind::instruments: return take(preview, exchange::readInstruments(table, layout), project);
    case TableKind::settings: return takeSettings(preview, exchange::readSettings(table, layout, project), project);
    case TableKind::readings: break;
  }
  auto readings = exchange::readReadings(table, layout, exchange::ReadingContext::of(project), job);
  if (!readings) return tl::make_unexpected(readings.error());
  return takeReadings(preview, *std::move(readings), project);
}

// Applies one table of named records to the edit: `list` is the snapshot's.
template <class Record>
void apply(Edit& edit, const Doing& doing, const exchange::Changes<Record>& changes, std::vector<Record>& list) {
  for (const auto& added : changes.added) {
    Record record = added.record;
    record.id = {doing.newUuid()};
    edit.writer().put(record);
    list.push_back(std::move(record));
  }
  for (const auto& changed : changes.changed) {
    edit.writer().put(changed.record);
    for (Record& r : list)
      if (r.id == changed.record.id) r = changed.record;
  }
  edit.changeDesign();
}

struct Apply {
  Edit& edit;
  const Doing& doing;
  const std::string& source;

  void operator()(const exchange::Changes<Unit>& changes) const {
    for (const auto& added : changes.added) {
      Unit unit = added.record;
      unit.id = {doing.newUuid()};
      edit.put(unit);
    }
    for (const auto& changed : changes.changed) edit.put(changed.record);
  }
  void operator()(const exchange::Changes<AirHandler>& c) const { apply(edit, doing, c, edit.next().airHandlers); }
  void operator()(const exchange::Changes<ControllerProfile>& c) const { apply(edit, doing, c, edit.next().profiles); }
  void operator()(const exchange::Changes<RoomSensor>& c) const { apply(edit, doing, c, edit.next().roomSensors); }
  void operator()(const exchange::Changes<NetworkSegment>& c) const { apply(edit, doing, c, edit.next().segments); }
  void operator()(const exchange::Changes<Instrument>& c) const { apply(edit, doing, c, edit.next().instruments); }
  void operator()(const exchange::Import<FoundSetting>& import) const {
    for (const auto& placed : import.records) edit.put(placed.record);
  }
  void operator()(const exchange::ReadingImport& import) const {
    if (import.readings.empty()) return;
    const BatchId batch = edit.writer().newBatch(source);
    for (const auto& placed : import.readings) {
      edit.add(batch, placed.unit, placed.reading);
      if (edit.writer().failed()) return;
    }
  }
};

std::string fileName(const std::string& path) { return path.substr(path.find_last_of('/') + 1); }

}  // namespace

Result<ImportPreview> previewImport(const OpenProject& project, const ImportRequest& request, const Progress& progress,
                                    std::stop_token stop) {
  const exchange::Job job{std::move(stop), progress};
  const auto table = exchange::readTable(std::filesystem::path(request.path), {{}, request.sheet}, job);
  if (!table) return tl::make_unexpected(table.error());
  const auto mapping = mappingFor(request, *table);
  if (!mapping) return tl::make_unexpected(mapping.error());
  const State now = project.state();
  const auto layout = exchange::layoutOf(*mapping, *table, now.snapshot->system);

  ImportPreview preview;
  preview.request = request;
  preview.rows = table->rows() > mapping->headerRow + 1 ? table->rows() - mapping->headerRow - 1 : 0;
  show(preview, *table, *mapping);
  preview.recognised = exchange::describe(*table, layout);
  findMissing(preview, layout);
  if (!preview.missing.empty()) {
    addProblems(preview, table->problems());
    addProblems(preview, layout.problems);
    return preview;
  }
  auto rows = parse(preview, *table, layout, *now.snapshot, job);
  if (!rows) return tl::make_unexpected(rows.error());
  preview.parsed = std::make_shared<const Parsed>(Parsed{now.snapshot->revision, *std::move(rows)});
  return preview;
}

Result<ImportOutcome> OpenProject::import(const ImportPreview& preview, const std::string& reason, const Progress& progress,
                                          std::stop_token stop) {
  if (!preview.missing.empty()) return failure("The file has no column for “" + preview.missing.front() + "”: map one, or add it.");
  if (preview.blocked) return failure("The file cannot be taken as it is: mend the problems of the whole file first.");
  if (preview.good < preview.rows && !preview.onlyGoodRows)
    return failure(std::to_string(preview.rows - preview.good) + " rows have problems: mend them, or take the good rows alone.");
  const auto* parsed = static_cast<const Parsed*>(preview.parsed.get());
  if (parsed == nullptr) return failure("There is nothing to import.");
  if (parsed->revision != state().snapshot->revision)
    return failure("The project has changed since the preview was made: look at the preview again, then import.");

  const std::string source = fileName(preview.request.path);
  store::Progress told{stop, {}};
  if (progress)
    told.report = [&](std::uint64_t done) {
      progress(preview.added == 0 ? 1.0 : std::min(1.0, static_cast<double>(done) / static_cast<double>(preview.added)));
    };
  const auto done = m_inside->act("Import " + std::string(name(preview.request.kind)) + " from " + source, reason,
                                  [&](Edit& edit, const Doing& doing) -> Result<void> {
                                    std::visit(Apply{edit, doing, source}, parsed->rows);
                                    return {};
                                  },
                                  told);
  if (!done) return tl::make_unexpected(done.error());
  return ImportOutcome{preview.added, preview.changed, preview.unchanged, preview.rows - preview.good};
}

}  // namespace ductwright::project
