#include "verdict/verdict.h"

namespace ductwright::verdict {

std::string_view name(Outcome outcome) {
  switch (outcome) {
    case Outcome::pass: return "pass";
    case Outcome::fail: return "fail";
    case Outcome::cannotTell: return "cannot tell";
    case Outcome::untested: return "untested";
    case Outcome::notApplicable: break;
  }
  return "not applicable";
}

std::string_view name(Criterion criterion) {
  switch (criterion) {
    case Criterion::airflow: return "airflow";
    case Criterion::reheatLockout: return "reheat lockout";
    case Criterion::dischargeRise: break;
  }
  return "discharge rise";
}

std::string_view key(Criterion criterion) {
  switch (criterion) {
    case Criterion::airflow: return "airflow";
    case Criterion::reheatLockout: return "reheat_lockout";
    case Criterion::dischargeRise: break;
  }
  return "discharge_rise";
}

std::string_view name(CheckKind kind) {
  switch (kind) {
    case CheckKind::measuredAgainstDesign: return "measured against design";
    case CheckKind::reportedAgainstMeasured: return "reported against measured";
    case CheckKind::onWithoutCall: return "on without a call";
    case CheckKind::onWhenAllowed: return "on when allowed";
    case CheckKind::heatsWhenItShould: return "heats when it should";
    case CheckKind::trip: return "trip";
    case CheckKind::rise: return "rise";
    case CheckKind::limit: return "limit";
    case CheckKind::coldWhenOff: break;
  }
  return "cold when off";
}

std::string_view unitSymbol(quantity::Dimension dimension) {
  switch (dimension) {
    case quantity::Dimension::airflow:
    case quantity::Dimension::waterFlow: return "m3/s";
    case quantity::Dimension::temperature:
    case quantity::Dimension::temperatureDifference: return "K";
    case quantity::Dimension::pressure: return "Pa";
    case quantity::Dimension::power: return "W";
    case quantity::Dimension::length:
    case quantity::Dimension::elevation: return "m";
    case quantity::Dimension::velocity: return "m/s";
    case quantity::Dimension::area: return "m2";
    case quantity::Dimension::duration: return "s";
    case quantity::Dimension::flowCoefficient: return "m3/s/sqrt(Pa)";
    case quantity::Dimension::ratio:
    case quantity::Dimension::count:
    case quantity::Dimension::flag:
    case quantity::Dimension::number: break;
  }
  return "1";
}

}  // namespace ductwright::verdict
