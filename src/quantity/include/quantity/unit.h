#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "quantity/result.h"

namespace ductwright::quantity {

enum class System : std::uint8_t { ip, si };

enum class Dimension : std::uint8_t {
  airflow,
  velocity,
  pressure,
  temperature,
  temperatureDifference,
  power,
  length,
  elevation,
  area,
  duration,
  waterFlow,
  flowCoefficient,
  ratio,   // 1 inside; percent at the edge, and third in the list the bare fraction
  count,   // a whole number
  flag,    // 0 or 1, no or yes
  number,  // a bare number
};

// A unit of measure: si = (typed + offset) * factor.
struct Unit {
  Dimension dimension;
  std::string_view symbol;    // as written: "cfm", "in. w.g.", "°F"
  std::string_view spelling;  // other ways to type it, separated by blanks, each lower case without blanks or dots
  double factor;
  double offset;
  int decimals;  // sensible decimals when written
};

// All units that can be typed for a dimension, the I-P one first, then the SI one.
std::span<const Unit> unitsOf(Dimension dimension);

// The unit in which a project of this system shows a dimension.
const Unit& unitFor(Dimension dimension, System system);

// The unit that `text` names ("CFM", "l/s", "in. w.g."), without regard to case, blanks, dots; null when unknown.
// A flow's basis is not a unit: "scfm" is unknown, since nothing here could keep what its first letter says.
const Unit* findUnit(Dimension dimension, std::string_view text);

constexpr double toSi(double typed, const Unit& unit) { return (typed + unit.offset) * unit.factor; }
constexpr double fromSi(double si, const Unit& unit) { return si / unit.factor - unit.offset; }

struct Typed {
  double si = 0;
  const Unit* unit = nullptr;
  bool unitWasTyped = false;
};

// Reads "450 cfm", "0.21 m3/s", "1,250", "12 %", "0,5 kPa" (the last only where `decimalComma`).
// Without a unit in the text, `otherwise` holds. Never guesses: text after the number that is not a unit
// of the dimension is a failure that names what was found and what is understood. A bare ratio is in `otherwise`,
// which is percent in both systems.
Result<Typed> readQuantity(std::string_view text, Dimension dimension, const Unit& otherwise,
                           bool decimalComma = false);
Result<Typed> readQuantity(std::string_view text, Dimension dimension, System system);

// Reads a bare number exactly ("1,250.5", "-3e2"; with `decimalComma` "1.250,5"). Nothing when it is not one, or
// when its marks leave a doubt: "1,25" and "0,500" are neither thousands nor, without `decimalComma`, decimals.
std::optional<double> readNumber(std::string_view text, bool decimalComma = false);

// "450 cfm": the number with the unit's sensible decimals, a blank and the symbol.
std::string write(double si, Dimension dimension, System system);
std::string write(double si, const Unit& unit);
// The number alone, with the unit's sensible decimals; never "-0".
std::string writeNumber(double si, const Unit& unit);
// The number alone, for files, with the fewest digits that read back to the same value; where `unit` has no number
// that does (a value that was never typed in it), the nearest.
std::string writeExact(double si, const Unit& unit);

std::string_view name(Dimension dimension);
std::string_view name(System system);

}  // namespace ductwright::quantity
