#include "as_left.h"
#include "report/commissioning.h"

namespace ductwright::report {

Section turnoverSection(const Subject& s) {
  Table table;
  table.columns = {{"unit", 1.2}};
  const auto all = asLeft({});
  std::vector<bool> used(all.size(), false);
  for (const auto& record : s.project.units) {
    const auto left = asLeft(*record);
    for (std::size_t i = 0; i < left.size(); ++i) used[i] = used[i] || left[i].value.has_value();
  }
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (!used[i]) continue;
    const auto& unit = quantity::unitFor(all[i].dimension, s.project.system);
    table.columns.push_back({std::string(all[i].setting) + (unit.symbol.empty() ? "" : ", " + std::string(unit.symbol)), 1, Align::right});
  }
  table.columns.push_back({"address", 1.2, Align::right});
  for (const auto& record : s.project.units) {
    std::vector<Cell> row{{record->unit.tag, {}}};
    const auto left = asLeft(*record);
    for (std::size_t i = 0; i < left.size(); ++i) {
      if (!used[i]) continue;
      const auto& unit = quantity::unitFor(left[i].dimension, s.project.system);
      row.push_back({left[i].value ? quantity::writeNumber(*left[i].value, unit) + (left[i].read ? " *" : "") : "–", {}});
    }
    std::string address = record->unit.segment;
    if (record->unit.macAddress) address += (address.empty() ? "" : " / ") + std::to_string(*record->unit.macAddress);
    row.push_back({address.empty() ? "–" : address, {}});
    table.rows.push_back(std::move(row));
  }
  Section section{"As left: setpoints and coefficients", 0, {}};
  section.blocks = {Heading{section.title, Rank::part, {}, ""},
                    Paragraph{"* as last read from the controller; the others are the schedule's and were not read back.", Weight::normal},
                    std::move(table)};
  return section;
}

}  // namespace ductwright::report
