#include <algorithm>

#include "field.h"

#include "fleet/building.h"

namespace ductwright::exchange {
namespace {

using fleet::AirHandler;
using fleet::ControllerProfile;
using fleet::HeatKind;
using fleet::NetworkSegment;
using fleet::RoomSensor;
using fleet::UnitKind;
using quantity::Dimension;

// A load may be written as the fraction that it is: "1/8".
Read<double> readUnitLoad(const CellInput& cell) {
  const std::size_t slash = cell.text.find('/');
  if (slash == std::string_view::npos) return readBareNumber(cell);
  CellInput part = cell;
  part.text = trimmed(cell.text.substr(0, slash));
  const auto above = readBareNumber(part);
  part.text = trimmed(cell.text.substr(slash + 1));
  const auto below = readBareNumber(part);
  if (!above || !below || *below == 0) return fault(cited(cell.text) + " is not a number", "write it as 0.125 or 1/8");
  return *above / *below;
}

// bit/s: "38400", "38.4 kbit/s".
Read<double> readBitRate(const CellInput& cell) {
  std::size_t split = cell.text.find_first_of("kKMbB");
  if (split == std::string_view::npos) return readBareNumber(cell);
  CellInput number = cell;
  number.text = trimmed(cell.text.substr(0, split));
  const std::string unit = fleet::foldedWord(cell.text.substr(split));
  double factor = 0;
  for (const auto* each : {"bit/s", "bps", "baud", "bits/s", "b/s"}) {
    if (unit == each) factor = 1;
    if (unit == "k" + std::string(each)) factor = 1e3;
    if (unit == "m" + std::string(each)) factor = 1e6;
  }
  if (factor == 0) return fault(cited(cell.text) + " is not a speed", "write it as 38400 or 38.4 kbit/s");
  const auto value = readBareNumber(number);
  if (!value) return tl::make_unexpected(value.error());
  return *value * factor;
}

// Words of a closed list, separated by ; , / | or "and". "all" is each of them, "none" no one.
template <class E>
Read<std::vector<E>> readList(std::string_view text) {
  std::vector<E> out;
  const std::string whole = fleet::foldedWord(text);
  const auto all = fleet::valuesOf<E>();
  if (whole == "all" || whole == "any") return std::vector<E>(all.begin(), all.end());
  for (std::size_t at = 0; at <= text.size();) {
    std::size_t end = text.find_first_of(";,/|+\n", at);
    if (end == std::string_view::npos) end = text.size();
    const std::size_t andWord = text.substr(at, end - at).find(" and ");
    std::size_t next = end + 1;
    if (andWord != std::string_view::npos) {
      end = at + andWord;
      next = end + 5;
    }
    const std::string_view word = trimmed(text.substr(at, end - at));
    at = next;
    if (word.empty()) continue;
    const auto value = fleet::read<E>(word);
    if (!value) {
      std::string list;
      for (const E each : all) (list += list.empty() ? "" : "; ") += fleet::name(each);
      return fault(cited(word) + " is not known here", "use some of: " + list);
    }
    if (std::find(out.begin(), out.end(), *value) == out.end()) out.push_back(*value);
  }
  return out;
}

// A list without a kind of heat is "none".
template <class E>
constexpr std::string_view kEmptyList = {};
template <>
constexpr std::string_view kEmptyList<HeatKind> = "none";

template <class E>
std::string listText(const std::vector<E>& list) {
  if (list.empty()) return std::string(kEmptyList<E>);
  std::string out;
  for (const E each : list) (out += out.empty() ? "" : "; ") += fleet::name(each);
  return out;
}

template <auto member>
constexpr auto listField(Header h, std::string_view words) {
  using R = detail::RecordOf<member>;
  using E = typename detail::ValueOf<member>::value_type;
  return detail::fieldWith<member>(
      {h.name, h.synonyms, h.required, std::nullopt, words},
      [](R& r, const CellInput& cell) -> std::optional<Fault> {
        auto read = readList<E>(cell.text);
        if (!read) return read.error();
        if constexpr (std::is_same_v<E, HeatKind>) std::erase(*read, HeatKind::none);
        r.*member = std::move(*read);
        return std::nullopt;
      },
      [](const R& r, quantity::System) { return listText(r.*member); },
      [](const R& r, const quantity::Unit*) {
        auto text = listText(r.*member);
        return text.empty() ? SheetValue{} : SheetValue{std::move(text)};
      });
}

// An air handler moves far more air than a terminal unit.
constexpr auto airHandlerFlowField() {
  auto field = quantityField<&AirHandler::designFlow, Dimension::airflow>({"design flow", "flow airflow designairflow supplyairflow supplyflow"});
  field.read = [](AirHandler& r, const CellInput& cell) -> std::optional<Fault> {
    const auto read = readMeasured(cell, Dimension::airflow);
    if (!read) return read.error();
    r.designFlow = quantity::Airflow::fromSi(read->si);
    return doubtOf(read->si, *read->unit, {0, 500});
  };
  return field;
}

constexpr auto kAirHandlerFields = std::to_array<Field<AirHandler>>({
    textField<&AirHandler::name>({"air handler", "ahu tag name airhandlingunit airhandlertag ahutag", true}),
    airHandlerFlowField(),
    yesNoField<&AirHandler::suppliesWarmAir>({"supplies warm air", "warmair morningwarmup suppliesheat"}),
    quantityField<&AirHandler::supplyAirTemperature, Dimension::temperature>(
        {"supply air temperature", "sat supplyairtemp supplytemperature dischargeairtemperature"}),
    quantityField<&AirHandler::ductStaticPressure, Dimension::pressure>({"duct static pressure", "staticpressure ductstatic static"}),
});

constexpr std::string_view kCustodyWords = "controller, front end, unknown";
constexpr auto kProfileFields = std::to_array<Field<ControllerProfile>>({
    textField<&ControllerProfile::name>({"profile", "name controllerprofile controller controllertype", true}),
    listField<&ControllerProfile::kindsServed>({"kinds served", "kinds unitkinds serves servedkinds", true},
                                               "some of: cooling only; reheat; parallel fan; series fan; dual duct; exhaust"),
    listField<&ControllerProfile::heatServed>({"heat served", "heat heatkinds heats"},
                                              "some of: none; hot water; electric staged; electric modulating"),
    wholeField<&ControllerProfile::inlets>({"inlets", "inletcount flowinputs"}),
    yesNoField<&ControllerProfile::fan>({"fan", "fancontrol controlsfan"}),
    yesNoField<&ControllerProfile::exhaust>({"exhaust", "controlsexhaust"}),
    yesNoField<&ControllerProfile::damperFeedback>({"damper feedback", "feedback damperpositionfeedback positionfeedback"}),
    yesNoField<&ControllerProfile::dischargeSensor>({"discharge sensor", "dischargeairsensor dischargetemperaturesensor"}),
    wordField<&ControllerProfile::schedules>({"schedules", "scheduling"}, kCustodyWords),
    wordField<&ControllerProfile::trends>({"trends", "trending"}, kCustodyWords),
    wordField<&ControllerProfile::alarms>({"alarms", "alarming"}, kCustodyWords),
    textField<&ControllerProfile::protocol>({"protocol", "networkprotocol"}),
    quantityField<&ControllerProfile::leastControllablePressure, Dimension::pressure>(
        {"least controllable pressure", "minimumcontrollablepressure minpressure leastpressure minimumpressure"}),
    quantityField<&ControllerProfile::strokeTime, Dimension::duration>({"stroke time", "damperstroketime stroke"}),
    numberField<&ControllerProfile::unitLoad, readUnitLoad>({"unit load", "load busload"}),
    textField<&ControllerProfile::document>({"document", "source reference"}),
});

constexpr auto kRoomSensorFields = std::to_array<Field<RoomSensor>>({
    textField<&RoomSensor::name>({"room sensor", "sensor name thermostat type", true}),
    yesNoField<&RoomSensor::display>({"display", "hasdisplay"}),
    yesNoField<&RoomSensor::adjustment>({"adjustment", "setpointadjustment adjust"}),
    yesNoField<&RoomSensor::override_>({"override", "occupancyoverride overridebutton"}),
    yesNoField<&RoomSensor::motion>({"motion", "motionsensor occupancysensor"}),
    yesNoField<&RoomSensor::canSetUpController>({"can set up a controller", "setup cansetupcontroller controllersetup cansetup"}),
});

constexpr auto kSegmentFields = std::to_array<Field<NetworkSegment>>({
    textField<&NetworkSegment::name>({"segment", "name networksegment network trunk", true}),
    numberField<&NetworkSegment::speed, readBitRate>({"speed", "baud baudrate bitrate"}),
    wholeField<&NetworkSegment::highestAddress>({"highest address", "maxaddress highestmac maxmaster maximumaddress"}),
    numberField<&NetworkSegment::loadLimit, readUnitLoad>({"load limit", "maxload unitloadlimit maximumload"}),
});

}  // namespace

template <>
std::span<const Field<AirHandler>> fieldsOf<AirHandler>() {
  return kAirHandlerFields;
}
template <>
std::span<const Field<ControllerProfile>> fieldsOf<ControllerProfile>() {
  return kProfileFields;
}
template <>
std::span<const Field<RoomSensor>> fieldsOf<RoomSensor>() {
  return kRoomSensorFields;
}
template <>
std::span<const Field<NetworkSegment>> fieldsOf<NetworkSegment>() {
  return kSegmentFields;
}

}  // namespace ductwright::exchange
