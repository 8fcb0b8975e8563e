#include "field.h"
#include "fleet/building.h"

namespace ductwright::exchange {
namespace {

using fleet::Unit;
using quantity::Dimension;

const quantity::Unit& kShare = quantity::unitsOf(Dimension::ratio)[2];

// A bare number is a share ("0.75") unless the header says percent; "75 %" is one too.
Read<double> readHeatEnableRatio(const CellInput& cell) {
  CellInput plain = cell;
  if (!cell.unitFromHeader) plain.unit = &kShare;
  const auto read = readMeasured(plain, Dimension::ratio);
  if (!read) return tl::make_unexpected(read.error());
  return read->si;
}

constexpr auto heatEnableRatioField() {
  using R = Unit;
  auto field = numberField<&Unit::heatEnableRatio, readHeatEnableRatio>(
      {"heat enable ratio", "heatenable heatenableflowratio lockoutratio reheatlockoutratio"});
  field.column.dimension = Dimension::ratio;
  field.read = [](R& r, const CellInput& cell) -> std::optional<Fault> {
    const auto read = readHeatEnableRatio(cell);
    if (!read) return read.error();
    r.heatEnableRatio = *read;
    if (*read > 1.5)
      return Fault{Weight::warning, cited(cell.text) + " is " + exactNumber(*read) + " times the reference flow and is kept as it is",
                   "write 0.75 or 75 %"};
    return doubtOf(*read, quantity::unitFor(Dimension::ratio, quantity::System::ip), {0, 1.5});
  };
  field.write = [](const R& r, const quantity::Unit*) { return r.heatEnableRatio ? fileNumber(*r.heatEnableRatio) : SheetValue{}; };
  return field;
}

constexpr auto kFields = std::to_array<Field<Unit>>({
    textField<&Unit::tag>({"unit", "tag unittag unitid unitno unitnumber unitname box boxtag boxno boxnumber terminal terminalunit "
                                   "terminaltag terminalunittag vav vavtag vavno vavnumber vavbox vavid vavunit mark equipmenttag", true}),
    textField<&Unit::building>({"building", "buildingname bldg"}),
    textField<&Unit::floor>({"floor", "level storey story floorlevel fl", true}),
    textField<&Unit::zone>({"zone", "room area space zonename roomname zoneserved areaserved roomserved location"}),
    textField<&Unit::airHandler>({"air handler", "ahu airhandlingunit airhandlerunit system ahutag airhandlertag servedby"}),
    wordField<&Unit::kind>({"kind", "type unitkind unittype boxtype terminaltype kindofunit typeofunit", true},
                           "cooling only, reheat, parallel fan, series fan, dual duct, exhaust"),
    quantityField<&Unit::inletDiameter, Dimension::length>(
        {"inlet diameter", "inlet inletsize size inletdia inletduct boxsize inletdiam ductsize nominalsize"}),
    quantityField<&Unit::coolingMax, Dimension::airflow>(
        {"cooling max flow", "coolingmax maxcooling coolingmaximum coolingmaximumflow maxflow maximumflow maxairflow maximumairflow max "
                             "coolingmaxairflow coolmax primarymax designflow designairflow maxcoolingflow", true}),
    quantityField<&Unit::coolingMin, Dimension::airflow>(
        {"cooling min flow", "coolingmin mincooling coolingminimum coolingminimumflow minflow minimumflow minairflow minimumairflow min "
                             "coolingminairflow coolmin primarymin mincoolingflow", true}),
    quantityField<&Unit::heatingMax, Dimension::airflow>(
        {"heating max flow", "heatingmax maxheating heatingmaximum heatingmaximumflow heatingmaxairflow heatmax maxheatingflow"}),
    quantityField<&Unit::heatingMin, Dimension::airflow>(
        {"heating min flow", "heatingmin minheating heatingminimum heatingminimumflow heatingminairflow heatmin minheatingflow"}),
    quantityField<&Unit::reheat, Dimension::airflow>({"reheat flow", "reheat reheatairflow"}),
    quantityField<&Unit::unoccupied, Dimension::airflow>({"unoccupied flow", "unoccupied unoccupiedairflow unoccupiedmin"}),
    quantityField<&Unit::standby, Dimension::airflow>({"standby flow", "standby standbyairflow standbymin"}),
    quantityField<&Unit::fan, Dimension::airflow>({"fan flow", "fanairflow fan fandesignflow"}),
    quantityField<&Unit::hotMax, Dimension::airflow>({"hot max flow", "hotmax hotdeckmax hotmaximum hotductmax"}),
    quantityField<&Unit::hotMin, Dimension::airflow>({"hot min flow", "hotmin hotdeckmin hotminimum hotductmin"}),
    quantityField<&Unit::ventilationMin, Dimension::airflow>(
        {"ventilation min flow", "ventilationmin ventilationminimum ventmin minventilation outdoorairmin ventilationflow"}),
    wordField<&Unit::flowBasis>({"flow basis", "basis airflowbasis"}, "actual, standard"),
    wordField<&Unit::heat>({"heat", "heating heattype heatkind heatsource heatingtype reheattype heater heatertype coiltype"},
                           "none, hot water, electric staged, electric modulating"),
    wordField<&Unit::heaterPosition>({"heater position", "heaterlocation coilposition coillocation"}, "discharge, plenum inlet"),
    quantityField<&Unit::heaterPower, Dimension::power>(
        {"heater power", "heatcapacity heatingcapacity heaterkw kw reheatcapacity reheatpower heatpower heatercapacity"}),
    wholeField<&Unit::heaterStages>({"heater stages", "stages heatstages numberofstages steps"}),
    heatEnableRatioField(),
    quantityField<&Unit::coilWaterFlow, Dimension::waterFlow>({"coil water flow", "waterflow gpm coilflow coilgpm hotwaterflow"}),
    quantityField<&Unit::coilEnteringWater, Dimension::temperature>(
        {"coil entering water temperature", "ewt enteringwatertemperature coilewt enteringwater coilenteringwater"}),
    quantityField<&Unit::designEnteringAir, Dimension::temperature>(
        {"design entering air temperature", "eat enteringairtemperature coileat designenteringair designeat"}),
    quantityField<&Unit::designDischarge, Dimension::temperature>(
        {"design discharge temperature", "lat leavingairtemperature designdischarge designdischargeairtemperature designlat dischargetemperature "
                                         "dischargeairtemperature"}),
    quantityField<&Unit::dischargeLimit, Dimension::temperature>(
        {"discharge limit", "dischargetemperaturelimit maxdischargetemperature dischargeairlimit maximumdischargetemperature"}),
    quantityField<&Unit::zoneHeatingSetpoint, Dimension::temperature>(
        {"zone heating setpoint", "heatingsetpoint heatsetpoint occupiedheatingsetpoint"}),
    quantityField<&Unit::zoneCoolingSetpoint, Dimension::temperature>(
        {"zone cooling setpoint", "coolingsetpoint coolsetpoint occupiedcoolingsetpoint"}),
    quantityField<&Unit::flowCoefficient, Dimension::flowCoefficient>({"flow coefficient", "kfactor k flowfactor coefficient kflow"}),
    quantityField<&Unit::strokeTime, Dimension::duration>({"stroke time", "damperstroketime stroke actuatortime traveltime runtime"}),
    textField<&Unit::profile>({"controller profile", "profile controller controllertype"}),
    textField<&Unit::roomSensor>({"room sensor", "sensor thermostat zonesensor roomsensortype"}),
    textField<&Unit::segment>({"network segment", "segment network trunk networknumber"}),
    wholeField<&Unit::macAddress>({"mac address", "mac address networkaddress mstpaddress"}),
    wholeField<&Unit::deviceInstance>({"device instance", "instance deviceid deviceinstancenumber instancenumber"}),
});

}  // namespace

template <>
std::span<const Field<Unit>> fieldsOf<Unit>() {
  return kFields;
}

}  // namespace ductwright::exchange
