#include "quantity/unit.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <string_view>

#include "quantity/quantity.h"

namespace ductwright::quantity {
namespace {

using enum Dimension;

// Dimensions in their own order, and in each the I-P unit first, the SI unit second.
constexpr auto kUnits = std::to_array<Unit>({
    {airflow, "cfm", "ft3/min cuft/min cubicfeet/min cubicfeetperminute", kCfm, 0, 0},
    {airflow, "L/s", "lps litres/s liters/s dm3/s", 1e-3, 0, 1},
    {airflow, "m³/s", "m3/s cms", 1, 0, 4},
    {airflow, "m³/h", "m3/h cmh m3/hr", 1.0 / 3600, 0, 0},
    {velocity, "fpm", "ft/min feet/min", kFpm, 0, 0},
    {velocity, "m/s", "mps", 1, 0, 2},
    {pressure, "in. w.g.", "inwg inwc inh2o iwg iwc inchwg inchwc incheswg incheswc inchh2o inchesh2o inofwater inchesofwater inch inches in \"wg \"wc \"h2o \"", kInchOfWater, 0, 3},
    {pressure, "Pa", "pascal pascals", 1, 0, 1},
    {pressure, "kPa", "kilopascal", 1e3, 0, 3},
    {pressure, "psi", "", 6894.757293168, 0, 2},
    {pressure, "mm w.g.", "mmwg mmwc mmh2o", 9.80665, 0, 2},
    {pressure, "mbar", "hpa", 100, 0, 2},
    {temperature, "°F", "f degf degreef degreesf fahrenheit", kFahrenheitDegree, 459.67, 1},
    {temperature, "°C", "c degc degreec degreesc celsius", 1, 273.15, 1},
    {temperature, "K", "kelvin", 1, 0, 2},
    {temperatureDifference, "°F", "Δ°f f °f degf fahrenheit df deltaf Δf f° fdeg", kFahrenheitDegree, 0, 1},
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
    {ratio, "", "fraction ratio 1", 1, 0, 3},
    {count, "", "", 1, 0, 0},
    {count, "", "", 1, 0, 0},
    {flag, "", "", 1, 0, 0},
    {flag, "", "", 1, 0, 0},
    {number, "", "", 1, 0, 3},
    {number, "", "", 1, 0, 3},
});

static_assert(std::ranges::is_sorted(kUnits, {}, &Unit::dimension));

// What is typed in more than one way, and the plain form of it.
struct Form {
  std::string_view typed, plain;
};
constexpr auto kForms = std::to_array<Form>({
    {"\u00A0", ""}, {"\u2009", ""},  {"\u202F", ""},                       // blanks that do not break
    {"²", "2"},      {"³", "3"},       {"₂", "2"},                           // m³, H₂O
    {"º", "°"},      {"˚", "°"},       {"\u2103", "°c"}, {"\u2109", "°f"},  // signs that look like a degree
    {"″", "\""},     {"”", "\""},      {"′", "'"},       {"’", "'"},         // inches and feet
    {"∆", "Δ"},
});

// A unit as it is compared: lower case, without blanks, dots and brackets, in the plain form. Empty when no
// unit is that long.
class Folded {
 public:
  explicit Folded(std::string_view text) {
    while (!text.empty()) {
      const char c = text.front();
      if (static_cast<unsigned char>(c) < 0x80) {
        if (std::string_view(" \t._^[]").find(c) == std::string_view::npos)
          add(c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c);
        text.remove_prefix(1);
        continue;
      }
      const auto form =
          std::find_if(kForms.begin(), kForms.end(), [&](const Form& f) { return text.starts_with(f.typed); });
      if (form == kForms.end()) {
        add(c);
        text.remove_prefix(1);
        continue;
      }
      for (const char plain : form->plain) add(plain);
      text.remove_prefix(form->typed.size());
    }
  }
  [[nodiscard]] std::string_view text() const {
    return m_size > m_text.size() ? std::string_view() : std::string_view(m_text.data(), m_size);
  }

 private:
  void add(char c) {
    if (m_size < m_text.size()) m_text[m_size] = c;
    m_size = std::min(m_size + 1, m_text.size() + 1);
  }
  std::array<char, 32> m_text{};
  std::size_t m_size = 0;
};

bool listed(std::string_view words, std::string_view wanted) {
  while (!words.empty()) {
    const auto blank = words.find(' ');
    if (words.substr(0, blank) == wanted) return true;
    if (blank == std::string_view::npos) break;
    words.remove_prefix(blank + 1);
  }
  return false;
}

}  // namespace

std::span<const Unit> unitsOf(Dimension dimension) {
  static constexpr auto kStarts = [] {
    std::array<std::size_t, static_cast<std::size_t>(number) + 2> starts{};
    for (const Unit& unit : kUnits) ++starts[static_cast<std::size_t>(unit.dimension) + 1];
    for (std::size_t i = 1; i < starts.size(); ++i) starts[i] += starts[i - 1];
    return starts;
  }();
  const auto i = static_cast<std::size_t>(dimension);
  return std::span(kUnits).subspan(kStarts[i], kStarts[i + 1] - kStarts[i]);
}

const Unit& unitFor(Dimension dimension, System system) {
  return unitsOf(dimension)[system == System::ip ? 0 : 1];
}

const Unit* findUnit(Dimension dimension, std::string_view text) {
  const auto units = unitsOf(dimension);
  for (const Unit& unit : units)
    if (!text.empty() && unit.symbol == text) return &unit;
  const Folded folded(text);
  const std::string_view wanted = folded.text();
  if (wanted.empty()) return nullptr;
  for (const Unit& unit : units)
    if (listed(unit.spelling, wanted) || Folded(unit.symbol).text() == wanted) return &unit;
  return nullptr;
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
