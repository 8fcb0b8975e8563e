#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "site.h"

namespace ductwright::verdict::testing {
namespace {

using enum fleet::AirflowStep;
using quantity::cfm;
using quantity::kCfm;

constexpr auto kDesign = CheckKind::measuredAgainstDesign;
constexpr auto kReported = CheckKind::reportedAgainstMeasured;

// Φ by its definition, for hand-computed conformities.
double phi(double x) { return 0.5 * std::erfc(-x / std::sqrt(2.0)); }

Site coolingBox(double max = 1000, double min = 0) {
  Site site;
  site.unit().coolingMax = cfm(max);
  if (min > 0) site.unit().coolingMin = cfm(min);
  site.instrument("H1", "flow", 0.03, 0);
  return site;
}

TEST(Airflow, measuredFlowInsideTenPercentOfDesignPasses) {
  const auto v = coolingBox().measured(coolingMax, 950, {.instrument = "H1"}).verdict();
  const Check* check = find(v, kDesign, coolingMax);
  ASSERT_TRUE(check);
  EXPECT_EQ(check->outcome, Outcome::pass);
  EXPECT_DOUBLE_EQ(check->low, 900 * kCfm);
  EXPECT_DOUBLE_EQ(check->high, 1100 * kCfm);
  // ±3 % of 950, rectangular: 28.5 / √3 = 16.4545 cfm.
  EXPECT_NEAR(check->u / kCfm, 28.5 / std::sqrt(3.0), 1e-9);
  EXPECT_NEAR(check->conformity, phi(150 / 16.454482671904334) - phi(-50 / 16.454482671904334), 1e-12);
  EXPECT_NEAR(*v.score, 100 * check->conformity, 1e-12);
  EXPECT_EQ(v.outcome, Outcome::pass);
}

TEST(Airflow, aReadingOnTheLimitIsInsideAndOneBeyondIsOutside) {
  EXPECT_EQ(coolingBox().measured(coolingMax, 900, {.instrument = "H1"}).verdict().outcome, Outcome::pass);
  EXPECT_EQ(coolingBox().measured(coolingMax, 1100, {.instrument = "H1"}).verdict().outcome, Outcome::pass);
  EXPECT_EQ(coolingBox().measured(coolingMax, 899.9, {.instrument = "H1"}).verdict().outcome, Outcome::fail);
  EXPECT_EQ(coolingBox().measured(coolingMax, 1100.1, {.instrument = "H1"}).verdict().outcome, Outcome::fail);
}

TEST(Airflow, smallFlowsAreAllowedTenCfm) {
  const auto v = coolingBox(60).measured(coolingMax, 50, {.instrument = "H1"}).verdict();
  EXPECT_EQ(v.outcome, Outcome::pass);
  EXPECT_NEAR(find(v, kDesign, coolingMax)->low / kCfm, 50, 1e-9);
  EXPECT_EQ(coolingBox(60).measured(coolingMax, 49, {.instrument = "H1"}).verdict().outcome, Outcome::fail);
}

TEST(Airflow, aSideThatAllowsNothingHasNoFloorEither) {
  Site site = coolingBox(60);
  site.criteria().flowLow = 0;
  site.exact("EXACT");
  EXPECT_EQ(Site(site).measured(coolingMax, 59, {.instrument = "EXACT"}).verdict().outcome, Outcome::fail);
  EXPECT_EQ(Site(site).measured(coolingMax, 60, {.instrument = "EXACT"}).verdict().outcome, Outcome::pass);
  EXPECT_EQ(Site(site).measured(coolingMax, 70, {.instrument = "EXACT"}).verdict().outcome, Outcome::pass);
}

TEST(Airflow, withoutUncertaintyConformityIsOneInsideAndNothingOutside) {
  Site site = coolingBox();
  site.exact("EXACT");
  EXPECT_DOUBLE_EQ(*Site(site).measured(coolingMax, 1100, {.instrument = "EXACT"}).verdict().score, 100);
  EXPECT_DOUBLE_EQ(*Site(site).measured(coolingMax, 1101, {.instrument = "EXACT"}).verdict().score, 0);
}

TEST(Airflow, anIncapableInstrumentCannotTellInTheMiddleOnly) {
  // ±20 %: at 950 cfm u = 190 / √3 = 109.7 cfm, U = 219 cfm > 100 cfm.
  Site site = coolingBox();
  site.instrument("POOR", "flow", 0.20);
  const auto middle = Site(site).measured(coolingMax, 950, {.instrument = "POOR"}).verdict();
  EXPECT_EQ(middle.outcome, Outcome::cannotTell);
  EXPECT_EQ(find(middle, kDesign, coolingMax)->because, Because::notCapable);
  EXPECT_TRUE(middle.score.has_value());
  // At 500 cfm u = 57.7 cfm, p = Φ(-400/57.7…) < 0.10: a plain failure.
  EXPECT_EQ(Site(site).measured(coolingMax, 500, {.instrument = "POOR"}).verdict().outcome, Outcome::fail);
}

TEST(Airflow, theGuardedRulePassesAndFailsOnlyBeyondTheGuardBand) {
  Site site = coolingBox();
  site.criteria().rule = fleet::DecisionRule::guarded;
  // u = 3 % / √3 of reading, one-sided z(0.95) = 1.6449: passes from 900 + 1.6449 u.
  EXPECT_EQ(Site(site).measured(coolingMax, 926.5, {.instrument = "H1"}).verdict().outcome, Outcome::pass);
  const auto undecided = Site(site).measured(coolingMax, 926, {.instrument = "H1"}).verdict();
  EXPECT_EQ(undecided.outcome, Outcome::cannotTell);
  EXPECT_EQ(find(undecided, kDesign, coolingMax)->because, Because::guardBand);
  EXPECT_EQ(Site(site).measured(coolingMax, 876, {.instrument = "H1"}).verdict().outcome, Outcome::cannotTell);
  EXPECT_EQ(Site(site).measured(coolingMax, 874, {.instrument = "H1"}).verdict().outcome, Outcome::fail);
}

TEST(Airflow, aDecisionNearALimitIsCloseAndSaysHowManyReadingsWouldSettleIt) {
  Site site = coolingBox();
  site.exact("EXACT");
  for (const double flow : {890.0, 930.0}) site.measured(coolingMax, flow, {.instrument = "EXACT"});
  // Mean 910, deviation 28.284, standard error 20; p = Φ(10/20) = 0.69. Needed u = 10 / 1.644854 = 6.0796;
  // n = 28.284² / 6.0796² = 21.6 → 22.
  const auto v = site.verdict();
  const Check* check = find(v, kDesign, coolingMax);
  EXPECT_EQ(check->outcome, Outcome::pass);
  EXPECT_TRUE(check->close);
  EXPECT_NEAR(check->u / kCfm, 20, 1e-9);
  EXPECT_EQ(check->settlesWith, 22);
  EXPECT_FALSE(find(coolingBox().measured(coolingMax, 1000, {.instrument = "H1"}).verdict(), kDesign, coolingMax)->close);
}

TEST(Airflow, repeatingDoesNotAverageTheInstrumentsLimitDown) {
  Site site = coolingBox();
  for (const double flow : {960.0, 980.0, 1000.0}) site.measured(coolingMax, flow, {.instrument = "H1"});
  // Mean 980; limit 3 % of it / √3 = 16.974; deviation 20, standard error 11.547: √(16.974² + 11.547²).
  const auto v = site.verdict();
  EXPECT_NEAR(find(v, kDesign, coolingMax)->measured / kCfm, 980, 1e-9);
  EXPECT_NEAR(find(v, kDesign, coolingMax)->u / kCfm, std::hypot(29.4 / std::sqrt(3.0), 20 / std::sqrt(3.0)), 1e-9);
}

TEST(Airflow, outletsOfOneInstrumentAddTheirErrorsLinearlyAndOthersInQuadrature) {
  Site site = coolingBox();
  site.instrument("H2", "flow", 0.03);
  const auto outlet = [&](Site& s, double flow, const char* name, const char* serial) {
    s.read(coolingMax, ReadingQuantity::outletFlow, cfm(flow), {.instrument = serial, .outlet = name});
  };
  Site same = site;
  outlet(same, 400, "A", "H1");
  outlet(same, 600, "B", "H1");
  EXPECT_NEAR(find(same.verdict(), kDesign, coolingMax)->measured / kCfm, 1000, 1e-9);
  EXPECT_NEAR(find(same.verdict(), kDesign, coolingMax)->u / kCfm, 30 / std::sqrt(3.0), 1e-9);  // 12 + 18
  Site two = site;
  outlet(two, 400, "A", "H1");
  outlet(two, 600, "B", "H2");
  EXPECT_NEAR(find(two.verdict(), kDesign, coolingMax)->u / kCfm, std::hypot(12, 18) / std::sqrt(3.0), 1e-9);
  // Readings of one outlet are averaged: A is 400, with a standard error of 10.
  Site repeated = site;
  outlet(repeated, 600, "B", "H1");
  outlet(repeated, 390, "A", "H1");
  outlet(repeated, 410, "A", "H1");
  EXPECT_NEAR(find(repeated.verdict(), kDesign, coolingMax)->measured / kCfm, 1000, 1e-9);
  EXPECT_NEAR(find(repeated.verdict(), kDesign, coolingMax)->u / kCfm, std::hypot(30 / std::sqrt(3.0), 10), 1e-9);
}

TEST(Airflow, aMeasuredFlowIsPreferredToAnOutletSum) {
  Site site = coolingBox();
  site.read(coolingMax, ReadingQuantity::outletFlow, cfm(500), {.outlet = "A"}).measured(coolingMax, 990);
  EXPECT_NEAR(find(site.verdict(), kDesign, coolingMax)->measured / kCfm, 990, 1e-9);
}

TEST(Airflow, aReadingWithoutAnInstrumentHasTheProjectsDefaultAndIsMarked) {
  const auto v = coolingBox().measured(coolingMax, 1000).verdict();
  EXPECT_NEAR(find(v, kDesign, coolingMax)->u / kCfm, 50 / std::sqrt(3.0), 1e-9);
  EXPECT_TRUE(find(v, NoteKind::defaultAccuracy));
  EXPECT_FALSE(find(coolingBox().measured(coolingMax, 1000, {.instrument = "H1"}).verdict(), NoteKind::defaultAccuracy));
}

TEST(Airflow, aCertificateReplacesTheLimit) {
  Site site = coolingBox();
  fleet::Accuracy certified = accuracy("measured flow", 0.5);
  certified.expanded = cfm(30).si();
  certified.coverage = 3;
  site.add("C1", certified);
  EXPECT_NEAR(find(site.measured(coolingMax, 1000, {.instrument = "C1"}).verdict(), kDesign, coolingMax)->u / kCfm, 10, 1e-9);
}

TEST(Airflow, anEarlyReadingIsNotJudged) {
  // Stroke time unknown: 90 s + 60 s. 149 s is early, 150 s is not.
  const auto early = coolingBox().measured(coolingMax, 1000, {.waited = 149.0F}).verdict();
  EXPECT_EQ(early.outcome, Outcome::untested);
  EXPECT_EQ(because(*find(early, kDesign, coolingMax)), "early");
  EXPECT_FALSE(early.score);
  EXPECT_EQ(coolingBox().measured(coolingMax, 1000, {.waited = 150.0F}).verdict().outcome, Outcome::pass);
  // One that waited long enough counts alone.
  const auto both = coolingBox().measured(coolingMax, 500, {.waited = 20.0F}).measured(coolingMax, 1000).verdict();
  EXPECT_NEAR(find(both, kDesign, coolingMax)->measured / kCfm, 1000, 1e-9);
}

TEST(Airflow, theStrokeTimeComesFromTheUnitThenItsProfile) {
  Site site = coolingBox();
  fleet::ControllerProfile profile;
  profile.name = "P";
  profile.strokeTime = quantity::seconds(30);
  site.project.profiles = {profile};
  site.unit().profile = "P";
  site.measured(coolingMax, 1000, {.waited = 90.0F});
  EXPECT_EQ(site.verdict().outcome, Outcome::pass);
  site.unit().strokeTime = quantity::seconds(31);
  EXPECT_EQ(site.verdict().outcome, Outcome::untested);
}

TEST(Airflow, anUnknownWaitIsJudgedAndTold) {
  const auto v = coolingBox().measured(coolingMax, 1000, {.waited = std::nullopt}).verdict();
  EXPECT_EQ(v.outcome, Outcome::pass);
  EXPECT_TRUE(find(v, NoteKind::waitUnknown));
}

TEST(Airflow, everyStepWithAScheduledFlowIsNeeded) {
  const auto v = coolingBox(1000, 300).measured(coolingMax, 1000).verdict();
  EXPECT_EQ(v.outcome, Outcome::untested);
  EXPECT_EQ(because(v.of(Criterion::airflow), Criterion::airflow), "missing: cooling min");
  EXPECT_TRUE(v.score) << "what was judged still has its score";
  EXPECT_EQ(coolingBox(1000, 300).measured(coolingMax, 700).verdict().outcome, Outcome::fail) << "a failure rules";
}

TEST(Airflow, stepsOfEqualScheduledFlowShareOneReading) {
  Site site = coolingBox(1000, 300);
  site.unit().heatingMin = cfm(300);
  site.measured(coolingMax, 1000).measured(coolingMin, 310);
  const auto v = site.verdict();
  EXPECT_EQ(v.outcome, Outcome::pass);
  EXPECT_NEAR(find(v, kDesign, heatingMin)->measured / kCfm, 310, 1e-9);
}

TEST(Airflow, theHotInletDoesNotShareTheColdInletsReading) {
  Site site = coolingBox(1000);
  site.unit().kind = fleet::UnitKind::dualDuct;
  site.unit().hotMax = cfm(1000);
  site.measured(coolingMax, 1000);
  EXPECT_EQ(because(*find(site.verdict(), kDesign, hotMax)), "missing: hot max");
}

TEST(Airflow, aReportedFlowNeverStandsInForAMeasuredOne) {
  const auto v = coolingBox().reported(coolingMax, 1000).verdict();
  EXPECT_EQ(v.outcome, Outcome::untested);
  EXPECT_EQ(find(v, kReported, coolingMax), nullptr);
}

TEST(Airflow, reportedFlowIsComparedWithMeasured) {
  Site site = coolingBox();
  site.measured(coolingMax, 1000, {.instrument = "H1"});
  const auto at = [&](double reported) { return Site(site).reported(coolingMax, reported).verdict(); };
  const auto v = at(1100);
  const Check* check = find(v, kReported, coolingMax);
  ASSERT_TRUE(check);
  EXPECT_EQ(check->outcome, Outcome::pass) << "on the limit";
  EXPECT_NEAR(check->measured / kCfm, 100, 1e-9);
  EXPECT_NEAR(check->high / kCfm, 100, 1e-9);
  EXPECT_NEAR(check->u / kCfm, 30 / std::sqrt(3.0), 1e-9) << "u is the measured flow's";
  EXPECT_EQ(at(1101).outcome, Outcome::fail);
  EXPECT_EQ(at(899).outcome, Outcome::fail);
  EXPECT_TRUE(find(site.verdict(), NoteKind::notReported));
  EXPECT_FALSE(find(v, NoteKind::notReported));
}

TEST(Airflow, reportedFlowIsComparedAlsoWhereTheScheduleGivesNone) {
  Site site = coolingBox();
  site.measured(coolingMax, 1000).reported(coolingMax, 1000).measured(reheat, 200).reported(reheat, 300);
  const auto v = site.verdict();
  EXPECT_EQ(v.outcome, Outcome::fail);
  EXPECT_EQ(find(v, kDesign, reheat), nullptr);
}

TEST(Airflow, shutIsKeptAndNotJudged) {
  Site site = coolingBox();
  site.measured(coolingMax, 1000).measured(shut, 100).reported(shut, 400);
  const auto v = site.verdict();
  EXPECT_EQ(v.outcome, Outcome::pass);
  EXPECT_EQ(find(v, kReported, shut), nullptr);
}

TEST(Airflow, onlyTheHighestRunCountsAndStruckReadingsDoNot) {
  Site site = coolingBox();
  site.measured(coolingMax, 500, {.run = 1}).measured(coolingMax, 1000, {.run = 2});
  EXPECT_EQ(site.verdict().outcome, Outcome::pass);
  site.measured(coolingMax, 500, {.run = 3, .withdrawn = true});
  EXPECT_EQ(site.verdict().outcome, Outcome::pass) << "a run whose every reading is struck was not there";
  fleet::Run started;
  started.number = 3;
  site.record.runs.push_back(started);
  EXPECT_EQ(site.verdict().outcome, Outcome::untested) << "a balance that was started and not completed";
}

TEST(Airflow, inASeriesUnitOutletsCountAtStepFanOnly) {
  Site site = coolingBox();
  site.unit().kind = fleet::UnitKind::seriesFan;
  site.unit().fan = cfm(1200);
  site.read(coolingMax, ReadingQuantity::outletFlow, cfm(1000), {.outlet = "A"});
  site.read(fan, ReadingQuantity::outletFlow, cfm(1210), {.outlet = "A"});
  const auto v = site.verdict();
  EXPECT_EQ(because(*find(v, kDesign, coolingMax)), "missing: cooling max");
  EXPECT_NEAR(find(v, kDesign, fan)->measured / kCfm, 1210, 1e-9);
}

TEST(Airflow, aParallelFansAirIsNotTakenForTheInletsAtTheOutlets) {
  Site site = coolingBox();
  site.unit().kind = fleet::UnitKind::parallelFan;
  site.read(coolingMax, ReadingQuantity::outletFlow, cfm(1500), {.outlet = "A"});
  EXPECT_NEAR(find(site.verdict(), kDesign, coolingMax)->measured / kCfm, 1500, 1e-9) << "the fan was not seen on";
  site.read(Procedure::airflow, static_cast<int>(coolingMax), ReadingQuantity::fanOn, 1);
  EXPECT_EQ(because(*find(site.verdict(), kDesign, coolingMax)), "missing: cooling max");
  site.read(coolingMax, ReadingQuantity::fanFlow, cfm(500));
  EXPECT_NEAR(find(site.verdict(), kDesign, coolingMax)->measured / kCfm, 1000, 1e-9);
}

TEST(Airflow, aParallelFansFlowIsTakenOffTheOutlets) {
  Site site = coolingBox();
  site.unit().kind = fleet::UnitKind::parallelFan;
  site.read(coolingMax, ReadingQuantity::outletFlow, cfm(1600), {.outlet = "A"});
  const auto measured = [](const Site& s) { return find(s.verdict(), kDesign, coolingMax)->measured / kCfm; };
  EXPECT_NEAR(measured(site), 1600, 1e-9) << "nothing says that the fan ran";
  Site on = site;
  on.read(Procedure::airflow, code(coolingMax), ReadingQuantity::fanOn, 1);
  EXPECT_EQ(because(*find(on.verdict(), kDesign, coolingMax)), "missing: cooling max");
  on.read(coolingMax, ReadingQuantity::fanFlow, cfm(600));
  EXPECT_NEAR(measured(on), 1000, 1e-9);
  Site off = site;
  off.read(Procedure::airflow, code(coolingMax), ReadingQuantity::fanOn, 0);
  EXPECT_NEAR(measured(off), 1600, 1e-9);
}

TEST(Airflow, anOutletThatWasReadTooEarlyOnlyLeavesTheSumOpen) {
  Site site = coolingBox();
  site.read(coolingMax, ReadingQuantity::outletFlow, cfm(600), {.outlet = "A"});
  site.read(coolingMax, ReadingQuantity::outletFlow, cfm(400), {.waited = 10.0F, .outlet = "B"});
  EXPECT_EQ(because(*find(site.verdict(), kDesign, coolingMax)), "early");
}

TEST(Airflow, anInstrumentThatStatesNoAccuracyHasTheProjectsDefault) {
  Site site = coolingBox();
  site.instrument("H9", "flow", 0);
  const auto v = site.measured(coolingMax, 1000, {.instrument = "H9"}).verdict();
  EXPECT_NEAR(find(v, kDesign, coolingMax)->u / kCfm, 50 / std::sqrt(3.0), 1e-9);
  EXPECT_TRUE(find(v, NoteKind::defaultAccuracy));
}

TEST(Airflow, aSeriesFanBelowItsPrimaryAirIsTold) {
  Site site = coolingBox();
  site.unit().kind = fleet::UnitKind::seriesFan;
  site.unit().fan = cfm(900);
  site.measured(coolingMax, 1000).read(fan, ReadingQuantity::fanFlow, cfm(900));
  const auto v = site.verdict();
  const Note* note = find(v, NoteKind::negativeInduction);
  ASSERT_TRUE(note);
  EXPECT_NEAR(note->value / kCfm, -100, 1e-9);
  EXPECT_EQ(v.outcome, Outcome::pass) << "an explanation does not change the result";
}

TEST(Airflow, aStandardDesignIsComparedOnItsOwnBasis) {
  // Sea level, 20 °C, W = 0.008: ρ = 101325 · 1.008 / (287.042 · 293.15 · 1.012862864) = 1.19837; 1000 cfm
  // actual are 1000 · 1.19837 / 1.204 = 995.3 cfm standard.
  Site site = coolingBox();
  site.unit().flowBasis = fleet::FlowBasis::standard;
  site.read(Procedure::airflow, code(coolingMax), ReadingQuantity::enteringAirTemperature, 293.15);
  site.measured(coolingMax, 1000, {.instrument = "H1"});
  const double rho = 101325 * 1.008 / (287.042 * 293.15 * (1 + 1.607858 * 0.008));
  const auto v = site.verdict();
  EXPECT_NEAR(find(v, kDesign, coolingMax)->measured / kCfm, 1000 * rho / 1.204, 1e-9);
  EXPECT_NEAR(find(v, kDesign, coolingMax)->u / kCfm, 30 / std::sqrt(3.0) * rho / 1.204, 1e-9);
  // An instrument that reads standard air needs no conversion.
  Site standard = coolingBox();
  standard.unit().flowBasis = fleet::FlowBasis::standard;
  fleet::Accuracy onStandard = accuracy("flow", 0.03);
  onStandard.flowBasis = fleet::FlowBasis::standard;
  standard.add("S1", onStandard);
  standard.measured(coolingMax, 1000, {.instrument = "S1"});
  EXPECT_NEAR(find(standard.verdict(), kDesign, coolingMax)->measured / kCfm, 1000, 1e-9);
}

TEST(Airflow, anOutletFlowIsConvertedWithTheDischargeAirsTemperature) {
  Site site = coolingBox();
  site.unit().flowBasis = fleet::FlowBasis::standard;
  site.read(Procedure::airflow, code(coolingMax), ReadingQuantity::enteringAirTemperature, 283.15);
  site.read(Procedure::airflow, code(coolingMax), ReadingQuantity::dischargeAirTemperature, 303.15);
  site.read(coolingMax, ReadingQuantity::outletFlow, cfm(1000), {.outlet = "A"});
  const double rho = 101325 * 1.008 / (287.042 * 303.15 * (1 + 1.607858 * 0.008));
  EXPECT_NEAR(find(site.verdict(), kDesign, coolingMax)->measured / kCfm, 1000 * rho / 1.204, 1e-9);
}

TEST(Airflow, theScoreIsTheConformityOfTheWeakestCheck) {
  Site site = coolingBox(1000, 300);
  site.measured(coolingMax, 950, {.instrument = "H1"}).measured(coolingMin, 325, {.instrument = "H1"});
  const auto v = site.verdict();
  const double u = 0.03 * 325 / std::sqrt(3.0);
  EXPECT_NEAR(*v.score, 100 * (phi(5 / u) - phi(-55 / u)), 1e-9);
}

TEST(Airflow, anExhaustUnitIsJudgedByItsAirflowOnly) {
  Site site = coolingBox();
  site.unit().kind = fleet::UnitKind::exhaust;
  const auto v = site.measured(coolingMax, 1000).verdict();
  EXPECT_EQ(v.outcome, Outcome::pass);
  EXPECT_EQ(v.of(Criterion::reheatLockout).outcome, Outcome::notApplicable);
  EXPECT_EQ(v.of(Criterion::dischargeRise).outcome, Outcome::notApplicable);
}

}  // namespace
}  // namespace ductwright::verdict::testing
