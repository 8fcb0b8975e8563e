#include <gtest/gtest.h>

#include "site.h"

namespace ductwright::verdict::testing {
namespace {

using enum fleet::ReadingQuantity;
using quantity::cfm;

// An electric unit whose lockout was proven at minutes 10, 20 and 30.
Site proven() {
  Site site;
  site.unit().kind = fleet::UnitKind::reheat;
  site.unit().heat = fleet::HeatKind::electricStaged;
  site.unit().coolingMax = cfm(1000);
  site.unit().reheat = cfm(1000);
  const auto point = [&](int number, double flow, bool on) {
    const How how{.minute = 10 * number};
    site.read(Procedure::reheatLockout, number, measuredFlow, cfm(flow).si(), how);
    site.read(Procedure::reheatLockout, number, heatCall, 1, how);
    site.read(Procedure::reheatLockout, number, heatOn, on ? 1 : 0, how);
  };
  point(1, 500, false);
  point(2, 1000, true);
  point(3, 500, false);
  return site;
}

CriterionVerdict lockout(const Site& site) { return site.verdict().of(Criterion::reheatLockout); }

TEST(Voiding, aNewBalanceVoidsWhatWasProvenBeforeIt) {
  Site site = proven();
  site.measured(AirflowStep::coolingMax, 1000, {.minute = 0, .run = 1});
  EXPECT_EQ(lockout(site).outcome, Outcome::pass) << "the first balance voids nothing";
  site.measured(AirflowStep::coolingMax, 1000, {.minute = 11, .run = 2});
  EXPECT_EQ(lockout(site).outcome, Outcome::untested);
  EXPECT_EQ(because(lockout(site), Criterion::reheatLockout), "void");
  EXPECT_FALSE(lockout(site).score);
  for (const Check& check : site.verdict().checks) {
    if (check.criterion != Criterion::reheatLockout) continue;
    EXPECT_EQ(because(check), "void");
  }
}

TEST(Voiding, aFirstBalanceVoidsNothingHoweverLate) {
  Site site = proven();
  site.measured(AirflowStep::coolingMax, 1000, {.minute = 40, .run = 1});
  EXPECT_EQ(lockout(site).outcome, Outcome::pass);
}

TEST(Voiding, whatWasProvenAfterTheNewBalanceStands) {
  Site site = proven();
  site.measured(AirflowStep::coolingMax, 900, {.minute = 0, .run = 1});
  site.measured(AirflowStep::coolingMax, 1000, {.minute = 10, .run = 2});
  EXPECT_EQ(lockout(site).outcome, Outcome::pass) << "not before, at the same minute";
}

TEST(Voiding, theFirstReadingOfTheBalanceDecides) {
  Site site = proven();
  site.measured(AirflowStep::coolingMax, 900, {.minute = 0, .run = 1});
  site.measured(AirflowStep::coolingMax, 1000, {.minute = 40, .run = 2}).measured(AirflowStep::coolingMax, 1000, {.minute = 5, .run = 2});
  EXPECT_EQ(lockout(site).outcome, Outcome::pass);
}

TEST(Voiding, unknownTimesAreToldAndVoidNothing) {
  Site site = proven();
  site.measured(AirflowStep::coolingMax, 900, {.run = 1}).measured(AirflowStep::coolingMax, 1000, {.run = 2});
  const auto v = site.verdict();
  EXPECT_EQ(v.of(Criterion::reheatLockout).outcome, Outcome::pass);
  EXPECT_TRUE(find(v, NoteKind::timeUnknown));
}

TEST(Voiding, aRiseRunIsVoidedLikewiseAndANewOneStands) {
  Site site = proven();
  const auto off = [&](int minute, int run) {
    for (const ReadingQuantity q : {enteringAirTemperature, dischargeAirTemperature})
      site.read(Procedure::dischargeRise, code(RiseStep::heatOff), q, 290, {.minute = minute, .run = run});
  };
  off(5, 1);
  site.measured(AirflowStep::coolingMax, 900, {.minute = 0, .run = 1});
  EXPECT_EQ(find(site.verdict(), CheckKind::coldWhenOff, RiseStep::heatOff)->outcome, Outcome::pass);
  site.measured(AirflowStep::coolingMax, 1000, {.minute = 50, .run = 2});
  EXPECT_EQ(because(*find(site.verdict(), CheckKind::coldWhenOff, RiseStep::heatOff)), "void");
  off(60, 2);
  EXPECT_EQ(find(site.verdict(), CheckKind::coldWhenOff, RiseStep::heatOff)->outcome, Outcome::pass);
}

}  // namespace
}  // namespace ductwright::verdict::testing
