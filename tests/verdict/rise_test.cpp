#include <gtest/gtest.h>

#include <cmath>

#include "site.h"

namespace ductwright::verdict::testing {
namespace {

using enum fleet::ReadingQuantity;
using fleet::HeatKind;
using quantity::cfm;
using quantity::fahrenheit;
using quantity::fahrenheitDegrees;
using quantity::kFahrenheitDegree;

// J/(m³·K) of air at sea level, W = 0.008, by the definition: p (1006 + 1860 W) / (287.042 T (1 + 1.607858 W)).
double heatCapacity(double kelvin) { return 101325 * (1006 + 1860 * 0.008) / (287.042 * kelvin * (1 + 1.607858 * 0.008)); }

constexpr double kSqrt3 = 1.7320508075688772;

class Heater : public Site {
 public:
  Heater() {
    unit().kind = fleet::UnitKind::reheat;
    unit().heat = HeatKind::electricStaged;
    unit().heaterPower = quantity::kilowatts(6);
    unit().heaterStages = 3;
    unit().zoneHeatingSetpoint = fahrenheit(70);
    instrument("H1", "flow", 0.03).instrument("T1", "temperature", 0, fahrenheitDegrees(0.5).si());
    instrument("T2", "temperature", 0, fahrenheitDegrees(0.5).si()).instrument("P1", "power", 0.02);
  }
  Heater& at(RiseStep step, ReadingQuantity q, double si, const How& how = {}) {
    read(Procedure::dischargeRise, code(step), q, si, how);
    return *this;
  }
  Heater& air(RiseStep step, double entering, double discharge, How how = {}) {
    how.instrument = "T1";
    at(step, enteringAirTemperature, fahrenheit(entering).si(), how);
    how.instrument = "T2";
    return at(step, dischargeAirTemperature, fahrenheit(discharge).si(), how);
  }
  Heater& flow(RiseStep step, double flowCfm, How how = {}) {
    how.instrument = "H1";
    return at(step, measuredFlow, cfm(flowCfm).si(), how);
  }
  // 6 kW into 600 cfm from 55 °F warms by about 31.8 °F.
  Heater& proven() {
    air(RiseStep::heatOn, 55, 86).flow(RiseStep::heatOn, 600).at(RiseStep::heatOn, stagesOn, 3);
    return air(RiseStep::heatOff, 55, 55.5);
  }
  [[nodiscard]] CriterionVerdict rise() const { return verdict().of(Criterion::dischargeRise); }
  [[nodiscard]] std::string reason() const { return because(rise(), Criterion::dischargeRise); }
};

TEST(DischargeRise, electricHeatWarmsByItsPowerOverTheAirsCapacity) {
  const auto v = Heater().proven().verdict();
  const Check* check = find(v, CheckKind::rise, RiseStep::heatOn);
  ASSERT_TRUE(check);
  const double q = cfm(600).si(), expected = 6000 / (heatCapacity(fahrenheit(55).si()) * q);
  EXPECT_NEAR(check->expected, expected, 1e-9);
  EXPECT_NEAR(check->expected / kFahrenheitDegree, 31.1, 0.5);
  EXPECT_NEAR(check->measured, 31 * kFahrenheitDegree - expected, 1e-9) << "y is the difference";
  EXPECT_NEAR(check->high, 0.15 * expected, 1e-9);
  // Nameplate ±5 %, flow ±3 %, two thermometers ±0.5 °F, all rectangular.
  const double t = 0.5 * kFahrenheitDegree / kSqrt3;
  const double u = std::sqrt(std::pow(0.05 / kSqrt3 * expected, 2) + std::pow(0.03 / kSqrt3 * expected, 2) + 2 * t * t);
  EXPECT_NEAR(check->u, u, 1e-9);
  EXPECT_EQ(v.of(Criterion::dischargeRise).outcome, Outcome::pass);
}

TEST(DischargeRise, theShareOfStagesOnAndTheMeasuredPowerCount) {
  Heater part;
  part.proven();
  part.record.readings[3].value = 2;  // stages on
  ASSERT_EQ(part.record.readings[3].quantity, stagesOn);
  const double full = find(Heater().proven().verdict(), CheckKind::rise, RiseStep::heatOn)->expected;
  EXPECT_NEAR(find(part.verdict(), CheckKind::rise, RiseStep::heatOn)->expected, full * 2 / 3, 1e-9);
  part.at(RiseStep::heatOn, heaterPower, 5000, {.instrument = "P1"});
  EXPECT_NEAR(find(part.verdict(), CheckKind::rise, RiseStep::heatOn)->expected, full * 5 / 6, 1e-9);
}

TEST(DischargeRise, smallRisesAreAllowedTwoDegrees) {
  Heater box;
  box.unit().heaterPower = quantity::kilowatts(1);
  EXPECT_NEAR(find(box.proven().verdict(), CheckKind::rise, RiseStep::heatOn)->high, 2 * kFahrenheitDegree, 1e-12);
}

TEST(DischargeRise, forcedHeatIsPreferredElseHeatOn) {
  Heater box = Heater().proven();
  box.air(RiseStep::heatForced, 55, 86).flow(RiseStep::heatForced, 600);
  const auto v = box.verdict();
  EXPECT_TRUE(find(v, CheckKind::rise, RiseStep::heatForced));
  EXPECT_FALSE(find(v, CheckKind::rise, RiseStep::heatOn));
  EXPECT_TRUE(find(v, CheckKind::limit, RiseStep::heatOn));
  Heater early = Heater().proven();
  early.air(RiseStep::heatForced, 55, 86, {.waited = 299.0F}).flow(RiseStep::heatForced, 600, {.waited = 299.0F});
  EXPECT_TRUE(find(early.verdict(), CheckKind::rise, RiseStep::heatOn));
}

TEST(DischargeRise, theDischargeLimitIsTheUnitsElseTwentyAboveTheHeatingSetpoint) {
  const auto limit = [](double discharge, std::optional<quantity::Temperature> own) {
    Heater box;
    box.unit().dischargeLimit = own;
    return *find(box.air(RiseStep::heatOn, 55, discharge).verdict(), CheckKind::limit, RiseStep::heatOn);
  };
  EXPECT_EQ(limit(90, std::nullopt).outcome, Outcome::pass) << "on the limit";
  EXPECT_EQ(limit(90.1, std::nullopt).outcome, Outcome::fail);
  EXPECT_EQ(limit(90.1, fahrenheit(95)).outcome, Outcome::pass);
  EXPECT_NEAR(limit(80, std::nullopt).u, 0.5 * kFahrenheitDegree / kSqrt3, 1e-12);
  EXPECT_TRUE(std::isnan(limit(80, std::nullopt).low));
  Heater none;
  none.unit().zoneHeatingSetpoint.reset();
  EXPECT_EQ(because(*find(none.air(RiseStep::heatOn, 55, 80).verdict(), CheckKind::limit, RiseStep::heatOn)),
            "missing: discharge limit");
}

TEST(DischargeRise, fifteenDegreesAboveTheZoneAreNoted) {
  EXPECT_TRUE(find(Heater().air(RiseStep::heatOn, 55, 85.2).verdict(), NoteKind::ventilationEffectiveness));
  EXPECT_FALSE(find(Heater().air(RiseStep::heatOn, 55, 84.8).verdict(), NoteKind::ventilationEffectiveness));
}

TEST(DischargeRise, heatOffMustBeCold) {
  const auto off = [](double discharge) {
    return *find(Heater().air(RiseStep::heatOff, 55, discharge).verdict(), CheckKind::coldWhenOff, RiseStep::heatOff);
  };
  EXPECT_EQ(off(57).outcome, Outcome::pass);
  EXPECT_EQ(off(57.1).outcome, Outcome::fail);
  EXPECT_EQ(off(52.9).outcome, Outcome::fail);
  EXPECT_NEAR(off(56).u, std::sqrt(2.0) * 0.5 * kFahrenheitDegree / kSqrt3, 1e-12);
}

TEST(DischargeRise, oneThermometerForBothLosesTheCommonError) {
  Heater box;
  box.at(RiseStep::heatOff, enteringAirTemperature, fahrenheit(55).si(), {.instrument = "T1"});
  box.at(RiseStep::heatOff, dischargeAirTemperature, fahrenheit(56).si(), {.instrument = "T1"});
  const auto u = [](const Heater& h) { return find(h.verdict(), CheckKind::coldWhenOff, RiseStep::heatOff)->u; };
  EXPECT_NEAR(u(box), std::sqrt(2.0) * 0.3 * kFahrenheitDegree / kSqrt3, 1e-12);
  Heater unnamed;
  unnamed.at(RiseStep::heatOff, enteringAirTemperature, fahrenheit(55).si());
  unnamed.at(RiseStep::heatOff, dischargeAirTemperature, fahrenheit(56).si());
  EXPECT_NEAR(u(unnamed), std::sqrt(2.0) * kFahrenheitDegree / kSqrt3, 1e-12) << "none named: independent, ±1 °F each";
  Heater stranger;  // a serial that the project does not know is one instrument all the same
  stranger.at(RiseStep::heatOff, enteringAirTemperature, fahrenheit(55).si(), {.instrument = "X"});
  stranger.at(RiseStep::heatOff, dischargeAirTemperature, fahrenheit(56).si(), {.instrument = "X"});
  EXPECT_NEAR(u(stranger), u(box), 1e-12);
  Heater fine;  // an instrument that states its resolution
  fleet::Accuracy accurate = accuracy("temperature", 0, 0.2);
  accurate.resolution = 0.05;
  fine.add("T9", accurate);
  fine.at(RiseStep::heatOff, enteringAirTemperature, 290, {.instrument = "T9"});
  fine.at(RiseStep::heatOff, dischargeAirTemperature, 290.5, {.instrument = "T9"});
  EXPECT_NEAR(u(fine), std::sqrt(2.0) * 0.05 / kSqrt3, 1e-12);
}

TEST(DischargeRise, allThreeChecksAreNeeded) {
  EXPECT_EQ(Heater().rise().outcome, Outcome::untested);
  EXPECT_EQ(Heater().reason(), "missing: heat on");
  Heater noOff;
  noOff.air(RiseStep::heatOn, 55, 86).flow(RiseStep::heatOn, 600);
  EXPECT_EQ(noOff.reason(), "missing: heat off");
  Heater cooling;
  cooling.unit().heat = HeatKind::none;
  EXPECT_EQ(cooling.rise().outcome, Outcome::notApplicable);
}

TEST(DischargeRise, heatOffWaitsByTheKindOfHeat) {
  const auto off = [](HeatKind heat, float waited) {
    Heater box;
    box.unit().heat = heat;
    return because(*find(box.air(RiseStep::heatOff, 55, 55, {.waited = waited}).verdict(), CheckKind::coldWhenOff, RiseStep::heatOff));
  };
  EXPECT_EQ(off(HeatKind::electricStaged, 179), "early");
  EXPECT_EQ(off(HeatKind::electricStaged, 180), "");
  EXPECT_EQ(off(HeatKind::hotWater, 899), "early");
  EXPECT_EQ(off(HeatKind::hotWater, 900), "");
}

TEST(DischargeRise, whatIsMissingIsNamed) {
  Heater box;
  EXPECT_EQ(because(*find(box.at(RiseStep::heatOn, measuredFlow, 0.2).verdict(), CheckKind::rise, RiseStep::heatOn)),
            "missing: discharge air temperature at heat on");
  box.at(RiseStep::heatOn, dischargeAirTemperature, 300);
  EXPECT_EQ(because(*find(box.verdict(), CheckKind::rise, RiseStep::heatOn)), "missing: entering air temperature at heat on");
  box.at(RiseStep::heatOn, enteringAirTemperature, 290);
  box.unit().heaterPower.reset();
  EXPECT_EQ(because(*find(box.verdict(), CheckKind::rise, RiseStep::heatOn)), "no expected rise: heater power at heat on");
}

TEST(DischargeRise, theReportedFlowStandsInWithTheProjectsDefault) {
  Heater box;
  box.air(RiseStep::heatOn, 55, 86).at(RiseStep::heatOn, reportedFlow, cfm(600).si());
  const auto v = box.verdict();
  const Check* check = find(v, CheckKind::rise, RiseStep::heatOn);
  const double t = 0.5 * kFahrenheitDegree / kSqrt3;
  EXPECT_NEAR(check->u, std::sqrt(2 * std::pow(0.05 / kSqrt3 * check->expected, 2) + 2 * t * t), 1e-9);
}

class WaterHeater : public Heater {
 public:
  WaterHeater() {
    unit().heat = HeatKind::hotWater;
    unit().heaterPower.reset();
    unit().heatingMax = cfm(600);
    unit().designEnteringAir = fahrenheit(55);
    unit().designDischarge = fahrenheit(95);
    unit().coilEnteringWater = fahrenheit(160);
    unit().coilWaterFlow = quantity::gallonsPerMinute(2);
    instrument("W1", "water flow", 0.04);
  }
};

TEST(DischargeRise, hotWaterIsJudgedByTheWaterSide) {
  WaterHeater box;
  box.air(RiseStep::heatOn, 55, 85).flow(RiseStep::heatOn, 600);
  box.at(RiseStep::heatOn, enteringWaterTemperature, fahrenheit(160).si(), {.instrument = "T1"});
  box.at(RiseStep::heatOn, leavingWaterTemperature, fahrenheit(140).si(), {.instrument = "T2"});
  box.at(RiseStep::heatOn, waterFlow, quantity::gallonsPerMinute(2).si(), {.instrument = "W1"});
  const auto v = box.verdict();
  const Check* check = find(v, CheckKind::rise, RiseStep::heatOn);
  const double q = cfm(600).si(), w = quantity::gallonsPerMinute(2).si();
  const double capacity = heatCapacity(fahrenheit(55).si()) * q, cooling = 20 * kFahrenheitDegree;
  const double expected = 4.115e6 * w * cooling / capacity;
  EXPECT_NEAR(check->expected, expected, 1e-9);
  const double t2 = 2 * std::pow(0.5 * kFahrenheitDegree / kSqrt3, 2);
  const double u2 = std::pow(expected * 0.04 / kSqrt3, 2) + t2 * std::pow(4.115e6 * w / capacity, 2) +
                    std::pow(expected * 0.03 / kSqrt3, 2) + t2;
  EXPECT_NEAR(check->u, std::sqrt(u2), 1e-9);
}

TEST(DischargeRise, hotWaterWithoutTheWaterSideIsJudgedByTheCoilFittedToItsScheduledPoint) {
  WaterHeater box;
  box.air(RiseStep::heatForced, 55, 95).flow(RiseStep::heatForced, 600);
  box.at(RiseStep::heatForced, enteringWaterTemperature, fahrenheit(160).si(), {.instrument = "T1"});
  box.at(RiseStep::heatForced, valvePosition, 0.95);
  const auto v = box.verdict();
  const Check* check = find(v, CheckKind::rise, RiseStep::heatForced);
  ASSERT_TRUE(check);
  EXPECT_NEAR(check->expected, 40 * kFahrenheitDegree, 1e-6) << "at the scheduled point the model gives the schedule";
  // Cooler water by a fifth of the difference: the rise falls by a fifth, since UA and both streams are the same.
  WaterHeater cooler = box;
  cooler.record.readings[3].value = fahrenheit(55 + 105 * 0.8).si();
  EXPECT_NEAR(find(cooler.verdict(), CheckKind::rise, RiseStep::heatForced)->expected, 32 * kFahrenheitDegree, 1e-6);
  // Less air: warmer, but less than in proportion.
  WaterHeater less = box;
  less.record.readings[2].value = cfm(300).si();
  EXPECT_GT(find(less.verdict(), CheckKind::rise, RiseStep::heatForced)->expected, 45 * kFahrenheitDegree);
  EXPECT_LT(find(less.verdict(), CheckKind::rise, RiseStep::heatForced)->expected, 80 * kFahrenheitDegree);
  // A valve that is not open says nothing.
  WaterHeater shut = box;
  shut.record.readings[4].value = 0.94;
  EXPECT_EQ(find(shut.verdict(), CheckKind::rise, RiseStep::heatOn), nullptr);
  EXPECT_EQ(because(*find(shut.verdict(), CheckKind::rise, RiseStep::heatForced)),
            "no expected rise: open valve or the water side at heat forced");
}

TEST(DischargeRise, inASeriesUnitTheEnteringAirIsTheMixAndTheFlowTheFans) {
  Heater box;
  box.unit().kind = fleet::UnitKind::seriesFan;
  box.air(RiseStep::heatOn, 0, 100);
  box.record.readings.erase(box.record.readings.begin());  // no entering air
  box.at(RiseStep::heatOn, primaryAirTemperature, fahrenheit(55).si(), {.instrument = "T1"});
  box.at(RiseStep::heatOn, plenumAirTemperature, fahrenheit(75).si(), {.instrument = "T1"});
  box.at(RiseStep::heatOn, fanFlow, cfm(600).si(), {.instrument = "H1"}).flow(RiseStep::heatOn, 200);
  // By mass, m ∝ Q / T: (200 / 514.67 · 55 + 400 / 534.67 · 75) / (200 / 514.67 + 400 / 534.67) = 68.164 °F.
  const double cold = 200 / 514.67, warm = 400 / 534.67;
  const double mix = (cold * 55 + warm * 75) / (cold + warm);
  EXPECT_NEAR(mix, 68.16, 0.01);
  const auto v = box.verdict();
  const Check* check = find(v, CheckKind::rise, RiseStep::heatOn);
  ASSERT_EQ(check->outcome, Outcome::pass);
  const double expected = 6000 / (heatCapacity(fahrenheit(mix).si()) * cfm(600).si());
  EXPECT_NEAR(check->expected, expected, 1e-9);
  EXPECT_NEAR(check->expected + check->measured, (100 - mix) * kFahrenheitDegree, 1e-9);
}

TEST(DischargeRise, inAParallelUnitWithTheHeaterAtTheDischargePrimaryAndFanMix) {
  Heater box;
  box.unit().kind = fleet::UnitKind::parallelFan;
  box.at(RiseStep::heatOff, primaryAirTemperature, fahrenheit(55).si()).flow(RiseStep::heatOff, 200);
  box.at(RiseStep::heatOff, plenumAirTemperature, fahrenheit(75).si());
  box.at(RiseStep::heatOff, fanFlow, cfm(400).si(), {.instrument = "H1"});
  box.at(RiseStep::heatOff, dischargeAirTemperature, fahrenheit(69).si());
  const double cold = 200 / 514.67, warm = 400 / 534.67;
  const auto v = box.verdict();
  EXPECT_NEAR(find(v, CheckKind::coldWhenOff, RiseStep::heatOff)->measured,
              (69 - (cold * 55 + warm * 75) / (cold + warm)) * kFahrenheitDegree, 1e-9);
}

TEST(DischargeRise, aHeatBalanceThatDisagreesNamesTheReadingToRepeat) {
  EXPECT_FALSE(find(Heater().proven().verdict(), NoteKind::heatBalance));
  Heater box;
  box.air(RiseStep::heatOn, 55, 86).flow(RiseStep::heatOn, 900).at(RiseStep::heatOn, heaterPower, 6000, {.instrument = "P1"});
  const auto v = box.verdict();
  const Note* note = find(v, NoteKind::heatBalance);
  ASSERT_TRUE(note);
  EXPECT_NEAR(note->value, 6000 / (heatCapacity(fahrenheit(55).si()) * 31 * kFahrenheitDegree), 1e-9);
  EXPECT_EQ(note->quantity, measuredFlow) << "±3 % of flow outweighs ±2 % of power and ±0.5 °F of 31";
}

}  // namespace
}  // namespace ductwright::verdict::testing
