#include "verdict/verdict.h"

// Reasons in words, as the interchange writes them.
namespace ductwright::verdict {
namespace {

std::string_view thing(Lacking lacking) {
  switch (lacking) {
    case Lacking::nothing:
    case Lacking::step: return "";
    case Lacking::callBelow: return "call below the threshold";
    case Lacking::callAtFlow: return "call at reheat flow";
    case Lacking::trip: return "trip";
    case Lacking::heatCall: return "heat call";
    case Lacking::heatOn: return "heat on";
    case Lacking::flow: return "flow";
    case Lacking::fanFlow: return "fan flow";
    case Lacking::primaryFlow: return "primary flow";
    case Lacking::enteringAir: return "entering air temperature";
    case Lacking::primaryAir: return "primary air temperature";
    case Lacking::plenumAir: return "plenum air temperature";
    case Lacking::dischargeAir: return "discharge air temperature";
    case Lacking::dischargeLimit: return "discharge limit";
    case Lacking::heaterPower: return "heater power";
    case Lacking::valveOpen: return "open valve or the water side";
    case Lacking::enteringWater: return "entering water temperature";
    case Lacking::coilPoint: break;
  }
  return "coil's scheduled point";
}

// "missing: cooling min", "missing: trip", "missing: plenum air temperature at heat on".
std::string lackingText(Lacking lacking, fleet::Procedure procedure, int step) {
  const std::string stepWord = fleet::stepName(procedure, step);
  switch (lacking) {
    case Lacking::nothing: return {};
    case Lacking::step: return stepWord;
    case Lacking::callBelow:
    case Lacking::callAtFlow:
    case Lacking::trip:
    case Lacking::dischargeLimit:
    case Lacking::coilPoint: return std::string(thing(lacking));
    default: break;
  }
  const std::string at = procedure == fleet::Procedure::reheatLockout ? " at point " : " at ";
  return std::string(thing(lacking)) + at + stepWord;
}

std::string becauseText(Because because, Lacking lacking, fleet::Procedure procedure, int step) {
  switch (because) {
    case Because::none: return {};
    case Because::outside: return "outside";
    case Because::notCapable: return "instrument not capable";
    case Because::guardBand: return "too near a limit";
    case Because::early: return "early";
    case Because::voided: return "void";
    case Because::missing: return "missing: " + lackingText(lacking, procedure, step);
    case Because::noReference:
      return procedure == fleet::Procedure::airflow ? "no scheduled flow" : "no reference flow";
    case Because::withoutCall: return "heat on without a call";
    case Because::noExpectation: break;
  }
  return "no expected rise: " + lackingText(lacking, procedure, step);
}

}  // namespace

std::string because(const Check& check) {
  return becauseText(check.because, check.lacking, check.procedure, check.step);
}

std::string because(const CriterionVerdict& verdict, Criterion criterion) {
  return becauseText(verdict.because, verdict.lacking, procedureOf(criterion), verdict.step);
}

}  // namespace ductwright::verdict
