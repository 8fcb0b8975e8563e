#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "verdict/verdict.h"

// The causes that failing checks point to, and who mends them.
namespace ductwright::verdict {

enum class Cause : std::uint8_t {
  starved,         // short of air with the damper open
  flowReading,     // the controller reports another flow than was measured
  hotFlowReading,  // the same at the hot inlet
  flowSetpoint,    // the controller holds, and reports, another flow than the design
  flowOff,         // a measured flow off for a reason that the readings do not tell
  fanFlow,
  primaryOverFan,    // a series fan moves less than its primary air
  heatWithoutAir,    // heat on below its airflow threshold
  heatWhenOff,       // heat without a call: a stuck contactor, a leaking valve
  lockoutThreshold,  // heat held off at enough air, on at more
  noHeat,
  lowHeat,
  highRise,
  dischargeLimit,
  temperatureSensors,  // colder than the entering air with the heat off
};
inline constexpr std::size_t kCauses = 15;

struct CauseFacts {
  std::string_view key;  // stable
  fleet::Party party;
  fleet::Severity severity;
  std::string_view what;                 // what is wrong
  std::array<std::string_view, 3> look;  // where to look, in this order
};

// What a failing check points to, seen beside the unit's other checks, notes and readings.
Cause causeOf(const Check& failed, const UnitVerdict& verdict, const UnitRecord& record);
CauseFacts factsOf(Cause cause, const UnitVerdict& verdict, const Unit& unit);

}  // namespace ductwright::verdict
