#include "json.h"
#include "report/score.h"

namespace ductwright::report {
namespace {

using fleet::Criteria;
using verdict::Check;
using verdict::Criterion;
using verdict::CriterionVerdict;
using verdict::UnitVerdict;

void writeScore(Json& json, const std::optional<double>& score) {
  json.key("score");
  if (score) json.value(*score);
  else json.null();
}

// All of them, because a score means nothing without the criteria that it was judged by.
void writeCriteria(Json& json, const Criteria& c) {
  json.key("criteria").object();
  json.member("rule", c.rule == fleet::DecisionRule::guarded ? "guarded" : "simple").member("version", c.version);
  json.member("capability_ratio", c.capabilityRatio);
  json.member("capability_low", c.capabilityLow).member("capability_high", c.capabilityHigh);
  json.member("guard_low", c.guardLow).member("guard_high", c.guardHigh);
  json.member("close_low", c.closeLow).member("close_high", c.closeHigh);
  json.member("flow_low", c.flowLow).member("flow_high", c.flowHigh).member("flow_floor", c.flowFloor.si());
  json.member("reported_share", c.reportedShare).member("reported_floor", c.reportedFloor.si());
  json.member("heat_enable_ratio", c.heatEnableRatio).member("lockout_flow_tolerance", c.lockoutFlowTolerance);
  json.member("lockout_reported_share", c.lockoutReportedShare);
  json.member("rise_share", c.riseShare).member("rise_floor", c.riseFloor.si());
  json.member("limit_above_setpoint", c.limitAboveSetpoint.si()).member("ventilation_note", c.ventilationNote.si());
  json.member("cold_when_off", c.coldWhenOff.si());
  json.member("nameplate_share", c.nameplateShare).member("coil_model_share", c.coilModelShare);
  json.member("default_flow_share", c.defaultFlowShare).member("default_power_share", c.defaultPowerShare);
  json.member("default_temperature", c.defaultTemperature.si()).member("same_instrument", c.sameInstrument.si());
  json.member("humidity_ratio", c.humidityRatio);
  json.member("stroke_unknown", c.strokeUnknown.si()).member("settle", c.settle.si());
  json.member("lockout_wait", c.lockoutWait.si()).member("heat_on_wait", c.heatOnWait.si());
  json.member("heat_off_water_wait", c.heatOffWaterWait.si());
  json.member("heat_off_electric_wait", c.heatOffElectricWait.si());
  json.member("least_controllable", c.leastControllable.si());
  json.member("starved_damper", c.starvedDamper).member("valve_open", c.valveOpen);
  json.member("largest_correction", c.largestCorrection);
  json.end();
}

void writeCheck(Json& json, const Check& check) {
  json.object();
  json.member("criterion", key(check.criterion)).member("check", name(check.kind));
  json.member("step", fleet::stepName(check.procedure, check.step)).member("result", name(check.outcome));
  json.member("measured", check.measured).member("expected", check.expected);
  json.member("low", check.low).member("high", check.high);
  json.member("si_unit", verdict::unitSymbol(check.dimension)).member("u", check.u);
  json.member("conformity", check.conformity).member("close", check.close).member("because", because(check));
  json.end();
}

void writeUnit(Json& json, const fleet::Unit& unit, const UnitVerdict& verdict) {
  json.object().member("unit", unit.tag).member("result", name(verdict.outcome));
  writeScore(json, verdict.score);
  json.key("criteria").object();
  for (const Criterion criterion : {Criterion::airflow, Criterion::reheatLockout, Criterion::dischargeRise}) {
    const CriterionVerdict& of = verdict.of(criterion);
    json.key(key(criterion)).object().member("result", name(of.outcome));
    writeScore(json, of.score);
    json.member("because", because(of, criterion)).end();
  }
  json.end().key("checks").array();
  for (const Check& check : verdict.checks) writeCheck(json, check);
  json.end().end();
}

}  // namespace

std::string scoreJson(const fleet::Snapshot& project, const verdict::FleetVerdict& verdicts, std::string_view tag) {
  Json json;
  json.object().member("schema", 1).member("project", project.projectName);
  writeCriteria(json, project.criteria);
  const verdict::FleetCounts& counts = verdicts.counts;
  json.key("fleet").object().member("units", counts.units).member("pass", counts.pass).member("fail", counts.fail);
  json.member("cannot_tell", counts.cannotTell).member("untested", counts.untested).end();
  json.key("units").array();
  for (std::size_t i = 0; i < verdicts.units.size(); ++i) {
    const fleet::Unit& unit = project.units[i]->unit;
    if (tag.empty() || unit.tag == tag) writeUnit(json, unit, *verdicts.units[i]);
  }
  json.end().end();
  return json.take() + "\n";
}

}  // namespace ductwright::report
