#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "fleet_for_tests.h"
#include "verdict/patterns.h"

namespace ductwright::verdict {
namespace {

using fleet::AirflowStep;
using fleet::Party;
using fleet::ReadingQuantity;
using fleet::RiseStep;
using fleet::Severity;
using fleet::Unit;
using fleet::UnitKind;
using quantity::cfm;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

Check failed(CheckKind kind, int step, double measured, double expected, double low, double high,
             double u = 0) {
  Check c;
  c.kind = kind;
  c.step = step;
  c.outcome = Outcome::fail;
  c.because = Because::outside;
  c.measured = measured;
  c.expected = expected;
  c.low = low;
  c.high = high;
  c.u = u;
  const bool lockout = kind == CheckKind::onWithoutCall || kind == CheckKind::onWhenAllowed ||
                       kind == CheckKind::heatsWhenItShould || kind == CheckKind::trip;
  const bool airflow = kind == CheckKind::measuredAgainstDesign || kind == CheckKind::reportedAgainstMeasured;
  c.criterion = airflow ? Criterion::airflow : lockout ? Criterion::reheatLockout : Criterion::dischargeRise;
  c.procedure = procedureOf(c.criterion);
  c.dimension = airflow                    ? quantity::Dimension::airflow
                : lockout                  ? quantity::Dimension::ratio
                : kind == CheckKind::limit ? quantity::Dimension::temperature
                                           : quantity::Dimension::temperatureDifference;
  return c;
}

Check flowAt(AirflowStep step, double measured, double design) {
  return failed(CheckKind::measuredAgainstDesign, code(step), cfm(measured).si(), cfm(design).si(),
                cfm(design * 0.9).si(), cfm(design * 1.1).si(), cfm(6).si());
}
Check reportedAt(AirflowStep step, double reported, double measured, Outcome outcome) {
  Check c = failed(CheckKind::reportedAgainstMeasured, code(step), cfm(reported - measured).si(),
                   cfm(measured).si(), cfm(-0.1 * measured).si(), cfm(0.1 * measured).si(), cfm(6).si());
  c.outcome = outcome;
  return c;
}
Check pointOn(int step, double share) {
  return failed(CheckKind::onWhenAllowed, step, share, kNone, 0.75, kNone, 0.02);
}
Check pointOff(int step, double share) {
  return failed(CheckKind::heatsWhenItShould, step, share, kNone, kNone, 0.90, 0.02);
}
Check riseOf(double measured, double expected) {
  return failed(
      CheckKind::rise, code(RiseStep::heatForced), quantity::fahrenheitDegrees(measured - expected).si(),
      quantity::fahrenheitDegrees(expected).si(), quantity::fahrenheitDegrees(-0.15 * expected).si(),
      quantity::fahrenheitDegrees(0.15 * expected).si(), 0.3);
}
Check coldOf(double degrees) {
  return failed(CheckKind::coldWhenOff, code(RiseStep::heatOff), quantity::fahrenheitDegrees(degrees).si(), 0,
                quantity::fahrenheitDegrees(-2).si(), quantity::fahrenheitDegrees(2).si(), 0.3);
}

struct Case {
  FleetForTests fleet = soundFleet();
  std::string tag;
  UnitVerdict verdict;

