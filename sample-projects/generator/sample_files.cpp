#include "sample/sample_files.h"

#include <fstream>
#include <utility>

#include "exchange/export.h"
#include "exchange/sheet.h"

namespace ductwright::sample {
namespace {

using exchange::Sheet;
using exchange::TableKind;

Sheet plantedSheet(const SampleBuilding& building) {
  Sheet sheet;
  sheet.name = "planted";
  for (const char* header : {"unit", "fault", "criterion", "expected result", "because", "how it shows"})
    sheet.columns.push_back({header});
  for (const Planted& p : building.planted)
    sheet.rows.push_back(
        {p.unit, p.fault, std::string(name(p.criterion)), std::string(name(p.expected)), p.because, p.shows});
  return sheet;
}

Sheet findingsSheet(const SampleBuilding& building) {
  Sheet sheet;
  sheet.name = "planted in the schedule";
  for (const char* header : {"unit", "fault", "rule"}) sheet.columns.push_back({header});
  for (const PlantedFinding& f : building.findings) sheet.rows.push_back({f.unit, f.fault, f.rule});
  return sheet;
}

// What the tables do not say, for `create`.
Result<void> writeWord(const std::filesystem::path& file, const std::string& word) {
  std::ofstream out(file, std::ios::binary);
  out << word << '\n';
  out.close();
  if (!out) return failure("Cannot write " + file.string() + ": check the folder and its free space");
  return {};
}

}  // namespace

Result<void> writeFiles(const SampleBuilding& building, const std::filesystem::path& folder) {
  const std::pair<TableKind, const char*> tables[] = {
      {TableKind::schedule, "schedule.csv"},        {TableKind::schedule, "schedule.xlsx"},
      {TableKind::airHandlers, "air-handlers.csv"}, {TableKind::profiles, "profiles.csv"},
      {TableKind::roomSensors, "sensors.csv"},      {TableKind::segments, "segments.csv"},
      {TableKind::instruments, "instruments.csv"},  {TableKind::settings, "settings.csv"},
      {TableKind::readings, "readings.csv"},
  };
  for (const auto& [kind, file] : tables)
    if (auto done = exchange::exportTable(kind, building.project, folder / file); !done) return done;
  const auto& project = building.project;
  const auto elevation =
      quantity::write(project.elevation.si(), quantity::Dimension::elevation, project.system);
  if (auto done = writeWord(folder / "NAME", project.projectName); !done) return done;
  if (auto done = writeWord(folder / "ELEVATION", elevation); !done) return done;
  if (auto done = exchange::writeCsv(folder / "planted.csv", plantedSheet(building)); !done) return done;
  return exchange::writeCsv(folder / "planted-in-schedule.csv", findingsSheet(building));
}

}  // namespace ductwright::sample
