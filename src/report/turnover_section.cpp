#include "as_left.h"
#include "report/commissioning.h"

namespace ductwright::report {
namespace {

using quantity::Dimension;

bool isFlowSetting(const AsLeft& left) {
  return left.dimension == Dimension::airflow || left.dimension == Dimension::flowCoefficient;
}

// "cooling max flow" stands in a column of flows.
std::string titleOf(const AsLeft& left, quantity::System system) {
  std::string title(left.setting);
  if (left.dimension == Dimension::airflow && title.ends_with(" flow")) return title.substr(0, title.size() - 5);
  const auto& unit = quantity::unitFor(left.dimension, system);
  return left.dimension == Dimension::flowCoefficient || unit.symbol.empty() ? title : title + ", " + std::string(unit.symbol);
}

std::string valueOf(const AsLeft& left, quantity::System system) {
  if (!left.value) return "–";
  return quantity::writeNumber(*left.value, quantity::unitFor(left.dimension, system)) + (left.read ? " *" : "");
}

// A column for each setting of the kind that any unit has.
Table settingsTable(const fleet::Snapshot& project, bool flows) {
  Table table;
  table.columns = {{"unit", 1.2}};
  const auto all = asLeft({});
  std::vector<bool> used(all.size(), false);
  for (const auto& record : project.units) {
    const auto left = asLeft(*record);
    for (std::size_t i = 0; i < left.size(); ++i) used[i] = used[i] || (isFlowSetting(left[i]) == flows && left[i].value);
  }
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (used[i]) table.columns.push_back({titleOf(all[i], project.system), all[i].dimension == Dimension::flowCoefficient ? 1.2 : 1, Align::right});
  }
  for (const auto& record : project.units) {
    std::vector<Cell> row{{record->unit.tag, {}}};
    const auto left = asLeft(*record);
    for (std::size_t i = 0; i < left.size(); ++i) {
      if (used[i]) row.push_back({valueOf(left[i], project.system), {}});
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

void addAddresses(Table& table, const fleet::Snapshot& project) {
  for (const char* title : {"controller", "network segment"}) table.columns.push_back({title, 1.6});
  for (const char* title : {"MAC address", "device instance"}) table.columns.push_back({title, 1, Align::right});
  for (std::size_t i = 0; i < project.units.size(); ++i) {
    const fleet::Unit& unit = project.units[i]->unit;
    std::vector<Cell>& row = table.rows[i];
    row.push_back({unit.profile, {}});
    row.push_back({unit.segment, {}});
    row.push_back({unit.macAddress ? std::to_string(*unit.macAddress) : "–", {}});
    row.push_back({unit.deviceInstance ? std::to_string(*unit.deviceInstance) : "–", {}});
  }
}

}  // namespace

Section turnoverSection(const Subject& s) {
  const auto symbol = [&](Dimension dimension) { return std::string(quantity::unitFor(dimension, s.project.system).symbol); };
  Table flows = settingsTable(s.project, true);
  flows.caption = "Flow setpoints in " + symbol(Dimension::airflow) + ", flow coefficients in " + symbol(Dimension::flowCoefficient);
  Table others = settingsTable(s.project, false);
  others.caption = "Other settings, and where the controller is found";
  addAddresses(others, s.project);
  Section section{"As left: setpoints and coefficients", 0, {}};
  section.blocks = {Heading{section.title, Rank::part, {}, ""},
                    Paragraph{"* as last read from the controller; the others are the schedule's and were not read back.", Weight::normal},
                    std::move(flows), std::move(others)};
  return section;
}

}  // namespace ductwright::report
