#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

#include "exchange/import.h"
#include "exchange/mapping.h"
#include "exchange/readings.h"
#include "exchange/table.h"

// The first byte says which table the rest is read as.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace ductwright::exchange;
  if (size == 0) return 0;
  std::string text(size - 1, '\0');
  for (std::size_t i = 1; i < size; ++i) text[i - 1] = static_cast<char>(data[i]);
  if (text.starts_with("PK")) return 0;  // workbooks have a fuzzer of their own
  const auto table = readTable(std::move(text));
  if (!table) {
    if (table.error().sentence.empty()) std::abort();
    return 0;
  }
  const auto kind = static_cast<TableKind>(data[0] % 8);
  const auto system = data[0] & 0x80 ? ductwright::quantity::System::si : ductwright::quantity::System::ip;
  const Mapping mapping = suggestMapping(kind, *table);
  const auto kept = readMapping(mapping.text());
  if (!kept || kept->headers.size() != mapping.headers.size()) std::abort();
  const Layout layout = layoutOf(mapping, *table, system);
  ductwright::fleet::Snapshot project;
  auto record = std::make_shared<ductwright::fleet::UnitRecord>();
  record->unit.tag = "1-01";
  project.units.push_back(record);
  std::size_t records = 0;
  switch (kind) {
    case TableKind::schedule: records = readSchedule(*table, layout).records.size(); break;
    case TableKind::airHandlers: records = readAirHandlers(*table, layout).records.size(); break;
    case TableKind::profiles: records = readProfiles(*table, layout).records.size(); break;
    case TableKind::roomSensors: records = readRoomSensors(*table, layout).records.size(); break;
    case TableKind::segments: records = readSegments(*table, layout).records.size(); break;
    case TableKind::settings: records = readSettings(*table, layout, project).records.size(); break;
    case TableKind::instruments: records = readInstruments(*table, layout).records.size(); break;
    case TableKind::readings: {
      const auto read = readReadings(*table, layout, ReadingContext::of(project));
      if (!read) std::abort();
      records = read->readings.size();
      break;
    }
  }
  if (records > table->rows()) std::abort();
  return 0;
}
