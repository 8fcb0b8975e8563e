#include <gtest/gtest.h>

#include <cmath>

#include "site.h"

namespace ductwright::verdict::testing {
namespace {

using enum fleet::ReadingQuantity;
using fleet::HeatKind;
using quantity::cfm;
using quantity::kCfm;

double phi(double x) { return 0.5 * std::erfc(-x / std::sqrt(2.0)); }

// An electric reheat unit of 400 cfm reheat flow: no heat below 300 cfm, heat from 360 cfm.
class Box : public Site {
 public:
  Box() {
    unit().kind = fleet::UnitKind::reheat;
    unit().heat = HeatKind::electricStaged;
    unit().reheat = cfm(400);
    instrument("H1", "flow", 0.03);
  }
  Box& seen(int number, bool call, bool on, const How& how = {}) {
    read(Procedure::reheatLockout, number, heatCall, call ? 1 : 0, how);
    read(Procedure::reheatLockout, number, heatOn, on ? 1 : 0, how);
    return *this;
  }
  Box& point(int number, double flow, bool call, bool on, How how = {}) {
    if (how.instrument.empty()) how.instrument = "H1";
    if (!how.minute) how.minute = 10 * number;
    read(Procedure::reheatLockout, number, measuredFlow, cfm(flow).si(), how);
    return seen(number, call, on, how);
  }
  // Off at 200, on at 400, off again at 200.
  Box& proven() { return point(1, 200, true, false).point(2, 400, true, true).point(3, 200, true, false); }
  [[nodiscard]] CriterionVerdict lockout() const { return verdict().of(Criterion::reheatLockout); }
  [[nodiscard]] std::string reason() const { return because(lockout(), Criterion::reheatLockout); }
};

TEST(ReheatLockout, isProvenByOffBelowOnAtFlowAndTheTrip) {
  const auto v = Box().proven().verdict();
  const auto& lockout = v.of(Criterion::reheatLockout);
  EXPECT_EQ(lockout.outcome, Outcome::pass);
  // On at f = 1: u = 0.03 / √3 = 0.01732, p = 1 − Φ((0.75 − 1) / u) ≈ 1; off at 0.5 likewise.
  EXPECT_NEAR(*lockout.score, 100, 1e-6);
  EXPECT_FALSE(v.safety);
}

TEST(ReheatLockout, heatOnWithACallIsAllowedFromTheThreshold) {
  const auto at = [](double flow) { return Box().proven().point(4, flow, true, true).verdict(); };
  const auto on = at(300);
  const Check* check = find(on, CheckKind::onWhenAllowed, 4);
  ASSERT_TRUE(check);
  EXPECT_EQ(check->outcome, Outcome::pass) << "on the threshold";
  EXPECT_NEAR(check->measured, 0.75, 1e-12);
  EXPECT_NEAR(check->u, 0.75 * 0.03 / std::sqrt(3.0), 1e-12);
  EXPECT_NEAR(check->conformity, 0.5, 1e-9);
  EXPECT_TRUE(std::isnan(check->high));
  const auto below = at(299);
  EXPECT_EQ(find(below, CheckKind::onWhenAllowed, 4)->outcome, Outcome::fail);
  EXPECT_EQ(below.outcome, Outcome::fail);
  const double u = 299.0 / 400 * 0.03 / std::sqrt(3.0);
  EXPECT_NEAR(find(below, CheckKind::onWhenAllowed, 4)->conformity, 1 - phi((0.75 - 299.0 / 400) / u), 1e-12);
  EXPECT_TRUE(below.safety) << "electric heat on below the threshold";
}

TEST(ReheatLockout, heatOffWithACallIsAllowedBelowNinetyPercent) {
  const auto at = [](double flow) { return Box().proven().point(4, flow, true, false).verdict(); };
  EXPECT_EQ(find(at(359), CheckKind::heatsWhenItShould, 4)->outcome, Outcome::pass);
  EXPECT_EQ(find(at(360), CheckKind::heatsWhenItShould, 4)->outcome, Outcome::fail) << "f < 0.90, not f ≤ 0.90";
  EXPECT_EQ(find(at(400), CheckKind::heatsWhenItShould, 4)->outcome, Outcome::fail);
}

TEST(ReheatLockout, heatOnWithoutACallFailsWithConformityZero) {
  const auto v = Box().proven().seen(4, false, true).verdict();
  EXPECT_EQ(find(v, CheckKind::onWithoutCall, 4)->conformity, 0);
  EXPECT_EQ(v.of(Criterion::reheatLockout).outcome, Outcome::fail);
  EXPECT_EQ(*v.score, 0);
  EXPECT_TRUE(v.safety);
  Box water;
  water.unit().heat = HeatKind::hotWater;
  EXPECT_FALSE(water.seen(1, false, true).verdict().safety) << "hot water burns nothing";
}

TEST(ReheatLockout, isIncompleteWithoutACallBelowACallAtFlowOrTheTrip) {
  EXPECT_EQ(Box().reason(), "missing: call below the threshold");
  EXPECT_EQ(Box().point(1, 400, true, true).reason(), "missing: call below the threshold");
  EXPECT_EQ(Box().point(1, 200, true, false).reason(), "missing: call at reheat flow");
  EXPECT_EQ(Box().point(1, 200, true, false).point(2, 359, true, true).reason(), "missing: call at reheat flow");
  EXPECT_EQ(Box().point(1, 200, true, false).point(2, 360, true, true).reason(), "missing: trip");
  EXPECT_EQ(Box().point(1, 200, false, false).point(2, 400, true, true).point(3, 200, false, false).reason(),
            "missing: call below the threshold") << "off without a call proves nothing";
}

TEST(ReheatLockout, aViolationFailsAlsoWhereAPointIsMissing) {
  EXPECT_EQ(Box().point(1, 200, true, true).lockout().outcome, Outcome::fail);
}

TEST(ReheatLockout, theTripComesLaterInTimeNotInNumber) {
  Box later;
  later.point(1, 200, true, false, {.minute = 30}).point(2, 400, true, true, {.minute = 20});
  EXPECT_EQ(later.lockout().outcome, Outcome::pass);
  Box earlier;
  earlier.point(3, 200, true, false, {.minute = 10}).point(2, 400, true, true, {.minute = 20});
  EXPECT_EQ(earlier.reason(), "missing: trip");
}

TEST(ReheatLockout, offBelowTheThresholdWithoutACallIsNoTrip) {
  Box box = Box().point(1, 200, true, false).point(2, 400, true, true).point(3, 200, false, false);
  EXPECT_EQ(box.reason(), "missing: trip");
  EXPECT_EQ(box.point(4, 200, true, false).lockout().outcome, Outcome::pass);
}

TEST(ReheatLockout, withoutTimesThePointsNumbersOrderTheTripAndThatIsTold) {
  Box box;
  box.proven();
  for (Reading& r : box.record.readings) r.takenAt.reset();
  const auto v = box.verdict();
  EXPECT_EQ(v.of(Criterion::reheatLockout).outcome, Outcome::pass);
  EXPECT_TRUE(find(v, NoteKind::timeUnknown));
  EXPECT_FALSE(find(Box().proven().verdict(), NoteKind::timeUnknown));
}

TEST(ReheatLockout, hotWaterNeedsNoTripAndAppliesOnlyWithAReheatFlow) {
  Box box;
  box.unit().heat = HeatKind::hotWater;
  box.point(1, 200, true, false).point(2, 400, true, true);
  EXPECT_EQ(box.lockout().outcome, Outcome::pass);
  box.unit().reheat.reset();
  EXPECT_EQ(box.lockout().outcome, Outcome::notApplicable);
}

TEST(ReheatLockout, aRatioOfZeroMeansNoLockoutAndTheUnitsOwnRatioHolds) {
  Box box;
  box.unit().heatEnableRatio = 0;
  EXPECT_EQ(box.lockout().outcome, Outcome::notApplicable);
  box.unit().heatEnableRatio = 0.5;
  EXPECT_EQ(box.point(1, 200, true, true).verdict().of(Criterion::reheatLockout).outcome, Outcome::untested);
  EXPECT_EQ(Box().point(1, 200, true, true).lockout().outcome, Outcome::fail);
}

TEST(ReheatLockout, theReferenceIsTheSetpointElseReheatElseHeatingMin) {
  const auto share = [](Box box) { return find(box.point(1, 200, true, true).verdict(), CheckKind::onWhenAllowed, 1)->measured; };
  Box box;
  EXPECT_NEAR(share(box), 0.5, 1e-12);
  Box setpoint = box;
  setpoint.read(Procedure::reheatLockout, 1, flowSetpoint, cfm(250).si());
  EXPECT_NEAR(share(setpoint), 0.8, 1e-12);
  Box heating = box;
  heating.unit().reheat = cfm(0);
  heating.unit().heatingMin = cfm(320);
  EXPECT_NEAR(share(heating), 0.625, 1e-12);
  heating.unit().heatingMin.reset();
  heating.point(1, 200, true, true);
  EXPECT_EQ(heating.lockout().outcome, Outcome::untested);
  EXPECT_EQ(heating.reason(), "no reference flow");
}

TEST(ReheatLockout, aReportedFlowCountsWithTenPercentWhereNoneWasMeasured) {
  Box box;
  box.read(Procedure::reheatLockout, 1, reportedFlow, cfm(380).si(), {.instrument = "H1"}).project.revision = 1;
  box.seen(1, true, true);
  EXPECT_NEAR(find(box.verdict(), CheckKind::onWhenAllowed, 1)->u, 0.95 * 0.10 / std::sqrt(3.0), 1e-12);
}

TEST(ReheatLockout, anEarlyPointIsNotJudgedButElectricHeatInItIsToldAtOnce) {
  const auto early = [](HeatKind heat, double flow, bool call) {
    Box box;
    box.unit().heat = heat;
    return box.point(1, flow, call, true, {.waited = 119.0F}).verdict();
  };
  const auto v = early(HeatKind::electricStaged, 200, true);
  EXPECT_EQ(v.of(Criterion::reheatLockout).outcome, Outcome::untested);
  EXPECT_EQ(because(*find(v, CheckKind::onWhenAllowed, 1)), "early");
  EXPECT_EQ(because(v.of(Criterion::reheatLockout), Criterion::reheatLockout), "early");
  EXPECT_TRUE(v.safety);
  EXPECT_TRUE(early(HeatKind::electricModulating, 400, false).safety) << "on without a call";
  EXPECT_FALSE(early(HeatKind::electricStaged, 400, true).safety);
  EXPECT_FALSE(early(HeatKind::hotWater, 200, true).safety);
  EXPECT_EQ(Box().point(1, 200, true, true, {.waited = 120.0F}).lockout().outcome, Outcome::fail) << "120 s is enough";
}

TEST(ReheatLockout, anIncompletePointIsShownAndNamed) {
  Box box = Box().proven();
  box.read(Procedure::reheatLockout, 4, heatOn, 1);
  const auto v = box.verdict();
  EXPECT_EQ(v.of(Criterion::reheatLockout).outcome, Outcome::pass) << "the others prove it";
  EXPECT_EQ(because(*find(v, CheckKind::onWhenAllowed, 4)), "missing: heat call at point 4");
}

TEST(ReheatLockout, theHeatersFlowInASeriesUnitIsTheFans) {
  Box box;
  box.unit().kind = fleet::UnitKind::seriesFan;
  box.read(Procedure::reheatLockout, 1, fanFlow, cfm(380).si(), {.instrument = "H1"});
  box.point(1, 100, true, true);
  EXPECT_NEAR(find(box.verdict(), CheckKind::onWhenAllowed, 1)->measured, 0.95, 1e-12);
  Box without;
  without.unit().kind = fleet::UnitKind::seriesFan;
  EXPECT_EQ(because(*find(without.point(1, 400, true, true).verdict(), CheckKind::onWhenAllowed, 1)),
            "missing: fan flow at point 1");
}

TEST(ReheatLockout, theHeatersFlowInAParallelUnitDependsOnItsPlace) {
  Box box;
  box.unit().kind = fleet::UnitKind::parallelFan;
  box.read(Procedure::reheatLockout, 1, fanFlow, cfm(200).si(), {.instrument = "H1"});
  box.point(1, 160, true, true);
  const auto share = [&] { return find(box.verdict(), CheckKind::onWhenAllowed, 1)->measured; };
  EXPECT_NEAR(share(), 0.9, 1e-12);
  // One instrument read both: 3 % of 360, linearly.
  EXPECT_NEAR(find(box.verdict(), CheckKind::onWhenAllowed, 1)->u, 0.9 * 0.03 / std::sqrt(3.0), 1e-12);
  box.unit().heaterPosition = fleet::HeaterPosition::plenumInlet;
  EXPECT_NEAR(share(), 0.5, 1e-12);
}

TEST(ReheatLockout, theObservedThresholdIsToldAsABracket) {
  const auto v = Box().proven().point(4, 280, true, false).point(5, 340, true, true).verdict();
  const Note* note = find(v, NoteKind::threshold);
  ASSERT_TRUE(note);
  EXPECT_NEAR(note->value / kCfm, 280, 1e-9);
  EXPECT_NEAR(note->other / kCfm, 340, 1e-9);
  EXPECT_FALSE(find(v, NoteKind::airflowSwitch));
}

TEST(ReheatLockout, theHeatersAirflowSwitchIsToldApartFromTheControllersLockout) {
  Box box = Box().proven();
  const auto signal = [&](int number, double share) { box.read(Procedure::reheatLockout, number, heatSignal, share); };
  signal(1, 0);
  signal(2, 1);
  box.point(4, 320, true, false);
  signal(4, 1);  // the controller asks, the heater does not answer
  const auto v = box.verdict();
  ASSERT_TRUE(find(v, NoteKind::airflowSwitch));
  EXPECT_NEAR(find(v, NoteKind::airflowSwitch)->value / kCfm, 320, 1e-9);
  EXPECT_NEAR(find(v, NoteKind::threshold)->value / kCfm, 200, 1e-9);
}

}  // namespace
}  // namespace ductwright::verdict::testing
