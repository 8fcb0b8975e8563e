#include "quantity/unit.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <vector>

#include "quantity/quantity.h"

namespace ductwright::quantity {
namespace {

using enum Dimension;

// Rows of one dimension stand together, the I-P unit first, the SI unit second.
constexpr auto kUnits = std::to_array<Unit>({
    {airflow, "cfm", "ft3/min cuft/min cubicfeetperminute acfm scfm", kCfm, 0, 0},
    {airflow, "L/s", "lps litres/s liters/s dm3/s", 1e-3, 0, 1},
    {airflow, "m³/s", "m3/s cms", 1, 0, 4},
    {airflow, "m³/h", "m3/h cmh m3/hr", 1.0 / 3600, 0, 0},
    {velocity, "fpm", "ft/min feet/min", kFpm, 0, 0},
    {velocity, "m/s", "mps", 1, 0, 2},
    {pressure, "in. w.g.", "inwg inwc inh2o inchwg inchwc inch inches in \"wg \"wc \"", kInchOfWater, 0, 3},
    {pressure, "Pa", "pascal pascals", 1, 0, 1},
    {pressure, "kPa", "kilopascal", 1e3, 0, 3},
    {pressure, "psi", "", 6894.757293168, 0, 2},
    {pressure, "mm w.g.", "mmwg mmwc mmh2o", 9.80665, 0, 2},
    {pressure, "mbar", "hpa", 100, 0, 2},
    {temperature, "°F", "f degf deg.f fahrenheit", kFahrenheitDegree, 459.67, 1},
    {temperature, "°C", "c degc celsius", 1, 273.15, 1},
    {temperature, "K", "kelvin", 1, 0, 2},
    {temperatureDifference, "Δ°F", "f °f degf fahrenheit df deltaf Δf f° fdeg", kFahrenheitDegree, 0, 1},
    {temperatureDifference, "K", "kelvin c °c degc celsius dc dk deltac deltak Δ°c Δc Δk", 1, 0, 1},
    {power, "kW", "kilowatt kilowatts", 1e3, 0, 2},
    {power, "kW", "kilowatt kilowatts", 1e3, 0, 2},
    {power, "W", "watt watts", 1, 0, 0},
    {power, "Btu/h", "btuh btu/hr", kBtuPerHour, 0, 0},
    {power, "MBH", "mbtuh kbtu/h kbtuh", 1e3 * kBtuPerHour, 0, 2},
    {length, "in.", "in inch inches \"", kInch, 0, 2},
    {length, "mm", "millimetre millimeter", 1e-3, 0, 0},
    {length, "cm", "", 1e-2, 0, 1},
    {length, "m", "metre meter", 1, 0, 3},
    {length, "ft", "foot feet '", kFoot, 0, 2},
    {elevation, "ft", "foot feet '", kFoot, 0, 0},
    {elevation, "m", "metre meter metres meters", 1, 0, 0},
    {area, "ft²", "ft2 sqft", kFoot * kFoot, 0, 3},
    {area, "m²", "m2 sqm", 1, 0, 4},
    {area, "in²", "in2 sqin", kInch * kInch, 0, 1},
    {duration, "s", "sec second seconds", 1, 0, 0},
    {duration, "s", "sec second seconds", 1, 0, 0},
    {duration, "min", "minute minutes", 60, 0, 1},
    {duration, "h", "hr hour hours", 3600, 0, 2},
    {waterFlow, "gpm", "usgpm gal/min", kGpm, 0, 2},
    {waterFlow, "L/s", "lps", 1e-3, 0, 3},
    {waterFlow, "L/min", "lpm", 1e-3 / 60, 0, 2},
    {waterFlow, "m³/h", "m3/h", 1.0 / 3600, 0, 3},
    {waterFlow, "m³/s", "m3/s", 1, 0, 6},
    // Q = K √Δp: cfm at 1 in. w.g., or m³/s at 1 Pa.
    {flowCoefficient, "cfm/√in. w.g.", "cfm cfm/√inwg cfm/sqrt(inwg) cfm@1inwg cfmat1inwg", kCfm / 15.782550792, 0, 0},
    {flowCoefficient, "L/s/√Pa", "l/s/sqrt(pa) l/s l/s@1pa l/sat1pa", 1e-3, 0, 2},
    {flowCoefficient, "m³/s/√Pa", "m3/s/sqrt(pa) m3/s/√pa m3/s m3/s@1pa m3/sat1pa", 1, 0, 5},
    {ratio, "%", "percent pct", 1e-2, 0, 1},
    {ratio, "%", "percent pct", 1e-2, 0, 1},
    {count, "", "", 1, 0, 0},
    {count, "", "", 1, 0, 0},
    {flag, "", "", 1, 0, 0},
    {flag, "", "", 1, 0, 0},
    {number, "", "", 1, 0, 3},
    {number, "", "", 1, 0, 3},
});

// Lower case, without blanks and dots, with the typographic forms folded to the plain ones.
std::string folded(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto c = static_cast<unsigned char>(text[i]);
    if (c == ' ' || c == '\t' || c == '.' || c == '_' || c == '[' || c == ']') continue;
    if (c == 0xC2 && i + 1 < text.size()) {
      const auto d = static_cast<unsigned char>(text[i + 1]);
      if (d == 0xB2 || d == 0xB3) {  // ² ³
        out += d == 0xB2 ? '2' : '3';
        ++i;
        continue;
      }
      if (d == 0xA0) {  // no-break space
        ++i;
        continue;
      }
    }
    out += static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
  }
  return out;
}

bool spells(const Unit& unit, std::string_view wanted) {
  if (folded(unit.symbol) == wanted) return true;
  std::string_view rest = unit.spelling;
  while (!rest.empty()) {
    const auto blank = rest.find(' ');
    if (rest.substr(0, blank) == wanted) return true;
    if (blank == std::string_view::npos) break;
    rest.remove_prefix(blank + 1);
  }
  return false;
}

std::string_view trimmed(std::string_view text) {
  const auto blank = [](char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; };
  while (!text.empty() && blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && blank(text.back())) text.remove_suffix(1);
  return text;
}

bool digit(char c) { return c >= '0' && c <= '9'; }

// The length of the leading number in `text`, with its grouping and decimals.
std::size_t numberLength(std::string_view text, bool decimalComma) {
  const char decimal = decimalComma ? ',' : '.';
  const char group = decimalComma ? '.' : ',';
  std::size_t i = 0;
  if (i < text.size() && (text[i] == '+' || text[i] == '-')) ++i;
  while (i < text.size() && (digit(text[i]) || (text[i] == group && i > 0 && i + 1 < text.size() &&
                                                digit(text[i - 1]) && digit(text[i + 1]))))
    ++i;
  if (i < text.size() && text[i] == decimal && ((i + 1 < text.size() && digit(text[i + 1])) || (i > 0 && digit(text[i - 1])))) {
    ++i;
    while (i < text.size() && digit(text[i])) ++i;
  }
  if (i > 0 && i + 1 < text.size() && (text[i] == 'e' || text[i] == 'E')) {
    std::size_t j = i + 1;
    if (j + 1 < text.size() && (text[j] == '+' || text[j] == '-')) ++j;
    if (digit(text[j])) {
      while (j < text.size() && digit(text[j])) ++j;
      i = j;
    }
  }
  return i;
}

std::string understood(Dimension dimension) {
  std::string out;
  std::string_view last;
  for (const Unit& unit : unitsOf(dimension)) {
    if (unit.symbol.empty() || unit.symbol == last) continue;
    if (!out.empty()) out += ", ";
    out += last = unit.symbol;
  }
  return out;
}

Result<Typed> readFlag(std::string_view text, const Unit& unit) {
  const std::string word = folded(text);
  for (const auto* yes : {"1", "yes", "y", "true", "on"})
    if (word == yes) return Typed{1, &unit, false};
  for (const auto* no : {"0", "no", "n", "false", "off"})
    if (word == no) return Typed{0, &unit, false};
  return failure("“" + std::string(text) + "” is neither yes nor no: write 1 or 0");
}

}  // namespace

