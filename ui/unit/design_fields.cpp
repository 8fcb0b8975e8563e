#include "ui/unit/design_fields.h"

#include <QtGlobal>
#include <array>
#include <cmath>
#include <type_traits>

namespace ductwright::ui {
namespace {

using fleet::Unit;
using quantity::Dimension;

// One row of the table for an optional quantity, count or number of a unit.
template <auto member>
constexpr DesignNumber number(const char* label, Dimension dimension) {
  using Value = typename std::remove_cvref_t<decltype(std::declval<Unit>().*member)>::value_type;
  return {label, dimension,
          [](const Unit& unit) -> std::optional<double> {
            const auto& value = unit.*member;
            if (!value) return std::nullopt;
            if constexpr (std::is_arithmetic_v<Value>) return static_cast<double>(*value);
            else return value->si();
          },
          [](Unit& unit, std::optional<double> si) {
            if (!si) (unit.*member).reset();
            else if constexpr (std::is_floating_point_v<Value>) unit.*member = static_cast<Value>(*si);
            else if constexpr (std::is_integral_v<Value>) unit.*member = static_cast<Value>(std::llround(*si));
            else unit.*member = Value::fromSi(*si);
          }};
}

constexpr auto kNumbers = std::to_array<DesignNumber>({
    number<&Unit::inletDiameter>(QT_TRANSLATE_NOOP("design", "Inlet diameter"), Dimension::length),
    number<&Unit::coolingMax>(QT_TRANSLATE_NOOP("design", "Cooling max flow"), Dimension::airflow),
    number<&Unit::coolingMin>(QT_TRANSLATE_NOOP("design", "Cooling min flow"), Dimension::airflow),
    number<&Unit::heatingMax>(QT_TRANSLATE_NOOP("design", "Heating max flow"), Dimension::airflow),
    number<&Unit::heatingMin>(QT_TRANSLATE_NOOP("design", "Heating min flow"), Dimension::airflow),
    number<&Unit::reheat>(QT_TRANSLATE_NOOP("design", "Reheat flow"), Dimension::airflow),
    number<&Unit::fan>(QT_TRANSLATE_NOOP("design", "Fan flow"), Dimension::airflow),
    number<&Unit::hotMax>(QT_TRANSLATE_NOOP("design", "Hot max flow"), Dimension::airflow),
    number<&Unit::hotMin>(QT_TRANSLATE_NOOP("design", "Hot min flow"), Dimension::airflow),
    number<&Unit::ventilationMin>(QT_TRANSLATE_NOOP("design", "Ventilation min flow"), Dimension::airflow),
    number<&Unit::unoccupied>(QT_TRANSLATE_NOOP("design", "Unoccupied flow"), Dimension::airflow),
    number<&Unit::standby>(QT_TRANSLATE_NOOP("design", "Standby flow"), Dimension::airflow),
    number<&Unit::heaterPower>(QT_TRANSLATE_NOOP("design", "Heater power"), Dimension::power),
    number<&Unit::heaterStages>(QT_TRANSLATE_NOOP("design", "Heater stages"), Dimension::count),
    number<&Unit::heatEnableRatio>(QT_TRANSLATE_NOOP("design", "Heat enable ratio"), Dimension::ratio),
    number<&Unit::coilWaterFlow>(QT_TRANSLATE_NOOP("design", "Coil water flow"), Dimension::waterFlow),
    number<&Unit::coilEnteringWater>(QT_TRANSLATE_NOOP("design", "Coil entering water"), Dimension::temperature),
    number<&Unit::designEnteringAir>(QT_TRANSLATE_NOOP("design", "Entering air"), Dimension::temperature),
    number<&Unit::designDischarge>(QT_TRANSLATE_NOOP("design", "Discharge air"), Dimension::temperature),
    number<&Unit::dischargeLimit>(QT_TRANSLATE_NOOP("design", "Discharge limit"), Dimension::temperature),
    number<&Unit::zoneHeatingSetpoint>(QT_TRANSLATE_NOOP("design", "Zone heating setpoint"), Dimension::temperature),
    number<&Unit::zoneCoolingSetpoint>(QT_TRANSLATE_NOOP("design", "Zone cooling setpoint"), Dimension::temperature),
    number<&Unit::flowCoefficient>(QT_TRANSLATE_NOOP("design", "Flow coefficient"), Dimension::flowCoefficient),
    number<&Unit::strokeTime>(QT_TRANSLATE_NOOP("design", "Stroke time"), Dimension::duration),
    number<&Unit::macAddress>(QT_TRANSLATE_NOOP("design", "MAC address"), Dimension::count),
    number<&Unit::deviceInstance>(QT_TRANSLATE_NOOP("design", "Device instance"), Dimension::count),
});

constexpr auto kTexts = std::to_array<DesignText>({
    {QT_TRANSLATE_NOOP("design", "Tag"), &Unit::tag},
    {QT_TRANSLATE_NOOP("design", "Floor"), &Unit::floor},
    {QT_TRANSLATE_NOOP("design", "Zone"), &Unit::zone},
    {QT_TRANSLATE_NOOP("design", "Air handler"), &Unit::airHandler},
    {QT_TRANSLATE_NOOP("design", "Controller profile"), &Unit::profile},
    {QT_TRANSLATE_NOOP("design", "Room sensor"), &Unit::roomSensor},
    {QT_TRANSLATE_NOOP("design", "Network segment"), &Unit::segment},
});

}  // namespace

std::span<const DesignNumber> designNumbers() { return kNumbers; }
std::span<const DesignText> designTexts() { return kTexts; }

}  // namespace ductwright::ui
