#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "exchange/changes.h"
#include "field.h"
#include "written_number.h"

namespace ductwright::exchange {
namespace {

using fleet::FoundSetting;
using fleet::Unit;

// Equal to the last digit that was read: 212 L/s is 450 cfm, 448 cfm is not.
bool isSame(const Field<Unit>& field, const FoundSetting& found, const Unit& unit, quantity::System system) {
  if (!found.value || !field.column.dimension) return fleet::foldedWord(field.show(unit, system)) == fleet::foldedWord(found.typed);
  const auto scheduled = field.number(unit);
  if (!scheduled) return false;
  const auto number = WrittenNumber::leading(found.typed);
  const std::string_view symbol = number ? trimmed(std::string_view(found.typed).substr(number->length())) : std::string_view{};
  const quantity::Unit* in = quantity::findUnit(*field.column.dimension, symbol);
  const bool share = *field.column.dimension == quantity::Dimension::ratio;  // bare, it is one
  if (in == nullptr) in = share ? &quantity::unitsOf(quantity::Dimension::ratio)[2] : &quantity::unitFor(*field.column.dimension, system);
  const int decimals = number ? number->decimals(number->mark() == DecimalMark::comma) : 6;
  const double halfDigit = 0.5 * std::pow(10.0, -decimals) * in->factor;
  return std::abs(*found.value - *scheduled) <= halfDigit * (1 + 1e-9);
}

bool isNewer(const FoundSetting& a, const FoundSetting& b) { return !b.readAt || (a.readAt && *a.readAt >= *b.readAt); }

}  // namespace

std::vector<SettingComparison> compareSettings(const std::vector<FoundSetting>& found, const fleet::Snapshot& project) {
  std::map<std::pair<fleet::UnitId, std::size_t>, const FoundSetting*> newest;
  for (const FoundSetting& each : found) {
    const auto column = scheduleColumn(each.setting);
    if (!column) continue;
    const FoundSetting*& have = newest[{each.unit, *column}];
    if (have == nullptr || isNewer(each, *have)) have = &each;
  }
  std::vector<SettingComparison> out;
  const auto fields = fieldsOf<Unit>();
  for (const auto& record : project.units)
    for (auto at = newest.lower_bound({record->unit.id, 0}); at != newest.end() && at->first.first == record->unit.id; ++at) {
      const auto& field = fields[at->first.second];
      out.push_back({record->unit.id, record->unit.tag, at->first.second, field.show(record->unit, project.system), at->second->typed,
                     isSame(field, *at->second, record->unit, project.system)});
    }
  return out;
}

std::vector<SettingComparison> compareSettings(const fleet::Snapshot& project) {
  std::vector<FoundSetting> all;
  for (const auto& record : project.units) all.insert(all.end(), record->settings.begin(), record->settings.end());
  return compareSettings(all, project);
}

}  // namespace ductwright::exchange