  explicit Case(std::string unit) : tag(std::move(unit)) {}
  std::vector<Raised> raised() { return deficienciesOf(*fleet.project.unit(tag), verdict, fleet.project); }
  // The only one that is raised.
  Raised one() {
    const auto all = raised();
    EXPECT_EQ(all.size(), 1U);
    return all.empty() ? Raised{} : all.front();
  }
  void read(fleet::Procedure procedure, int step, ReadingQuantity q, double value, const char* serial = "") {
    fleet.change(tag, [&](fleet::UnitRecord& r) {
      fleet::Reading reading;
      reading.procedure = procedure;
      reading.step = step;
      reading.quantity = q;
      reading.value = value;
      reading.waited = 300.0F;
      reading.takenAt = fleet::Timestamp::fromText("2026-03-04T10:15Z");
      reading.takenBy = fleet::Word("A. Marsh");
      reading.instrument = fleet::Word(serial);
      r.readings.push_back(reading);
    });
  }
};

TEST(Deficiencies, NoneWhereNothingFailed) {
  Case c("1-1");
  Check passed = flowAt(AirflowStep::coolingMax, 600, 600);
  passed.outcome = Outcome::pass;
  Check open = flowAt(AirflowStep::coolingMin, 100, 180);
  open.outcome = Outcome::cannotTell;
  c.verdict.checks = {passed, open};
  EXPECT_TRUE(c.raised().empty());
}

TEST(Deficiencies, OneForAllStepsThatAreStarved) {
  Case c("1-1");
  c.verdict.checks = {flowAt(AirflowStep::coolingMax, 420, 600), flowAt(AirflowStep::heatingMax, 250, 300)};
  c.verdict.notes = {
      {NoteKind::starved, Criterion::airflow, code(AirflowStep::coolingMax), cfm(420).si(), 1.0},
      {NoteKind::starved, Criterion::airflow, code(AirflowStep::heatingMax), cfm(250).si(), 1.0}};
  const Raised r = c.one();
  EXPECT_EQ(r.cause, "airflow-starved");
  EXPECT_EQ(r.party, Party::mechanicalContractor);
  EXPECT_EQ(r.severity, Severity::major);
  EXPECT_EQ(r.title, "Short of air with the damper open: 1-1, Room 101, floor 1");
  EXPECT_THAT(r.evidence, AllOf(HasSubstr("540 cfm to 660 cfm"), HasSubstr("is 420 cfm ± 12 cfm"),
                                HasSubstr("Heating max"), HasSubstr("1. duct static pressure"),
                                Not(HasSubstr("Caution"))));
  EXPECT_THAT(
      r.closes,
      AllOf(
          HasSubstr("A new airflow run: measured flow at cooling max 540 cfm to 660 cfm;"),
          HasSubstr("measured flow at heating max 270 cfm to 330 cfm, each 150 s or more after the command."),
          HasSubstr("voids them")));
}

TEST(Deficiencies, SayHowTheReadingWasTakenAndWhatWasReadWithIt) {
  Case c("1-1");
  fleet::Instrument hood;
  hood.serial = "H-12";
  hood.description = "flow hood";
  c.fleet.project.instruments.push_back(hood);
  c.read(fleet::Procedure::airflow, code(AirflowStep::coolingMax), ReadingQuantity::measuredFlow,
         cfm(420).si(), "H-12");
  c.read(fleet::Procedure::airflow, code(AirflowStep::coolingMax), ReadingQuantity::damperPosition, 1);
  c.read(fleet::Procedure::airflow, code(AirflowStep::coolingMin), ReadingQuantity::damperPosition, 0.3);
  c.verdict.checks = {flowAt(AirflowStep::coolingMax, 420, 600)};
  const Raised r = c.one();
  EXPECT_THAT(r.evidence,
              HasSubstr("read with H-12 (flow hood) by A. Marsh, 2026-03-04 10:15, 300 s after the command"));
  EXPECT_THAT(r.evidence, HasSubstr("With it: damper position 100.0 %."));
}

TEST(Deficiencies, EndAUnitThatHasItsOwnFullStopWithOne) {
  Case c("1-1");
  c.read(fleet::Procedure::airflow, code(AirflowStep::coolingMax), ReadingQuantity::ductStaticPressure, 100);
  c.verdict.checks = {flowAt(AirflowStep::coolingMax, 420, 600)};
  EXPECT_THAT(c.one().evidence, AllOf(HasSubstr("0.401 in. w.g. Look"), Not(HasSubstr(".."))));
}

TEST(Deficiencies, NameTheRunsThatProveALockoutAndARise) {
  Case c("1-2");
  c.verdict.checks = {pointOff(2, 0.95), riseOf(0.5, 31)};
  EXPECT_THAT(c.one().closes, AllOf(HasSubstr("A new reheat lockout run: heat on with a call from 90.0 %"),
                                    HasSubstr("A new discharge rise run: rise at heat forced")));
}

TEST(Deficiencies, KnowWhichCriteriaShowEveryCauseThatTheyRaise) {
  Case c("1-2");
  c.verdict.checks = {flowAt(AirflowStep::coolingMax, 420, 600), pointOn(2, 0.5), riseOf(45, 32), coldOf(-4)};
  for (const Raised& r : c.raised()) EXPECT_FALSE(criteriaThatShow(r.cause).empty()) << r.cause;
  EXPECT_TRUE(criteriaThatShow("a person's own remark").empty());
}

TEST(Deficiencies, GroupMeasuredAndReportedFlowsThatAWrongReadingExplains) {
  Case c("1-1");
  c.verdict.checks = {flowAt(AirflowStep::coolingMax, 700, 600),
                      reportedAt(AirflowStep::coolingMax, 600, 700, Outcome::fail),
                      reportedAt(AirflowStep::coolingMin, 180, 210, Outcome::fail)};
  c.verdict.notes = {{NoteKind::coefficient, Criterion::airflow, 0, 0.857, kNone}};
  const Raised r = c.one();
  EXPECT_EQ(r.cause, "flow-reading");
  EXPECT_EQ(r.party, Party::balancer);
  EXPECT_THAT(r.evidence, HasSubstr("0.857 times the measured"));
  EXPECT_THAT(r.closes, HasSubstr("reported flow at cooling max and cooling min within the larger of 10.0 % "
                                  "and 10 cfm of the measured"));
}

TEST(Deficiencies, LeaveAReadingThatASettingExplainsToTheControlsContractor) {
  Case c("1-1");
  c.verdict.checks = {flowAt(AirflowStep::coolingMax, 470, 600),
                      reportedAt(AirflowStep::coolingMax, 600, 470, Outcome::fail)};
  c.verdict.notes = {{NoteKind::size, Criterion::airflow, 0, 1.27, quantity::inches(9).si()}};
  const Raised r = c.one();
  EXPECT_EQ(r.party, Party::controlsContractor);
  EXPECT_THAT(r.title, HasSubstr("another inlet size"));
}

TEST(Deficiencies, TellAWrongSetpointFromAWrongReading) {
  Case c("1-1");
  c.verdict.checks = {flowAt(AirflowStep::coolingMin, 300, 180),
                      reportedAt(AirflowStep::coolingMin, 303, 300, Outcome::pass)};
  const Raised r = c.one();
  EXPECT_EQ(r.cause, "flow-setpoint");
  EXPECT_EQ(r.party, Party::controlsContractor);
}

TEST(Deficiencies, BlameTheReadingWhereTheControllerBelievesItIsOnDesign) {
  Case c("1-1");
  c.verdict.checks = {flowAt(AirflowStep::coolingMax, 535, 600),
                      reportedAt(AirflowStep::coolingMax, 585, 535, Outcome::pass)};
  EXPECT_EQ(c.one().cause, "flow-reading");
}

TEST(Deficiencies, AskForTheDamperBeforeALowFlowIsCalledASetpoint) {
  Case c("1-1");
  c.verdict.checks = {flowAt(AirflowStep::coolingMax, 420, 600),
                      reportedAt(AirflowStep::coolingMax, 425, 420, Outcome::pass)};
  EXPECT_EQ(c.one().cause, "airflow-off");
  c.read(fleet::Procedure::airflow, code(AirflowStep::coolingMax), ReadingQuantity::damperPosition, 0.5);
  EXPECT_EQ(c.one().cause, "flow-setpoint");
}

TEST(Deficiencies, CountAReadingThatTwoStepsShareOnce) {
  Case c("1-1");
  c.verdict.checks = {flowAt(AirflowStep::coolingMin, 130, 180),
                      reportedAt(AirflowStep::coolingMin, 180, 130, Outcome::fail),
                      flowAt(AirflowStep::heatingMin, 130, 180)};
  const Raised r = c.one();
  EXPECT_EQ(r.cause, "flow-reading");
  EXPECT_THAT(r.evidence,
              AllOf(HasSubstr("The same reading counts for heating min."), Not(HasSubstr("Heating min:"))));
  EXPECT_THAT(r.closes, Not(HasSubstr("heating min")));
}

TEST(Deficiencies, SeparateTheInletsOfADualDuctUnit) {
  Case c("1-6");
  c.verdict.checks = {reportedAt(AirflowStep::coolingMax, 600, 700, Outcome::fail),
                      reportedAt(AirflowStep::hotMax, 400, 300, Outcome::fail)};
  const auto all = c.raised();
  ASSERT_EQ(all.size(), 2U);
  EXPECT_EQ(all[0].cause, "flow-reading");
  EXPECT_EQ(all[1].cause, "flow-reading-hot");
  EXPECT_THAT(all[0].closes, Not(HasSubstr("voids")));  // no heat to test again
}

TEST(Deficiencies, RaiseTheFanAndItsSpilling) {
  Case c("1-5");
  c.verdict.checks = {flowAt(AirflowStep::fan, 500, 700)};
  c.verdict.notes = {{NoteKind::negativeInduction, Criterion::airflow, code(AirflowStep::coolingMax),
                      cfm(-100).si(), cfm(600).si()}};
  const auto all = c.raised();
  ASSERT_EQ(all.size(), 2U);
  EXPECT_EQ(all[0].cause, "fan-flow");
  EXPECT_EQ(all[1].cause, "primary-over-fan");
  EXPECT_THAT(all[1].evidence, HasSubstr("air is pushed into the plenum"));
}

TEST(Deficiencies, CallElectricHeatWithoutAirASafetyMatter) {
  Case c("1-2");
  c.verdict.checks = {pointOn(2, 0.5), failed(CheckKind::trip, 4, kNone, kNone, kNone, kNone)};
  c.verdict.safety = true;
  const Raised r = c.one();
  EXPECT_EQ(r.cause, "heat-without-air");
  EXPECT_EQ(r.severity, Severity::safety);
  EXPECT_EQ(r.party, Party::electricalContractor);
  EXPECT_THAT(r.evidence, AllOf(HasSubstr("Point 2: heat should be off below 75.0 %"),
                                HasSubstr("Caution: electric heat")));
  EXPECT_THAT(r.closes,
              HasSubstr("heat off with a call below 75.0 % of the reheat flow (225 cfm of 300 cfm)"));
}

TEST(Deficiencies, SayWhereHeatTroubleMayFollowFromTheAirflow) {
  Case c("1-2");
  c.verdict.checks = {flowAt(AirflowStep::coolingMax, 420, 600),
                      reportedAt(AirflowStep::coolingMax, 600, 420, Outcome::fail), pointOn(2, 0.6)};
  const auto all = c.raised();
  ASSERT_EQ(all.size(), 2U);
  EXPECT_EQ(all[1].severity, Severity::safety);
  EXPECT_THAT(all[1].evidence,
              HasSubstr("Here also: the controller's flow reading is wrong. Mend that first"));
  EXPECT_THAT(all[0].evidence, Not(HasSubstr("Here also")));
}

TEST(Deficiencies, RaiseSafetyFromAnEarlyPointThatWasNotJudged) {
  Case below("1-2");
  below.verdict.safety = true;
  below.read(fleet::Procedure::reheatLockout, 1, ReadingQuantity::heatOn, 1);
  below.read(fleet::Procedure::reheatLockout, 1, ReadingQuantity::heatCall, 1);
  EXPECT_EQ(below.one().cause, "heat-without-air");
  EXPECT_EQ(below.one().severity, Severity::safety);

  Case uncalled("1-2");
  uncalled.verdict.safety = true;
  uncalled.read(fleet::Procedure::reheatLockout, 1, ReadingQuantity::heatOn, 1);
  uncalled.read(fleet::Procedure::reheatLockout, 1, ReadingQuantity::heatCall, 0);
  EXPECT_EQ(uncalled.one().cause, "heat-when-off");
}

TEST(Deficiencies, JoinAHeaterThatIsOnWithoutACallWithItsRiseWhenOff) {
  Case c("1-2");
  c.verdict.checks = {failed(CheckKind::onWithoutCall, 1, 0.9, kNone, kNone, kNone), coldOf(14)};
  const Raised r = c.one();
  EXPECT_EQ(r.cause, "heat-when-off");
  EXPECT_EQ(r.severity, Severity::safety);
  EXPECT_THAT(r.closes, HasSubstr("180 s or more"));
}

TEST(Deficiencies, CallALeakingValveTheMechanicalContractors) {
  Case c("1-1");
  c.verdict.checks = {coldOf(6)};
  const Raised r = c.one();
  EXPECT_EQ(r.cause, "heat-when-off");
  EXPECT_EQ(r.party, Party::mechanicalContractor);
  EXPECT_EQ(r.severity, Severity::major);
  EXPECT_THAT(r.evidence, HasSubstr("Caution: hot water"));
  EXPECT_THAT(r.closes, AllOf(HasSubstr("-2.0 °F to 2.0 °F"), HasSubstr("900 s or more")));
}

TEST(Deficiencies, TellAHighLockoutFromADeadHeater) {
  Case locked("1-2");
  Check on = pointOn(3, 1.05);
  on.outcome = Outcome::pass;
  locked.verdict.checks = {pointOff(2, 0.95), on};
  EXPECT_EQ(locked.one().cause, "lockout-threshold");
  EXPECT_EQ(locked.one().party, Party::controlsContractor);

  Case dead("1-2");
  dead.verdict.checks = {pointOff(2, 0.95), riseOf(0.5, 31)};
  const Raised r = dead.one();
  EXPECT_EQ(r.cause, "no-heat");
  EXPECT_EQ(r.party, Party::electricalContractor);
}

TEST(Deficiencies, TellLowHeatFromHighRise) {
  Case low("1-1");
  low.verdict.checks = {riseOf(20, 32)};
  EXPECT_EQ(low.one().cause, "low-heat");
  EXPECT_EQ(low.one().severity, Severity::moderate);
  EXPECT_THAT(low.one().closes, HasSubstr("27.2 °F to 36.8 °F"));
  Case high("1-1");
  high.verdict.checks = {riseOf(45, 32)};
  EXPECT_EQ(high.one().cause, "high-rise");
}

TEST(Deficiencies, RaiseADischargeOverItsLimitAndSensorsThatDisagree) {
  Case c("1-1");
  c.verdict.checks = {failed(CheckKind::limit, code(RiseStep::heatOn), quantity::fahrenheit(101).si(), kNone,
                             kNone, quantity::fahrenheit(90).si(), 0.3),
                      coldOf(-4)};
  const auto all = c.raised();
  ASSERT_EQ(all.size(), 2U);
  EXPECT_EQ(all[0].cause, "discharge-limit");
  EXPECT_THAT(all[0].closes, HasSubstr("discharge air at heat on at most 90.0 °F, 300 s"));
  EXPECT_EQ(all[1].cause, "temperature-sensors");
}

TEST(Deficiencies, DrawInThePassNumbersUnderTheGuardedRule) {
  Case c("1-1");
  c.fleet.project.criteria.rule = fleet::DecisionRule::guarded;
  c.verdict.checks = {flowAt(AirflowStep::coolingMax, 420, 600)};
  EXPECT_THAT(c.one().closes, HasSubstr("550 cfm to 650 cfm"));  // 1.645 × 6 cfm on either side
}

TEST(Deficiencies, SayWhatWouldSettleAFailureNearItsLimit) {
  Case c("1-1");
  c.verdict.checks = {flowAt(AirflowStep::coolingMax, 538, 600)};
  c.verdict.checks[0].close = true;
  EXPECT_THAT(c.one().evidence, HasSubstr("It is near the limit: a better instrument would settle it."));
  c.verdict.checks[0].settlesWith = 3;
  EXPECT_THAT(c.one().evidence, HasSubstr("3 readings in all would settle it."));
}

TEST(Deficiencies, AreTheSameEachTimeTheyAreRaised) {
  Case c("1-1");
  c.verdict.checks = {flowAt(AirflowStep::coolingMax, 420, 600), coldOf(6)};
  const auto first = c.raised(), second = c.raised();
  ASSERT_EQ(first.size(), second.size());
  for (std::size_t i = 0; i < first.size(); ++i) {
    EXPECT_EQ(first[i].cause, second[i].cause);
    EXPECT_EQ(first[i].evidence, second[i].evidence);
  }
}

}  // namespace
}  // namespace ductwright::verdict
