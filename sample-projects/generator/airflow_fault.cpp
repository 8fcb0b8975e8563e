#include <cmath>

#include "fault.h"
#include "meter.h"

// What goes wrong with flows, with measuring them, and with writing them down.
namespace ductwright::sample {
namespace {

using namespace fleet;
using verdict::Criterion;
using verdict::Outcome;

const std::vector<Expectation> kFlowFails{{Criterion::airflow, Outcome::fail}};

bool plainBox(const Unit& unit) {
  return unit.kind == UnitKind::coolingOnly || unit.kind == UnitKind::reheat;
}
bool actualBox(const Unit& unit) {
  return plainBox(unit) && unit.flowBasis == FlowBasis::actual;
}
bool anyUnit(const Unit&) {
  return true;
}
bool inches(const Unit& unit, double size) {
  return std::abs(quantity::inInches(*unit.inletDiameter) - size) < 0.1;
}

std::function<bool(const Unit&)> ofKind(UnitKind kind) {
  return [kind](const Unit& unit) { return unit.kind == kind; };
}

void wrongCoefficient(PhysicalUnit& unit, Conduct&, Random& random) {
  unit.cold.loaded *= random.below(2) == 0 ? random.uniform(1.26, 1.32) : random.uniform(0.76, 0.80);
}

// The drift takes away more than half of the signal at the minimum.
void zeroDrift(PhysicalUnit& unit, Conduct&, Random& random) {
  unit.cold.zero = random.uniform(0.55, 0.65) * unit.cold.signal(unit.settings.coolingMin->si());
}

void minimumTooHigh(PhysicalUnit& unit, Conduct&, Random&) {
  unit.settings.coolingMin = *unit.settings.coolingMin * 2;
}

// The display shows L/s; the number went into the book as cfm.
void unitsMixed(PhysicalUnit&, Conduct& conduct, Random&) {
  conduct.displayFactor = quantity::kCfm / 1e-3;
}

void wrongInletSize(PhysicalUnit& unit, Conduct&, Random&) {
  unit.settings.inletDiameter = quantity::inches(12);
  unit.cold.loaded *= (12.0 / 10) * (12.0 / 10);
}

void basisMixed(PhysicalUnit& unit, Conduct&, Random&) {
  unit.cold.basis = unit.cold.assumed / kStandardDensity;
}

void starve(PhysicalUnit& unit, Conduct&, Random& random) {
  const double reach = random.uniform(0.70, 0.78) * unit.settings.coolingMax->si();
  unit.cold.pressure = unit.cold.openResistance * reach * reach;
}

const char* const kSameRatio = "reported and measured flow differ by one ratio at every step";

}  // namespace

const std::vector<Fault>& airflowFaults() {
  static const std::vector<Fault> faults{
      {"wrong flow coefficient", 1, ofKind(UnitKind::reheat), wrongCoefficient, kFlowFails, kSameRatio},
      {"zero drift of the flow sensor", 1, ofKind(UnitKind::coolingOnly), zeroDrift, kFlowFails,
       "right at maximum, far too little air at minimum"},
      {"minimum set too high", 1,
       [](const Unit& u) { return u.kind == UnitKind::reheat && u.heat == HeatKind::hotWater; },
       minimumTooHigh, kFlowFails, "twice the scheduled air at minimum; the setting was found so"},
      {"L/s written down as cfm", 1, ofKind(UnitKind::reheat), unitsMixed, kFlowFails,
       "reported over measured is 0.47 at every step"},
      {"wrong inlet size in the controller", 1,
       [](const Unit& u) { return u.kind == UnitKind::reheat && inches(u, 10); }, wrongInletSize, kFlowFails,
       "reported over measured is (12/10)² at every step"},
      {"standard flow taken as actual", 1, actualBox, basisMixed, kFlowFails,
       "reported over measured is the ratio of the air's densities"},
      {"hot inlet: wrong flow coefficient", 1, ofKind(UnitKind::dualDuct),
       [](PhysicalUnit& unit, Conduct&, Random&) { unit.hot.loaded *= 1.3; }, kFlowFails,
       "cold inlet right, hot inlet off by one ratio"},
      {"fan set too slow", 1, ofKind(UnitKind::seriesFan),
       [](PhysicalUnit& unit, Conduct&, Random&) { unit.fanFlow *= 0.72; }, kFlowFails,
       "less air at the outlets than the supply inlet takes in"},
      {"starved at the end of the duct", 3, [](const Unit& u) { return plainBox(u) && u.floor == "2"; },
       starve, kFlowFails, "short of air with the damper fully open"},
      {"read while the damper moved",
       1,
       ofKind(UnitKind::reheat),
       [](PhysicalUnit&, Conduct& conduct, Random&) { conduct.hurries = AirflowStep::coolingMax; },
       {{Criterion::airflow, Outcome::untested, "early"}},
       "waited 20 s of 150 s"},
      {"minimum not measured",
       1,
       ofKind(UnitKind::coolingOnly),
       [](PhysicalUnit&, Conduct& conduct, Random&) { conduct.skips = {AirflowStep::coolingMin}; },
       {{Criterion::airflow, Outcome::untested, "missing: cooling min"}},
       "no reading at the minimum"},
      {"second balance not finished",
       1,
       ofKind(UnitKind::reheat),
       [](PhysicalUnit&, Conduct& conduct, Random&) { conduct.abandonsBalance = true; },
       {{Criterion::airflow, Outcome::untested}},
       "run 2 has the maximum only"},
      {"unit not visited",
       1,
       anyUnit,
       [](PhysicalUnit&, Conduct& conduct, Random&) { conduct.visits = false; },
       {{Criterion::airflow, Outcome::untested}},
       "no reading at all"},
      {"instrument not good enough",
       1,
       ofKind(UnitKind::coolingOnly),
       [](PhysicalUnit&, Conduct& conduct, Random&) { conduct.flowInstrument = kCrudeVane; },
       {{Criterion::airflow, Outcome::cannotTell}},
       "±11.5 % against a tolerance of 10 %"},
      {"hood that disagrees", 4, [](const Unit& u) { return plainBox(u) && !inches(u, 6); },
       [](PhysicalUnit&, Conduct& conduct, Random&) { conduct.outletInstrument = kDisagreeingHood; },
       kFlowFails, "everything measured with one hood is high by one share"},
      {"readings copied from the schedule",
       5,
       actualBox,
       [](PhysicalUnit&, Conduct& conduct, Random&) { conduct.copiesDesign = true; },
       {{Criterion::airflow, Outcome::pass}},
       "measured equals design to the last digit"},
  };
  return faults;
}

}  // namespace ductwright::sample