std::span<const Unit> unitsOf(Dimension dimension) {
  const auto first = std::find_if(kUnits.begin(), kUnits.end(), [&](const Unit& u) { return u.dimension == dimension; });
  const auto last = std::find_if(first, kUnits.end(), [&](const Unit& u) { return u.dimension != dimension; });
  return {first, last};
}

const Unit& unitFor(Dimension dimension, System system) {
  return unitsOf(dimension)[system == System::ip ? 0 : 1];
}

const Unit* findUnit(Dimension dimension, std::string_view text) {
  const std::string wanted = folded(text);
  if (wanted.empty()) return nullptr;
  for (const Unit& unit : unitsOf(dimension))
    if (spells(unit, wanted)) return &unit;
  return nullptr;
}

std::optional<double> readNumber(std::string_view text, bool decimalComma) {
  text = trimmed(text);
  if (text.empty() || numberLength(text, decimalComma) != text.size()) return std::nullopt;
  std::array<char, 64> plain{};
  std::size_t n = 0;
  // Digits between group marks must come in threes, else "1,25" would silently read as 125.
  const char group = decimalComma ? '.' : ',';
  std::size_t lastGroup = std::string_view::npos;
  const std::size_t integerEnd = std::min(text.find(decimalComma ? ',' : '.'), text.find_first_of("eE"));
  for (std::size_t i = 0; i < text.size(); ++i) {
    char c = text[i];
    if (c == group) {
      if (lastGroup != std::string_view::npos ? i - lastGroup != 4 : i == 0 || i > 4 || !digit(text[i - 1]))
        return std::nullopt;
      lastGroup = i;
      continue;
    }
    if (decimalComma && c == ',') c = '.';
    if (c == '+' && i == 0) continue;
    if (n == plain.size()) return std::nullopt;
    plain[n++] = c;
  }
  if (lastGroup != std::string_view::npos && std::min(integerEnd, text.size()) - lastGroup != 4) return std::nullopt;
  double value = 0;
  const auto [end, error] = std::from_chars(plain.data(), plain.data() + n, value);
  if (error != std::errc{} || end != plain.data() + n || !std::isfinite(value)) return std::nullopt;
  return value;
}

