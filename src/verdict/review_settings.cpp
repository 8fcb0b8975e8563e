#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "review_rules.h"

// Settings as found in the controllers, compared with the schedule over the whole fleet.
namespace ductwright::verdict {
namespace {

using quantity::Dimension;

// A column of the schedule that can be read back: a quantity, or a word.
struct Setting {
  std::string_view column;
  Dimension dimension;
  std::optional<double> (*value)(const Unit&);
  std::string (*word)(const Unit&) = nullptr;
};

template <auto member>
std::optional<double> si(const Unit& u) {
  return u.*member ? std::optional((u.*member)->si()) : std::nullopt;
}
template <auto member>
std::optional<double> number(const Unit& u) {
  return u.*member ? std::optional(static_cast<double>(*(u.*member))) : std::nullopt;
}
template <auto member>
std::string enumWord(const Unit& u) {
  return std::string(name(u.*member));
}
template <auto member>
std::string textWord(const Unit& u) {
  return u.*member;
}

constexpr auto kSettings = std::to_array<Setting>({
    {"inlet diameter", Dimension::length, si<&Unit::inletDiameter>},
    {"cooling max flow", Dimension::airflow, si<&Unit::coolingMax>},
    {"cooling min flow", Dimension::airflow, si<&Unit::coolingMin>},
    {"heating max flow", Dimension::airflow, si<&Unit::heatingMax>},
    {"heating min flow", Dimension::airflow, si<&Unit::heatingMin>},
    {"reheat flow", Dimension::airflow, si<&Unit::reheat>},
    {"unoccupied flow", Dimension::airflow, si<&Unit::unoccupied>},
    {"standby flow", Dimension::airflow, si<&Unit::standby>},
    {"fan flow", Dimension::airflow, si<&Unit::fan>},
    {"hot max flow", Dimension::airflow, si<&Unit::hotMax>},
    {"hot min flow", Dimension::airflow, si<&Unit::hotMin>},
    {"ventilation min flow", Dimension::airflow, si<&Unit::ventilationMin>},
    {"heater power", Dimension::power, si<&Unit::heaterPower>},
    {"heater stages", Dimension::count, number<&Unit::heaterStages>},
    {"heat enable ratio", Dimension::number, number<&Unit::heatEnableRatio>},
    {"coil water flow", Dimension::waterFlow, si<&Unit::coilWaterFlow>},
    {"coil entering water temperature", Dimension::temperature, si<&Unit::coilEnteringWater>},
    {"design entering air temperature", Dimension::temperature, si<&Unit::designEnteringAir>},
    {"design discharge temperature", Dimension::temperature, si<&Unit::designDischarge>},
    {"discharge limit", Dimension::temperature, si<&Unit::dischargeLimit>},
    {"zone heating setpoint", Dimension::temperature, si<&Unit::zoneHeatingSetpoint>},
    {"zone cooling setpoint", Dimension::temperature, si<&Unit::zoneCoolingSetpoint>},
    {"flow coefficient", Dimension::flowCoefficient, si<&Unit::flowCoefficient>},
    {"stroke time", Dimension::duration, si<&Unit::strokeTime>},
    {"mac address", Dimension::count, number<&Unit::macAddress>},
    {"device instance", Dimension::count, number<&Unit::deviceInstance>},
    {"kind", Dimension::number, nullptr, enumWord<&Unit::kind>},
    {"heat", Dimension::number, nullptr, enumWord<&Unit::heat>},
    {"heater position", Dimension::number, nullptr, enumWord<&Unit::heaterPosition>},
    {"flow basis", Dimension::number, nullptr, enumWord<&Unit::flowBasis>},
    {"air handler", Dimension::number, nullptr, textWord<&Unit::airHandler>},
    {"zone", Dimension::number, nullptr, textWord<&Unit::zone>},
    {"controller profile", Dimension::number, nullptr, textWord<&Unit::profile>},
    {"room sensor", Dimension::number, nullptr, textWord<&Unit::roomSensor>},
    {"network segment", Dimension::number, nullptr, textWord<&Unit::segment>},
});

// By folded column name, so that "Cooling_Max-Flow" and "cooling max flow" are one.
const Setting* settingFor(std::string_view column) {
  static const std::map<std::string, const Setting*> byColumn = [] {
    std::map<std::string, const Setting*> out;
    for (const Setting& s : kSettings) out.emplace(fleet::foldedWord(s.column), &s);
    return out;
  }();
  const auto it = byColumn.find(fleet::foldedWord(column));
  return it == byColumn.end() ? nullptr : it->second;
}

// See SettingDifference: the zero of a temperature scale says nothing.
double changeOf(double scheduled, double found, Dimension dimension) {
  if (dimension == Dimension::temperature) return (found - scheduled) / 10;
  if (scheduled == 0 || found == 0) return found > scheduled ? 1 : -1;
  return found / scheduled - 1;
}

bool rounding(double scheduled, double found, Dimension dimension, const Review& review) {
  if (dimension == Dimension::count) return scheduled == found;
  const quantity::Unit& unit = quantity::unitFor(dimension, review.project.system);
  const double digit = std::pow(10.0, -unit.decimals) * unit.factor;
  const double share =
      dimension == Dimension::temperature ? 0 : review.limits.settingRounding * std::abs(scheduled);
  return std::abs(found - scheduled) <= std::max(share, digit * 0.5000001);
}

std::optional<SettingDifference> difference(const Review& review, const Unit& u,
                                            const fleet::FoundSetting& found) {
  const Setting* setting = settingFor(found.setting);
  if (!setting) return std::nullopt;
  SettingDifference out{.unit = u.id,
                        .tag = u.tag,
                        .setting = std::string(setting->column),
                        .scheduled = {},
                        .found = {},
                        .change = 0,
                        .readAt = found.readAt};
  if (setting->word) {
    out.scheduled = setting->word(u);
    out.found = found.typed;
    out.change = 1;
    const bool same =
        out.scheduled.empty() || fleet::foldedWord(out.scheduled) == fleet::foldedWord(out.found);
    return same ? std::nullopt : std::optional(out);
  }
  const auto scheduled = setting->value(u);
  if (!scheduled || !found.value || rounding(*scheduled, *found.value, setting->dimension, review))
    return std::nullopt;
  out.scheduled = quantity::write(*scheduled, setting->dimension, review.project.system);
  out.found = quantity::write(*found.value, setting->dimension, review.project.system);
  out.change = changeOf(*scheduled, *found.value, setting->dimension);
  return out;
}

// The latest reading of each setting of a unit, in the order of their first mention.
std::vector<const fleet::FoundSetting*> latestSettings(const UnitRecord& record) {
  std::vector<const fleet::FoundSetting*> out;
  for (const fleet::FoundSetting& s : record.settings) {
    const auto same = std::find_if(out.begin(), out.end(), [&](const auto* o) {
      return fleet::foldedWord(o->setting) == fleet::foldedWord(s.setting);
    });
    if (same == out.end()) {
      out.push_back(&s);
    } else if (!(*same)->readAt || (s.readAt && *s.readAt >= *(*same)->readAt)) {
      *same = &s;
    }
  }
  return out;
}

std::vector<SettingDifference> differencesIn(const Review& review) {
  std::vector<SettingDifference> out;
  for (const auto& record : review.project.units)
    for (const fleet::FoundSetting* found : latestSettings(*record))
      if (auto d = difference(review, record->unit, *found)) out.push_back(std::move(*d));
  std::stable_sort(out.begin(), out.end(),
                   [](const auto& a, const auto& b) { return std::abs(a.change) > std::abs(b.change); });
  return out;
}

}  // namespace

std::vector<SettingDifference> settingDifferences(const Snapshot& project, const ReviewLimits& limits) {
  return differencesIn(Review(project, limits));
}

void reviewSettings(Review& review) {
  for (const SettingDifference& d : differencesIn(review)) {
    Finding& f =
        review.find(Rule::settingDiffers, d.tag, "The controller's " + d.setting + " is not the schedule's.",
                    "found " + d.found + ", scheduled " + d.scheduled +
                        (d.readAt ? ", read " + d.readAt->shortText() : ""));
    f.unitId = d.unit;
    if (std::abs(d.change) > review.limits.settingMajor) f.severity = fleet::Severity::major;
  }
}

}  // namespace ductwright::verdict
