#include "physical_unit.h"

#include <algorithm>
#include <cmath>

#include "schedule.h"

namespace ductwright::sample {
namespace {

using namespace fleet;
using quantity::kFahrenheitDegree;
using quantity::kInchOfWater;

double kelvin(double fahrenheit) {
  return quantity::fahrenheit(fahrenheit).si();
}

double largestOf(const Unit& unit) {
  return std::max(unit.coolingMax->si(), unit.hotMax ? unit.hotMax->si() : 0);
}

Inlet inletOf(const Unit& unit, const Site& site, double temperature, double balancerShare, Random& random) {
  Inlet out;
  out.density = site.density(temperature);
  const Site assumed{.pressure = standardPressure(quantity::feet(kElevationFeet).si())};
  out.assumed = assumed.density(kelvin(55));
  out.coefficient = unit.flowCoefficient->si() * (1 + 0.03 * random.normal());
  const double calibration =
      std::sqrt(out.assumed / out.density) * (1 + balancerShare + 0.008 * random.normal());
  out.loaded = out.coefficient * calibration;
  out.zero = random.uniform(-0.0005, 0.0005) * kInchOfWater;
  out.pressure = random.uniform(0.55, 0.95) * kInchOfWater;
  const double needed = random.uniform(0.18, 0.30) * kInchOfWater;
  out.openResistance = needed / (largestOf(unit) * largestOf(unit));
  out.authority = random.uniform(0.3, 0.5);
  if (unit.flowBasis == FlowBasis::standard) out.basis = out.assumed / kStandardDensity;
  return out;
}

// The air that the coil was chosen for.
double coilFlow(const Unit& unit, const Site& site) {
  if (unit.kind != UnitKind::reheat) return heaterSetpoint(unit);
  const double actual =
      unit.flowBasis == FlowBasis::standard ? kStandardDensity / site.density(kelvin(55)) : 1;
  return actual * unit.heatingMax->si();
}

Heater heaterOf(const Unit& unit, const Site& site, Random& random) {
  Heater out;
  if (unit.heat == HeatKind::none) return out;
  out.enableRatio = unit.heatEnableRatio.value_or(0.75);
  out.dischargeAim = kelvin(86) + random.uniform(-1, 1) * kFahrenheitDegree;
  out.switchFlow = random.uniform(0.55, 0.68) * heaterSetpoint(unit);
  if (unit.heat == HeatKind::hotWater) {
    const double entering = unit.designEnteringAir->si();
    const double rise = (*unit.designDischarge - *unit.designEnteringAir).si();
    out.switchFlow = 0;
    out.coil = coilFor(site.capacityRate(coilFlow(unit, site), entering), entering, rise,
                       unit.coilWaterFlow->si(), unit.coilEnteringWater->si());
    out.coil.conductance *= 1 + 0.02 * random.normal();
    out.water = unit.coilWaterFlow->si() * (1 + 0.02 * random.normal());
    out.enteringWater = unit.coilEnteringWater->si() + random.uniform(-3, 3) * kFahrenheitDegree;
    out.leak = random.uniform(0, 0.001);
  } else {
    out.stages = unit.heaterStages.value_or(1);
    out.power = unit.heaterPower->si() * (1 + 0.012 * random.normal());
  }
  return out;
}

std::vector<double> outletShares(const Unit& unit, Random& random) {
  const auto count =
      static_cast<std::size_t>(std::clamp(std::lround(largestOf(unit) / quantity::cfm(220).si()), 1L, 6L));
  std::vector<double> out;
  double sum = 0;
  for (std::size_t i = 0; i < count; ++i) sum += out.emplace_back(1 + 0.05 * random.normal());
  const double tight = random.uniform(0.99, 1.0);
  for (double& share : out) share *= tight / sum;
  return out;
}

}  // namespace

double heaterSetpoint(const Unit& settings) {
  switch (settings.kind) {
    case UnitKind::seriesFan:
      return settings.fan->si();
    case UnitKind::parallelFan:
      return settings.heaterPosition == HeaterPosition::plenumInlet
                 ? settings.fan->si()
                 : settings.fan->si() + settings.coolingMin->si();
    default:
      return settings.reheat.value_or(settings.heatingMax.value_or(Airflow{})).si();
  }
}

PhysicalUnit physicalUnit(const Unit& design, const Site& site, double balancerShare, Random random) {
  PhysicalUnit out;
  out.settings = design;
  out.supply = kelvin(55) + random.uniform(-1, 1.5) * kFahrenheitDegree;
  out.hotSupply = kelvin(95) + random.uniform(-2, 2) * kFahrenheitDegree;
  out.plenum = kelvin(75) + random.uniform(-1.5, 1.5) * kFahrenheitDegree;
  const double cold = design.kind == UnitKind::exhaust ? kelvin(73) : out.supply;
  out.cold = inletOf(design, site, cold, balancerShare, random);
  if (design.kind == UnitKind::dualDuct)
    out.hot = inletOf(design, site, out.hotSupply, balancerShare, random);
  out.stroke = random.uniform(80, 95);
  if (design.fan) {
    out.fanFlow = design.fan->si() * (1 + balancerShare + 0.01 * random.normal());
    out.fanPower = random.uniform(0.15, 0.22) * quantity::inCfm(*design.fan);
  }
  out.heater = heaterOf(design, site, random);
  out.ductGain = random.uniform(0, 0.2) * kFahrenheitDegree;
  out.outletShares = outletShares(design, random);
  return out;
}

HeaterAir heaterAir(const PhysicalUnit& unit, const Site& site, double primary, double fan) {
  const double fanFlow = fan * unit.fanFlow;
  const Stream supply{primary, unit.supply};
  HeaterAir out;
  out.primary = primary;
  Stream withFan = supply;
  switch (unit.settings.kind) {
    case UnitKind::seriesFan:
      withFan = mixed(site, supply, {std::max(0.0, fanFlow - primary), unit.plenum});
      out.entering = withFan;
      break;
    case UnitKind::parallelFan:
      withFan = {fanFlow, unit.plenum};
      out.entering = unit.settings.heaterPosition == HeaterPosition::plenumInlet
                         ? withFan
                         : mixed(site, supply, withFan);
      break;
    default:
      out.entering = supply;
      break;
  }
  if (fanFlow > 0 && out.entering.flow > 0)
    out.fanRise = unit.fanPower * fan / site.capacityRate(out.entering.flow, out.entering.temperature);
  return out;
}

}  // namespace ductwright::sample
