#include <fstream>
#include <iostream>
#include <sstream>

#include "commands.h"

namespace ductwright::cli {
namespace {

struct Options {
  std::string path, file, sheet, map, keepMap;
  bool dryRun = false, onlyGoodRows = false;
  Actor actor;
};

void printProblems(const project::ImportPreview& preview, const std::string& file) {
  for (const auto& problem : preview.problems) {
    std::cerr << file << ':';
    if (problem.row != 0) std::cerr << problem.row << ':';
    std::cerr << ' ' << (problem.column.empty() ? "" : problem.column + ": ") << problem.sentence << '\n';
  }
}

void printChanges(const project::ImportPreview& preview) {
  using What = project::ImportChange::What;
  for (const auto& change : preview.changes) {
    if (change.what == What::unchanged) continue;
    const char* const mark = change.what == What::added ? "added" : change.what == What::changed ? "changed" : "not in the file, kept";
    std::cout << change.subject << ": " << mark << '\n';
    for (const auto& detail : change.details) std::cout << "  " << detail << '\n';
  }
}

std::string counted(const project::ImportPreview& p) {
  std::ostringstream out;
  out << p.rows << " rows: " << p.added << " added, " << p.changed << " changed, " << p.unchanged << " unchanged";
  if (p.dropped != 0) out << ", " << p.dropped << " not in the file and kept";
  if (p.rows != p.good) out << ", " << p.rows - p.good << " with problems";
  return out.str();
}

Exit import(project::TableKind kind, const Options& o) {
  project::ImportRequest request{kind, o.file, o.sheet, {}};
  if (!o.map.empty()) {
    std::ifstream map(o.map);
    if (!map) return fault(o.map + ": the mapping cannot be read");
    request.mapping.assign(std::istreambuf_iterator<char>(map), {});
  }
  auto opened = o.dryRun ? project::OpenProject::openReadOnly(o.path) : project::OpenProject::open(o.path, o.actor.author());
  if (!opened) return fault(opened.error().sentence);
  auto preview = project::previewImport(**opened, request);
  if (!preview) return fault(preview.error().sentence);
  printProblems(*preview, o.file);
  if (!o.keepMap.empty()) {
    std::ofstream map(o.keepMap);
    map << preview->mapping;
    if (!map.flush()) return fault(o.keepMap + ": the mapping cannot be written");
  }
  const bool whole = preview->good == preview->rows && preview->missing.empty() && !preview->blocked;
  if (o.dryRun) {
    printChanges(*preview);
    std::cout << "Would import " << counted(*preview) << '\n';
    return whole || (o.onlyGoodRows && preview->missing.empty() && !preview->blocked) ? Exit::done : Exit::fault;
  }
  if (!preview->missing.empty()) return Exit::fault;
  if (!whole && !o.onlyGoodRows)
    return fault("Nothing was imported: mend the rows above, or take the good ones alone with --good-rows");
  preview->onlyGoodRows = o.onlyGoodRows;
  const auto outcome = (*opened)->import(*preview, o.actor.reason, {}, {});
  if (!outcome) return fault(outcome.error().sentence);
  std::cout << "Imported " << counted(*preview) << '\n';
  return Exit::done;
}

constexpr std::pair<project::TableKind, const char*> kTables[] = {
    {project::TableKind::schedule, "The design schedule, one row a unit"},
    {project::TableKind::airHandlers, "Air handlers"},
    {project::TableKind::profiles, "Controller profiles, the project's own descriptions"},
    {project::TableKind::roomSensors, "Room sensors"},
    {project::TableKind::segments, "Network segments"},
    {project::TableKind::instruments, "Instruments with accuracy and calibration, one row a quantity"},
    {project::TableKind::readings, "Readings, one row a reading"},
    {project::TableKind::settings, "Settings as found, compared with the schedule"},
};

}  // namespace

void addImport(CLI::App& program, Exit& exit) {
  auto* const command = program.add_subcommand(
      "import", "Import a table from CSV or XLSX, as one action that can be undone\n\nExamples:\n"
                "  ductwright-cli import schedule tower.ductwright schedule.xlsx --dry-run\n"
                "  ductwright-cli import readings tower.ductwright monday.csv --good-rows");
  command->require_subcommand(1);
  for (const auto& [kind, what] : kTables) {
    auto* const table = command->add_subcommand(std::string(project::name(kind)), what);
    const auto o = std::make_shared<Options>();
    table->add_option("PROJECT", o->path, "The project")->required();
    table->add_option("FILE", o->file, "CSV or XLSX")->required();
    table->add_option("--sheet", o->sheet, "The sheet of a workbook; the first where not given");
    table->add_option("--map", o->map, "A kept mapping of the columns");
    table->add_option("--keep-map", o->keepMap, "Write the mapping in use to this file");
    table->add_flag("--dry-run", o->dryRun, "Say what would change and write nothing");
    table->add_flag("--good-rows", o->onlyGoodRows, "Take the good rows though others have problems");
    o->actor.addTo(*table);
    table->callback([o, kind = kind, &exit] { exit = import(kind, *o); });
  }
}

}  // namespace ductwright::cli
