#include "fault.h"

// What goes wrong with heaters, coils and their proof.
namespace ductwright::sample {
namespace {

using namespace fleet;
using verdict::Criterion;
using verdict::Outcome;

bool electricBox(const Unit& unit) {
  return unit.kind == UnitKind::reheat &&
         (unit.heat == HeatKind::electricStaged || unit.heat == HeatKind::electricModulating);
}
bool stagedBox(const Unit& unit) {
  return unit.kind == UnitKind::reheat && unit.heat == HeatKind::electricStaged;
}
bool modulatingBox(const Unit& unit) {
  return unit.kind == UnitKind::reheat && unit.heat == HeatKind::electricModulating;
}
bool waterBox(const Unit& unit) {
  return unit.kind == UnitKind::reheat && unit.heat == HeatKind::hotWater;
}
bool heated(const Unit& unit) {
  return unit.heat != HeatKind::none;
}

const std::vector<Expectation> kLockoutFails{{Criterion::reheatLockout, Outcome::fail}};
const std::vector<Expectation> kRiseFails{{Criterion::dischargeRise, Outcome::fail}};

void withoutLockout(PhysicalUnit& unit, Conduct&, Random&) {
  unit.heater.lockout = false;
  unit.heater.switchFlow = 0;
}

void strongerHeater(PhysicalUnit& unit, Conduct&, Random&) {
  unit.heater.power *= 1.45;
  unit.heater.limited = false;
}

// An air lock: hardly any water passes the open valve.
void weakCoil(PhysicalUnit& unit, Conduct& conduct, Random& random) {
  unit.heater.water *= random.uniform(0.10, 0.16);
  conduct.metersWater = false;
}

}  // namespace

const std::vector<Fault>& heatFaults() {
  static const std::vector<Fault> faults{
      {"heat on without air: lockout missing, airflow switch bridged", 1, electricBox, withoutLockout,
       kLockoutFails, "heat on at half of the reheat flow"},
      {"water heat on without air: lockout missing", 1, waterBox, withoutLockout, kLockoutFails,
       "valve open at half of the reheat flow"},
      {"contactor welded",
       1,
       stagedBox,
       [](PhysicalUnit& unit, Conduct&, Random&) { unit.heater.welded = true; },
       {{Criterion::reheatLockout, Outcome::fail}, {Criterion::dischargeRise, Outcome::fail}},
       "heat on without a call, warm air with the heat off"},
      {"heater does not come on",
       1,
       electricBox,
       [](PhysicalUnit& unit, Conduct& conduct, Random&) {
         unit.heater.works = false;
         conduct.metersPower = false;
       },
       {{Criterion::reheatLockout, Outcome::fail}, {Criterion::dischargeRise, Outcome::fail}},
       "no heat with a call and full air"},
      {"trip not proven",
       1,
       stagedBox,
       [](PhysicalUnit&, Conduct& conduct, Random&) { conduct.skipsTrip = true; },
       {{Criterion::reheatLockout, Outcome::untested}},
       "no point with low air after the heat was on"},
      {"valve leaks", 1, waterBox,
       [](PhysicalUnit& unit, Conduct&, Random& random) { unit.heater.leak = random.uniform(0.07, 0.12); },
       kRiseFails, "warm air with the valve shut"},
      {"weak coil", 1, waterBox, weakCoil, kRiseFails, "far less rise than water and coil promise"},
      {"larger heater than scheduled, discharge not limited", 1, modulatingBox, strongerHeater, kRiseFails,
       "discharge above 90 °F in normal control"},
      {"stage without heat", 1, stagedBox,
       [](PhysicalUnit& unit, Conduct& conduct, Random&) {
         unit.heater.deadStages = 1;
         conduct.metersPower = false;
       },
       kRiseFails, "half of the rise that both stages promise"},
      {"coil still warm when read",
       1,
       waterBox,
       [](PhysicalUnit&, Conduct& conduct, Random&) { conduct.hurriesHeatOff = true; },
       {{Criterion::dischargeRise, Outcome::untested, "early"}},
       "waited 240 s of 900 s"},
      {"heat off not read",
       1,
       heated,
       [](PhysicalUnit&, Conduct& conduct, Random&) { conduct.skipsHeatOff = true; },
       {{Criterion::dischargeRise, Outcome::untested, "missing: heat off"}},
       "no reading with the heat off"},
      {"water temperature not read",
       1,
       waterBox,
       [](PhysicalUnit&, Conduct& conduct, Random&) {
         conduct.metersWater = conduct.readsEnteringWater = false;
       },
       {{Criterion::dischargeRise, Outcome::untested}},
       "nothing to expect the rise from"},
      {"balanced again after the heat was proven",
       2,
       [](const Unit& unit) { return electricBox(unit) || waterBox(unit); },
       [](PhysicalUnit&, Conduct& conduct, Random&) { conduct.balancesAgain = true; },
       {{Criterion::airflow, Outcome::pass},
        {Criterion::reheatLockout, Outcome::untested, "void"},
        {Criterion::dischargeRise, Outcome::untested, "void"}},
       "airflow run 2 is later than lockout and rise"},
  };
  return faults;
}

}  // namespace ductwright::sample
