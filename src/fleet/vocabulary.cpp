#include "fleet/vocabulary.h"

#include <array>
#include <charconv>

namespace ductwright::fleet {
namespace {

using quantity::Dimension;

template <class Enum>
struct Entry {
  Enum value;
  std::string_view word;
  std::string_view others = {};  // other spellings, folded, separated by blanks
};

constexpr auto kUnitKinds = std::to_array<Entry<UnitKind>>({
    {UnitKind::coolingOnly, "cooling only", "vavcoolingonly noheat"},
    {UnitKind::reheat, "reheat", "withreheat singleductreheat"},
    {UnitKind::parallelFan, "parallel fan", "parallelfanpowered"},
    {UnitKind::seriesFan, "series fan", "seriesfanpowered"},
    {UnitKind::dualDuct, "dual duct"},
    {UnitKind::exhaust, "exhaust", "exhaustunit"},
});
constexpr auto kHeatKinds = std::to_array<Entry<HeatKind>>({
    {HeatKind::none, "none", "no -"},
    {HeatKind::hotWater, "hot water", "hw water"},
    {HeatKind::electricStaged, "electric staged", "stagedelectric"},
    {HeatKind::electricModulating, "electric modulating", "modulatingelectric"},
});
constexpr auto kHeaterPositions = std::to_array<Entry<HeaterPosition>>({
    {HeaterPosition::discharge, "discharge"},
    {HeaterPosition::plenumInlet, "plenum inlet", "plenum inducedinlet"},
});
constexpr auto kFlowBases = std::to_array<Entry<FlowBasis>>({
    {FlowBasis::actual, "actual", "acfm"},
    {FlowBasis::standard, "standard", "scfm std"},
});
constexpr auto kProcedures = std::to_array<Entry<Procedure>>({
    {Procedure::airflow, "airflow", "flow balancing"},
    {Procedure::reheatLockout, "reheat lockout", "lockout"},
    {Procedure::dischargeRise, "discharge rise", "rise dischargetemperaturerise"},
});
constexpr auto kAirflowSteps = std::to_array<Entry<AirflowStep>>({
    {AirflowStep::coolingMax, "cooling max", "coolingmaximum"},
    {AirflowStep::coolingMin, "cooling min", "coolingminimum"},
    {AirflowStep::heatingMax, "heating max", "heatingmaximum"},
    {AirflowStep::heatingMin, "heating min", "heatingminimum"},
    {AirflowStep::reheat, "reheat"},
    {AirflowStep::hotMax, "hot max", "hotmaximum"},
    {AirflowStep::hotMin, "hot min", "hotminimum"},
    {AirflowStep::fan, "fan"},
    {AirflowStep::shut, "shut", "closed"},
});
constexpr auto kRiseSteps = std::to_array<Entry<RiseStep>>({
    {RiseStep::heatOn, "heat on"},
    {RiseStep::heatForced, "heat forced", "forced"},
    {RiseStep::heatOff, "heat off"},
});
constexpr auto kQuantities = std::to_array<Entry<ReadingQuantity>>({
    {ReadingQuantity::measuredFlow, "measured flow", "measuredairflow"},
    {ReadingQuantity::outletFlow, "outlet flow", "outletairflow"},
    {ReadingQuantity::reportedFlow, "reported flow", "reportedairflow"},
    {ReadingQuantity::flowSetpoint, "flow setpoint", "airflowsetpoint"},
    {ReadingQuantity::fanFlow, "fan flow", "fanairflow"},
    {ReadingQuantity::damperPosition, "damper position", "damper"},
    {ReadingQuantity::inletPressureDifference, "inlet pressure difference", "inletdp"},
    {ReadingQuantity::ductStaticPressure, "duct static pressure", "ductstatic"},
    {ReadingQuantity::heatSignal, "heat signal"},
    {ReadingQuantity::heatCall, "heat call"},
    {ReadingQuantity::heatOn, "heat on"},
    {ReadingQuantity::stagesOn, "stages on"},
    {ReadingQuantity::valvePosition, "valve position", "valve"},
    {ReadingQuantity::fanOn, "fan on"},
    {ReadingQuantity::mode, "mode"},
    {ReadingQuantity::supplyAirTemperature, "supply air temperature", "supplyairtemp"},
    {ReadingQuantity::primaryAirTemperature, "primary air temperature", "primaryairtemp"},
    {ReadingQuantity::plenumAirTemperature, "plenum air temperature", "plenumairtemp"},
    {ReadingQuantity::enteringAirTemperature, "entering air temperature", "enteringairtemp"},
    {ReadingQuantity::dischargeAirTemperature, "discharge air temperature", "dischargeairtemp"},
    {ReadingQuantity::zoneTemperature, "zone temperature", "zonetemp"},
    {ReadingQuantity::heaterPower, "heater power"},
    {ReadingQuantity::enteringWaterTemperature, "entering water temperature", "enteringwatertemp"},
    {ReadingQuantity::leavingWaterTemperature, "leaving water temperature", "leavingwatertemp"},
    {ReadingQuantity::waterFlow, "water flow"},
});
static_assert(kQuantities.size() == kReadingQuantities);
constexpr auto kRoles = std::to_array<Entry<Role>>({
    {Role::agent, "commissioning agent", "agent"},
    {Role::reviewer, "reviewer"},
    {Role::ownersRepresentative, "owner's representative", "ownersrepresentative owner"},
    {Role::contractor, "contractor"},
});
constexpr auto kParties = std::to_array<Entry<Party>>({
    {Party::designEngineer, "design engineer"},
    {Party::mechanicalContractor, "mechanical contractor"},
    {Party::controlsContractor, "controls contractor"},
    {Party::electricalContractor, "electrical contractor"},
    {Party::balancer, "balancer"},
    {Party::agent, "commissioning agent", "agent"},
});
constexpr auto kSeverities = std::to_array<Entry<Severity>>({
    {Severity::safety, "safety"},
    {Severity::major, "major"},
    {Severity::moderate, "moderate"},
    {Severity::minor, "minor"},
});
constexpr auto kDeficiencyStates = std::to_array<Entry<DeficiencyState>>({
    {DeficiencyState::raised, "raised"},
    {DeficiencyState::accepted, "accepted"},
    {DeficiencyState::disputed, "disputed"},
    {DeficiencyState::workReported, "work reported"},
    {DeficiencyState::awaitingRetest, "awaiting retest"},
    {DeficiencyState::proven, "proven"},
    {DeficiencyState::withdrawn, "withdrawn"},
});
constexpr auto kCustodies = std::to_array<Entry<Custody>>({
    {Custody::unknown, "unknown"},
    {Custody::controller, "controller"},
    {Custody::frontEnd, "front end"},
});

template <class Enum, std::size_t N>
std::string_view wordFor(const std::array<Entry<Enum>, N>& list, Enum value) {
  // A number from a damaged file may be no value of the list.
  const auto index = static_cast<std::size_t>(value);
  return index < N ? list[index].word : std::string_view();
}

// A cell that only holds a dash, as schedules write "none".
bool isDash(std::string_view text) {
  for (const std::string_view blank : {" ", "\t"}) {
    while (text.starts_with(blank)) text.remove_prefix(1);
    while (text.ends_with(blank)) text.remove_suffix(1);
  }
  return text == "-" || text == "–" || text == "—";
}

template <class Enum, std::size_t N>
std::optional<Enum> valueFor(const std::array<Entry<Enum>, N>& list, std::string_view text) {
  for (const auto& entry : list)
    if (entry.word == text) return entry.value;
  const std::string wanted = isDash(text) ? "-" : foldedWord(text);
  if (wanted.empty()) return std::nullopt;
  for (const auto& entry : list) {
    if (foldedWord(entry.word) == wanted) return entry.value;
    std::string_view rest = entry.others;
    while (!rest.empty()) {
      const auto blank = rest.find(' ');
      if (rest.substr(0, blank) == wanted) return entry.value;
      if (blank == std::string_view::npos) break;
      rest.remove_prefix(blank + 1);
    }
  }
  return std::nullopt;
}

template <const auto& list>
constexpr auto valuesIn() {
  std::array<std::remove_cvref_t<decltype(list[0].value)>, list.size()> out{};
  for (std::size_t i = 0; i < list.size(); ++i) out[i] = list[i].value;
  return out;
}

}  // namespace

#define DUCTWRIGHT_VOCABULARY(Enum, list)                                                     \
  std::string_view name(Enum value) { return wordFor(list, value); }                          \
  template <>                                                                                 \
  std::optional<Enum> read<Enum>(std::string_view text) { return valueFor(list, text); }      \
  template <>                                                                                 \
  std::span<const Enum> valuesOf<Enum>() {                                                    \
    static constexpr auto values = valuesIn<list>();                                          \
    return values;                                                                               \
  }
DUCTWRIGHT_VOCABULARY(UnitKind, kUnitKinds)
DUCTWRIGHT_VOCABULARY(HeatKind, kHeatKinds)
DUCTWRIGHT_VOCABULARY(HeaterPosition, kHeaterPositions)
DUCTWRIGHT_VOCABULARY(FlowBasis, kFlowBases)
DUCTWRIGHT_VOCABULARY(Procedure, kProcedures)
DUCTWRIGHT_VOCABULARY(AirflowStep, kAirflowSteps)
DUCTWRIGHT_VOCABULARY(RiseStep, kRiseSteps)
DUCTWRIGHT_VOCABULARY(ReadingQuantity, kQuantities)
DUCTWRIGHT_VOCABULARY(Role, kRoles)
DUCTWRIGHT_VOCABULARY(Party, kParties)
DUCTWRIGHT_VOCABULARY(Severity, kSeverities)
DUCTWRIGHT_VOCABULARY(DeficiencyState, kDeficiencyStates)
DUCTWRIGHT_VOCABULARY(Custody, kCustodies)
#undef DUCTWRIGHT_VOCABULARY

Dimension dimensionOf(ReadingQuantity q) {
  using enum ReadingQuantity;
  switch (q) {
    case measuredFlow:
    case outletFlow:
    case reportedFlow:
    case flowSetpoint:
    case fanFlow: return Dimension::airflow;
    case damperPosition:
    case heatSignal:
    case valvePosition: return Dimension::ratio;
    case inletPressureDifference:
    case ductStaticPressure: return Dimension::pressure;
    case heatCall:
    case heatOn:
    case fanOn: return Dimension::flag;
    case stagesOn: return Dimension::count;
    case mode: return Dimension::number;
    case supplyAirTemperature:
    case primaryAirTemperature:
    case plenumAirTemperature:
    case enteringAirTemperature:
    case dischargeAirTemperature:
    case zoneTemperature:
    case enteringWaterTemperature:
    case leavingWaterTemperature: return Dimension::temperature;
    case heaterPower: return Dimension::power;
    case waterFlow: return Dimension::waterFlow;
  }
  return Dimension::number;
}

std::string stepName(Procedure procedure, int step) {
  switch (procedure) {
    case Procedure::airflow: return std::string(name(static_cast<AirflowStep>(step)));
    case Procedure::dischargeRise: return std::string(name(static_cast<RiseStep>(step)));
    case Procedure::reheatLockout: break;
  }
  return step < 0 ? std::string() : std::to_string(step);
}

std::optional<int> readStep(Procedure procedure, std::string_view text) {
  switch (procedure) {
    case Procedure::airflow:
      if (const auto step = read<AirflowStep>(text)) return code(*step);
      return std::nullopt;
    case Procedure::dischargeRise:
      if (const auto step = read<RiseStep>(text)) return code(*step);
      return std::nullopt;
    case Procedure::reheatLockout: break;
  }
  while (text.starts_with(' ')) text.remove_prefix(1);
  while (text.ends_with(' ')) text.remove_suffix(1);
  int number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc{} || end != text.data() + text.size() || number < 0) return std::nullopt;
  return number;
}

std::string foldedWord(std::string_view text) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == ' ' || c == '_' || c == '-' || c == '\t' || c == '\r' || c == '\n') continue;
    if (text.substr(i, 3) == "’") {
      out += '\'';
      i += 2;
      continue;
    }
    if (c == '\xC2' && i + 1 < text.size() && text[i + 1] == '\xA0') {
      ++i;
      continue;
    }
    out += static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
  }
  return out;
}

}  // namespace ductwright::fleet
