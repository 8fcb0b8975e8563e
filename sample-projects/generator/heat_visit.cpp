#include <algorithm>
#include <cmath>

#include "visit.h"

// Proving the reheat lockout and the discharge rise.
namespace ductwright::sample {

using namespace fleet;
using enum ReadingQuantity;

namespace {

bool fanPowered(UnitKind kind) {
  return kind == UnitKind::seriesFan || kind == UnitKind::parallelFan;
}

}  // namespace

Visit::Visit(Place place, const Conduct& conduct, const Kit& kit, const Meters& meters, Notebook& notebook,
             Random random)
    : m_at(place), m_conduct(conduct), m_kit(kit), m_meters(meters), m_notebook(notebook), m_random(random) {
  const UnitKind kind = place.design.kind;
  const bool ductedOut = kind == UnitKind::coolingOnly || kind == UnitKind::reheat;
  m_byOutlets = ductedOut && m_random.below(2) == 0 && conduct.flowInstrument.empty();
  m_repeats = m_random.below(3) == 0;
  m_withoutFlowMeter = kind == UnitKind::reheat && m_random.below(4) == 0;
  m_discharge = place.unit.supply;
}

double Visit::heaterFlow(const Air& air) const {
  return heaterAir(m_at.unit, m_at.site, air.primary, air.fan).entering.flow;
}

bool Visit::heats(const Air& air, bool call) const {
  const Heater& heater = m_at.unit.heater;
  if (heater.welded) return true;
  if (!call || !heater.works) return false;
  const double flow = heaterFlow(air);
  const double known = fanPowered(m_at.design.kind) ? flow : m_at.unit.cold.reported(air.primary);
  const double reference = heaterSetpoint(m_at.unit.settings);
  if (heater.lockout && known < heater.enableRatio * reference) return false;
  return flow >= heater.switchFlow;
}

// Full heating: the fan runs, the supply air is where the sequence puts it.
Visit::Air Visit::normalHeating() {
  const Unit& settings = m_at.unit.settings;
  const bool fan = fanPowered(settings.kind);
  const double primary = held(m_at.unit.cold, (fan ? *settings.coolingMin : *settings.heatingMax).si());
  return {primary, fan ? 1.0 : 0.0, m_at.unit.cold.damperFor(primary)};
}

// About half of the reheat flow: the damper forced, or the fan slowed or stopped.
Visit::Air Visit::lowFlow() {
  const Unit& settings = m_at.unit.settings;
  if (fanPowered(settings.kind)) {
    Air out = normalHeating();
    const bool both =
        settings.kind == UnitKind::parallelFan && settings.heaterPosition == HeaterPosition::discharge;
    out.fan = both ? 0 : 0.5;
    return out;
  }
  const double aim = m_at.unit.cold.flowAt(0.5 * heaterSetpoint(settings));
  const double damper = std::round(100 * m_at.unit.cold.damperFor(aim)) / 100;
  return {m_at.unit.cold.flowThrough(damper), 0, damper};
}

void Visit::writeHeaterFlow(const Air& air) {
  const UnitKind kind = m_at.design.kind;
  if (fanPowered(kind)) measure(fanFlow, air.fan * m_at.unit.fanFlow, m_kit.traverse);
  const bool plenumOnly =
      kind == UnitKind::parallelFan && m_at.design.heaterPosition == HeaterPosition::plenumInlet;
  if (!m_withoutFlowMeter && !plenumOnly) measure(measuredFlow, air.primary, flowInstrument(air.primary));
  writeDisplayed(reportedFlow, m_conduct.displayFactor * m_at.unit.cold.reported(air.primary));
}

void Visit::lockoutPoint(int number, const Air& air, bool call) {
  const bool on = heats(air, call);
  m_notebook.step(number, 120 + m_random.uniform(5, 40));
  writeHeaterFlow(air);
  if (m_at.unit.settings.reheat) writeDisplayed(flowSetpoint, heaterSetpoint(m_at.unit.settings));
  m_notebook.write(damperPosition, air.damper);
  m_notebook.write(heatCall, call ? 1 : 0);
  m_notebook.write(heatOn, on ? 1 : 0);
}

void Visit::proveLockout() {
  m_notebook.beginRun(Procedure::reheatLockout, 1, {}, m_random);
  Air normal = normalHeating();
  if (!fanPowered(m_at.design.kind)) {
    normal.primary = held(m_at.unit.cold, heaterSetpoint(m_at.unit.settings));
    normal.damper = m_at.unit.cold.damperFor(normal.primary);
  }
  lockoutPoint(1, lowFlow(), true);
  lockoutPoint(2, normal, true);
  if (!m_conduct.skipsTrip) lockoutPoint(3, lowFlow(), true);
  lockoutPoint(4, normal, false);
}

// Power and discharge temperature, settled.
Visit::Heat Visit::heat(RiseStep step, const Air& air) const {
  const Heater& heater = m_at.unit.heater;
  const HeaterAir at = heaterAir(m_at.unit, m_at.site, air.primary, air.fan);
  const double capacity = m_at.site.capacityRate(at.entering.flow, at.entering.temperature);
  const double before = at.entering.temperature + at.fanRise;
  const double headroom = std::max(0.0, heater.dischargeAim - before);
  const bool on = step != RiseStep::heatOff && heats(air, true);
  const bool limits = step == RiseStep::heatOn && heater.limited;
  Heat out;
  if (m_at.design.heat == HeatKind::hotWater) {
    out.water = heater.leak * heater.water;
    if (on)
      out.water = limits
                      ? heater.coil.waterFor(capacity, before, headroom, heater.water, heater.enteringWater)
                      : heater.water;
    out.power = heater.coil.heat(capacity, before, out.water, heater.enteringWater);
  } else {
    const double stage = heater.power / heater.stages;
    if (on)
      out.power = stage * (heater.stages - heater.deadStages);
    else if (heater.welded)
      out.power = stage;
    if (limits && m_at.design.heat == HeatKind::electricModulating)
      out.power = std::min(out.power, capacity * headroom);
  }
  out.discharge = before + out.power / capacity + m_at.unit.ductGain;
  if (m_at.design.heaterPosition == HeaterPosition::plenumInlet)
    out.discharge =
        mixed(m_at.site, {at.entering.flow, out.discharge}, {air.primary, m_at.unit.supply}).temperature;
  return out;
}

void Visit::writeElectric(double power, bool on) {
  m_notebook.write(stagesOn, on ? m_at.unit.heater.stages : 0);
  if (m_conduct.metersPower && on) measure(heaterPower, power, m_kit.powerMeter);
}

void Visit::writeWater(double heat, double water) {
  const Heater& heater = m_at.unit.heater;
  m_notebook.write(valvePosition, std::min(1.0, water / heater.water));
  if (m_conduct.readsEnteringWater)
    measure(enteringWaterTemperature, heater.enteringWater, m_kit.waterThermometerIn);
  if (!m_conduct.metersWater || water < 0.05 * heater.water) return;
  measure(leavingWaterTemperature, heater.enteringWater - heat / (kWaterHeat * water),
          m_kit.waterThermometerOut);
  measure(waterFlow, water, m_kit.waterMeter);
}

void Visit::riseStep(RiseStep step, const Air& air, double waited) {
  const Heat now = heat(step, air);
  const bool water = m_at.design.heat == HeatKind::hotWater;
  const double lag = water ? 60 : 40;  // seconds, of coil or elements and duct
  m_discharge = now.discharge + (m_discharge - now.discharge) * std::exp(-waited / lag);
  m_notebook.step(code(step), waited);
  writeHeaterFlow(air);
  const HeaterAir at = heaterAir(m_at.unit, m_at.site, air.primary, air.fan);
  // With the heat off nothing hurries: one thermometer goes everywhere, and its own error drops out.
  const bool oneForAll = step == RiseStep::heatOff && fanPowered(m_at.design.kind);
  const std::string& thermometer = oneForAll ? m_kit.dischargeThermometer : m_kit.enteringThermometer;
  const bool meetsSupply = m_at.design.heaterPosition == HeaterPosition::discharge;
  if (fanPowered(m_at.design.kind) && meetsSupply) {
    measure(primaryAirTemperature, m_at.unit.supply, thermometer);
    measure(plenumAirTemperature, m_at.unit.plenum, thermometer);
  } else {
    measure(enteringAirTemperature, at.entering.temperature, thermometer);
  }
  measure(dischargeAirTemperature, m_discharge, m_kit.dischargeThermometer);
  if (water)
    writeWater(now.power, now.water);
  else
    writeElectric(now.power, step != RiseStep::heatOff);
}

void Visit::proveRise() {
  m_notebook.beginRun(Procedure::dischargeRise, 1, {}, m_random);
  const Air normal = normalHeating();
  Air forced = normal;
  // A heater in the plenum inlet is proven with the supply damper shut, where only its own air leaves the
  // box.
  if (m_at.design.heaterPosition == HeaterPosition::plenumInlet)
    forced = {m_at.unit.cold.flowThrough(0), 1, 0};
  const bool water = m_at.design.heat == HeatKind::hotWater;
  const double off = water ? (m_conduct.hurriesHeatOff ? 240 : 900) : 180;
  riseStep(RiseStep::heatOn, normal, 300 + m_random.uniform(5, 40));
  riseStep(RiseStep::heatForced, forced, 300 + m_random.uniform(5, 40));
  if (!m_conduct.skipsHeatOff) riseStep(RiseStep::heatOff, forced, off + m_random.uniform(5, 40));
}

}  // namespace ductwright::sample
