#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "quantity/unit.h"

// The closed word lists of the trade, with the words as they stand in files and on screen.
// `name(x)` gives the word (empty for a number that is no value); `read<Enum>(text)` the value, without regard to case, blanks, `_` and `-`.
namespace ductwright::fleet {

enum class UnitKind : std::uint8_t { coolingOnly, reheat, parallelFan, seriesFan, dualDuct, exhaust };
enum class HeatKind : std::uint8_t { none, hotWater, electricStaged, electricModulating };
enum class HeaterPosition : std::uint8_t { discharge, plenumInlet };
enum class FlowBasis : std::uint8_t { actual, standard };

enum class Procedure : std::uint8_t { airflow, reheatLockout, dischargeRise };
enum class AirflowStep : std::uint8_t {
  coolingMax, coolingMin, heatingMax, heatingMin, reheat, hotMax, hotMin, fan, shut
};
enum class RiseStep : std::uint8_t { heatOn, heatForced, heatOff };

enum class ReadingQuantity : std::uint8_t {
  measuredFlow, outletFlow, reportedFlow, flowSetpoint, fanFlow, damperPosition, inletPressureDifference,
  ductStaticPressure, heatSignal, heatCall, heatOn, stagesOn, valvePosition, fanOn, mode, supplyAirTemperature,
  primaryAirTemperature, plenumAirTemperature, enteringAirTemperature, dischargeAirTemperature, zoneTemperature,
  heaterPower, enteringWaterTemperature, leavingWaterTemperature, waterFlow
};
inline constexpr std::size_t kReadingQuantities = 25;

enum class Role : std::uint8_t { agent, reviewer, ownersRepresentative, contractor };
enum class Party : std::uint8_t {
  designEngineer, mechanicalContractor, controlsContractor, electricalContractor, balancer, agent
};
enum class Severity : std::uint8_t { safety, major, moderate, minor };
enum class DeficiencyState : std::uint8_t {
  raised, accepted, disputed, workReported, awaitingRetest, proven, withdrawn
};
enum class Custody : std::uint8_t { unknown, controller, frontEnd };  // who holds schedules, trends, alarms

std::string_view name(UnitKind);
std::string_view name(HeatKind);
std::string_view name(HeaterPosition);
std::string_view name(FlowBasis);
std::string_view name(Procedure);
std::string_view name(AirflowStep);
std::string_view name(RiseStep);
std::string_view name(ReadingQuantity);
std::string_view name(Role);
std::string_view name(Party);
std::string_view name(Severity);
std::string_view name(DeficiencyState);
std::string_view name(Custody);

// Every value of a closed list, in its order.
template <class Enum>
std::span<const Enum> valuesOf();

template <class Enum>
std::optional<Enum> read(std::string_view text);

// The dimension in which a quantity is typed: `mode` is a number.
quantity::Dimension dimensionOf(ReadingQuantity);

// A step of a procedure: an AirflowStep, a RiseStep, or the number that groups one lockout point; empty for a
// negative number, which is no point.
std::string stepName(Procedure, int step);
std::optional<int> readStep(Procedure, std::string_view text);
constexpr int code(AirflowStep s) { return static_cast<int>(s); }
constexpr int code(RiseStep s) { return static_cast<int>(s); }

// Lower case, without blanks, `_`, `-` and byte-order mark, apostrophes straight: how headers and words are compared.
std::string foldedWord(std::string_view text);

}  // namespace ductwright::fleet
