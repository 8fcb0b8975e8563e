#include "as_left.h"

#include <algorithm>
#include <cmath>

namespace ductwright::report {
namespace {

using fleet::Unit;
using quantity::Dimension;

struct Scheduled {
  std::string_view setting;
  Dimension dimension;
  std::optional<double> value;
};

template <class Quantity>
std::optional<double> si(const std::optional<Quantity>& value) {
  return value ? std::optional(value->si()) : std::nullopt;
}

std::vector<Scheduled> scheduled(const Unit& unit) {
  return {{"cooling max flow", Dimension::airflow, si(unit.coolingMax)},
          {"cooling min flow", Dimension::airflow, si(unit.coolingMin)},
          {"heating max flow", Dimension::airflow, si(unit.heatingMax)},
          {"heating min flow", Dimension::airflow, si(unit.heatingMin)},
          {"reheat flow", Dimension::airflow, si(unit.reheat)},
          {"fan flow", Dimension::airflow, si(unit.fan)},
          {"hot max flow", Dimension::airflow, si(unit.hotMax)},
          {"hot min flow", Dimension::airflow, si(unit.hotMin)},
          {"flow coefficient", Dimension::flowCoefficient, si(unit.flowCoefficient)},
          {"heat enable ratio", Dimension::ratio, unit.heatEnableRatio},
          {"discharge limit", Dimension::temperature, si(unit.dischargeLimit)},
          {"zone heating setpoint", Dimension::temperature, si(unit.zoneHeatingSetpoint)},
          {"zone cooling setpoint", Dimension::temperature, si(unit.zoneCoolingSetpoint)},
          {"stroke time", Dimension::duration, si(unit.strokeTime)}};
}

// The last reading of a setting; of two without a time, the later one in the record.
const fleet::FoundSetting* lastRead(const fleet::UnitRecord& record, std::string_view setting) {
  const fleet::FoundSetting* last = nullptr;
  for (const fleet::FoundSetting& found : record.settings) {
    if (!found.value || fleet::foldedWord(found.setting) != fleet::foldedWord(setting)) continue;
    if (!last || found.readAt >= last->readAt) last = &found;
  }
  return last;
}

}  // namespace

std::vector<AsLeft> asLeft(const fleet::UnitRecord& record) {
  std::vector<AsLeft> out;
  for (const Scheduled& row : scheduled(record.unit)) {
    AsLeft left{row.setting, row.dimension, row.value, false, {}};
    if (const auto* found = lastRead(record, row.setting)) {
      left.value = found->value;
      left.read = true;
      left.readAt = found->readAt;
    }
    out.push_back(left);
  }
  return out;
}

std::vector<std::string_view> differing(const fleet::UnitRecord& record) {
  std::vector<std::string_view> out;
  for (const Scheduled& row : scheduled(record.unit)) {
    const auto* found = lastRead(record, row.setting);
    if (found && row.value && std::abs(*found->value - *row.value) > 0.005 * std::abs(*row.value))
      out.push_back(row.setting);
  }
  return out;
}

}  // namespace ductwright::report