Result<Typed> readQuantity(std::string_view text, Dimension dimension, const Unit& otherwise, bool decimalComma) {
  text = trimmed(text);
  if (text.empty()) return failure("nothing was typed: give a number");
  if (dimension == flag) return readFlag(text, otherwise);
  const std::size_t length = numberLength(text, decimalComma);
  const auto value = readNumber(text.substr(0, length), decimalComma);
  if (!value) return failure("“" + std::string(text) + "” is not a number");
  const std::string_view rest = trimmed(text.substr(length));
  const Unit* unit = rest.empty() ? &otherwise : findUnit(dimension, rest);
  if (unit == nullptr)
    return failure("“" + std::string(rest) + "” is not a unit of " + std::string(name(dimension)) + ": use " +
                   (understood(dimension).empty() ? "a bare number" : understood(dimension)));
  if (dimension == count && (*value != std::floor(*value) || std::abs(*value) > 9e15))
    return failure("“" + std::string(text) + "” is not a whole number");
  const double si = toSi(*value, *unit);
  if (!std::isfinite(si)) return failure("“" + std::string(text) + "” is too large to be a number");
  return Typed{si, unit, !rest.empty()};
}

Result<Typed> readQuantity(std::string_view text, Dimension dimension, System system) {
  return readQuantity(text, dimension, unitFor(dimension, system));
}

std::string writeNumber(double si, const Unit& unit) {
  std::array<char, 400> buffer{};
  const double value = fromSi(si, unit);
  const auto [end, error] =
      std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed, unit.decimals);
  std::string out(buffer.data(), error == std::errc{} ? end : buffer.data());
  if (out.starts_with('-') && out.find_first_not_of("-0.") == std::string::npos) out.erase(0, 1);
  return out;
}

std::string write(double si, const Unit& unit) {
  std::string out = writeNumber(si, unit);
  if (!unit.symbol.empty()) (out += ' ') += unit.symbol;
  return out;
}

std::string write(double si, Dimension dimension, System system) {
  if (dimension == flag) return si != 0 ? "yes" : "no";
  return write(si, unitFor(dimension, system));
}

std::string writeExact(double si, const Unit& unit) {
  std::array<char, 64> buffer{};
  for (int precision = 6; precision <= 17; ++precision) {
    const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), fromSi(si, unit),
                                            std::chars_format::general, precision);
    double back = 0;
    std::from_chars(buffer.data(), end, back);
    if (toSi(back, unit) == si || precision == 17) return {buffer.data(), end};
  }
  return {};
}

std::string_view name(Dimension dimension) {
  switch (dimension) {
    case airflow: return "airflow";
    case velocity: return "velocity";
    case pressure: return "pressure";
    case temperature: return "temperature";
    case temperatureDifference: return "temperature difference";
    case power: return "power";
    case length: return "length";
    case elevation: return "elevation";
    case area: return "area";
    case duration: return "time";
    case waterFlow: return "water flow";
    case flowCoefficient: return "flow coefficient";
    case ratio: return "ratio";
    case count: return "whole number";
    case flag: return "yes or no";
    case number: return "number";
  }
  return "";
}

std::string_view name(System system) { return system == System::ip ? "ip" : "si"; }

}  // namespace ductwright::quantity
