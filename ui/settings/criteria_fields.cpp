#include "ui/settings/criteria_fields.h"

#include <QtGlobal>
#include <array>
#include <type_traits>

namespace ductwright::ui {
namespace {

using fleet::Criteria;
using enum quantity::Dimension;

template <auto member>
constexpr CriteriaField field(const char* group, const char* label, quantity::Dimension dimension) {
  using Value = std::remove_cvref_t<decltype(std::declval<Criteria>().*member)>;
  return {group, label, dimension,
          [](const Criteria& criteria) -> double {
            if constexpr (std::is_arithmetic_v<Value>) return criteria.*member;
            else return (criteria.*member).si();
          },
          [](Criteria& criteria, double si) {
            if constexpr (std::is_arithmetic_v<Value>) criteria.*member = si;
            else criteria.*member = Value::fromSi(si);
          }};
}

constexpr const char* kFlow = QT_TRANSLATE_NOOP("criteria", "Airflow");
constexpr const char* kLockout = QT_TRANSLATE_NOOP("criteria", "Reheat lockout");
constexpr const char* kRise = QT_TRANSLATE_NOOP("criteria", "Discharge rise");
constexpr const char* kDecision = QT_TRANSLATE_NOOP("criteria", "Decision");
constexpr const char* kDefault = QT_TRANSLATE_NOOP("criteria", "Readings without an instrument");
constexpr const char* kWait = QT_TRANSLATE_NOOP("criteria", "Waits");

constexpr auto kFields = std::to_array<CriteriaField>({
    field<&Criteria::flowLow>(kFlow, QT_TRANSLATE_NOOP("criteria", "Below design, share"), ratio),
    field<&Criteria::flowHigh>(kFlow, QT_TRANSLATE_NOOP("criteria", "Above design, share"), ratio),
    field<&Criteria::flowFloor>(kFlow, QT_TRANSLATE_NOOP("criteria", "Either side, at least"), airflow),
    field<&Criteria::reportedShare>(kFlow, QT_TRANSLATE_NOOP("criteria", "Reported from measured, share"), ratio),
    field<&Criteria::reportedFloor>(kFlow, QT_TRANSLATE_NOOP("criteria", "Reported from measured, at least"), airflow),
    field<&Criteria::leastControllable>(kFlow, QT_TRANSLATE_NOOP("criteria", "Least controllable pressure"), pressure),
    field<&Criteria::starvedDamper>(kFlow, QT_TRANSLATE_NOOP("criteria", "Starved: damper open at least"), ratio),
    field<&Criteria::largestCorrection>(kFlow, QT_TRANSLATE_NOOP("criteria", "Largest coefficient correction"), ratio),
    field<&Criteria::heatEnableRatio>(kLockout, QT_TRANSLATE_NOOP("criteria", "Heat enable ratio"), ratio),
    field<&Criteria::lockoutFlowTolerance>(kLockout, QT_TRANSLATE_NOOP("criteria", "Flow tolerance"), ratio),
    field<&Criteria::lockoutReportedShare>(kLockout, QT_TRANSLATE_NOOP("criteria", "Accuracy of a reported flow"), ratio),
    field<&Criteria::riseShare>(kRise, QT_TRANSLATE_NOOP("criteria", "From the expected rise, share"), ratio),
    field<&Criteria::riseFloor>(kRise, QT_TRANSLATE_NOOP("criteria", "From the expected rise, at least"), temperatureDifference),
    field<&Criteria::limitAboveSetpoint>(kRise, QT_TRANSLATE_NOOP("criteria", "Discharge above heating setpoint"), temperatureDifference),
    field<&Criteria::ventilationNote>(kRise, QT_TRANSLATE_NOOP("criteria", "Ventilation noted above"), temperatureDifference),
    field<&Criteria::coldWhenOff>(kRise, QT_TRANSLATE_NOOP("criteria", "Cold when off, within"), temperatureDifference),
    field<&Criteria::nameplateShare>(kRise, QT_TRANSLATE_NOOP("criteria", "Accuracy of a nameplate"), ratio),
    field<&Criteria::coilModelShare>(kRise, QT_TRANSLATE_NOOP("criteria", "Accuracy of the coil model"), ratio),
    field<&Criteria::valveOpen>(kRise, QT_TRANSLATE_NOOP("criteria", "Valve counts as open from"), ratio),
    field<&Criteria::capabilityRatio>(kDecision, QT_TRANSLATE_NOOP("criteria", "Instrument capable up to, of the half-width"), ratio),
    field<&Criteria::guardLow>(kDecision, QT_TRANSLATE_NOOP("criteria", "Guarded rule fails at conformity"), ratio),
    field<&Criteria::guardHigh>(kDecision, QT_TRANSLATE_NOOP("criteria", "Guarded rule passes at conformity"), ratio),
    field<&Criteria::closeLow>(kDecision, QT_TRANSLATE_NOOP("criteria", "Close from conformity"), ratio),
    field<&Criteria::closeHigh>(kDecision, QT_TRANSLATE_NOOP("criteria", "Close to conformity"), ratio),
    field<&Criteria::defaultFlowShare>(kDefault, QT_TRANSLATE_NOOP("criteria", "Flow, share of reading"), ratio),
    field<&Criteria::defaultTemperature>(kDefault, QT_TRANSLATE_NOOP("criteria", "Temperature"), temperatureDifference),
    field<&Criteria::defaultPowerShare>(kDefault, QT_TRANSLATE_NOOP("criteria", "Power, share of reading"), ratio),
    field<&Criteria::sameInstrument>(kDefault, QT_TRANSLATE_NOOP("criteria", "Resolution, one instrument twice"), temperatureDifference),
    field<&Criteria::humidityRatio>(kDefault, QT_TRANSLATE_NOOP("criteria", "Humidity ratio"), number),
    field<&Criteria::strokeUnknown>(kWait, QT_TRANSLATE_NOOP("criteria", "Stroke time where unknown"), duration),
    field<&Criteria::settle>(kWait, QT_TRANSLATE_NOOP("criteria", "Settling after the stroke"), duration),
    field<&Criteria::lockoutWait>(kWait, QT_TRANSLATE_NOOP("criteria", "Lockout point"), duration),
    field<&Criteria::heatOnWait>(kWait, QT_TRANSLATE_NOOP("criteria", "Heat on or forced"), duration),
    field<&Criteria::heatOffWaterWait>(kWait, QT_TRANSLATE_NOOP("criteria", "Heat off, hot water"), duration),
    field<&Criteria::heatOffElectricWait>(kWait, QT_TRANSLATE_NOOP("criteria", "Heat off, electric"), duration),
});

}  // namespace

std::span<const CriteriaField> criteriaFields() { return kFields; }

}  // namespace ductwright::ui
