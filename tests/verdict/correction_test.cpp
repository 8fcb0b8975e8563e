#include "verdict/correction.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "quantity/unit.h"
#include "site.h"

namespace ductwright::verdict::testing {
namespace {

using enum fleet::AirflowStep;
using ::testing::HasSubstr;
using ::testing::Not;

fleet::FlowCoefficient inCfm(double k) {
  using namespace quantity;
  return FlowCoefficient::fromSi(toSi(k, unitFor(Dimension::flowCoefficient, System::ip)));
}

// A box whose element truly has K = 900 and whose transducer reads `zero` Pa too much, set up with K =
// `today`.
Site box(double today, double zero = 0) {
  Site site;
  site.unit().flowCoefficient = inCfm(today);
  site.unit().coolingMax = quantity::cfm(800);
  site.unit().heatingMax = quantity::cfm(400);
  site.unit().coolingMin = quantity::cfm(160);
  site.instrument("H1", "flow", 0.02);
  for (const auto& [step, flow] : {std::pair{coolingMax, 800.0}, {heatingMax, 400.0}, {coolingMin, 160.0}}) {
    const auto pressure = air::elementPressure(inCfm(900), quantity::cfm(flow)) + quantity::pascals(zero);
    site.measured(step, flow, {.instrument = "H1"});
    site.read(step, ReadingQuantity::reportedFlow, air::elementFlow(inCfm(today), pressure));
  }
  return site;
}

CoefficientAdvice adviceFor(const Site& site) {
  const auto all = coefficientAdvice(site.record, site.project);
  EXPECT_EQ(all.size(), 1U);
  return all.empty() ? CoefficientAdvice{} : all[0];
}

TEST(CoefficientAdvice, findsAWrongCoefficientFromOnePoint) {
  const auto advice = adviceFor(box(1000));
  EXPECT_EQ(advice.high, coolingMax);
  ASSERT_TRUE(advice.onePoint);
  EXPECT_NEAR(advice.onePoint->correction.coefficient / inCfm(900), 1, 1e-9);
  EXPECT_NEAR(advice.onePoint->change, -0.1, 1e-9);
  EXPECT_NEAR(advice.onePoint->u, 0.02 / std::sqrt(3.0), 1e-9);
  EXPECT_FALSE(advice.onePoint->doubt.any());
  ASSERT_EQ(advice.onePoint->errors.size(), 3U);
  for (const StepError& e : advice.onePoint->errors) {
    EXPECT_NEAR(e.now, 1.0 / 9, 1e-9);
    EXPECT_NEAR(e.after, 0, 1e-9);
  }
}

TEST(CoefficientAdvice, findsAZeroFromTwoPoints) {
  const auto advice = adviceFor(box(1000, 3));
  EXPECT_EQ(advice.low, coolingMin);
  ASSERT_TRUE(advice.onePoint && advice.twoPoint);
  EXPECT_NEAR(advice.twoPoint->correction.coefficient / inCfm(900), 1, 1e-9);
  EXPECT_NEAR(advice.twoPoint->correction.zero.si(), -3, 1e-6);
  for (const StepError& e : advice.twoPoint->errors) EXPECT_NEAR(e.after, 0, 1e-9);
  // One point alone leaves the zero's error where the flow is small.
  EXPECT_GT(advice.onePoint->errors[1].after, 0.1);
  EXPECT_EQ(advice.onePoint->errors[1].step, coolingMin);
}

TEST(CoefficientAdvice, doubtsAChangeThatIsLargeOrLostInItsUncertainty) {
  EXPECT_TRUE(adviceFor(box(1200)).onePoint->doubt.large);
  EXPECT_TRUE(adviceFor(box(910)).onePoint->doubt.lostInUncertainty);
  EXPECT_FALSE(adviceFor(box(1000)).onePoint->doubt.any());
}

TEST(CoefficientAdvice, doubtsAStepWhoseDamperMoved) {
  Site site = box(1000);
  const auto damper = [&](double position) {
    site.read(Procedure::airflow, code(coolingMax), ReadingQuantity::damperPosition, position);
  };
  damper(0.60);
  damper(0.61);
  EXPECT_FALSE(adviceFor(site).onePoint->doubt.damperMoved);
  damper(0.70);
  EXPECT_TRUE(adviceFor(site).onePoint->doubt.damperMoved);
}

TEST(CoefficientAdvice, startsFromTheCoefficientAsLastFound) {
  Site site = box(1000);
  site.unit().flowCoefficient = inCfm(500);
  fleet::FoundSetting found;
  found.setting = "Flow_Coefficient";
  found.value = inCfm(1000).si();
  found.readAt = minuteOfDay(10);
  site.record.settings = {found};
  found.value = inCfm(700).si();
  found.readAt = minuteOfDay(5);
  site.record.settings.push_back(found);
  EXPECT_NEAR(adviceFor(site).today / inCfm(1000), 1, 1e-9);
}

TEST(CoefficientAdvice, isTheSameOnEitherBasisOfTheDesign) {
  Site site = box(1000, 3);
  const auto actual = adviceFor(site);
  site.unit().flowBasis = fleet::FlowBasis::standard;
  const auto standard = adviceFor(site);
  EXPECT_EQ(actual.twoPoint->correction.coefficient, standard.twoPoint->correction.coefficient);
  EXPECT_EQ(actual.twoPoint->correction.zero, standard.twoPoint->correction.zero);
}

TEST(CoefficientAdvice, isNothingWithoutACoefficientOrBothFlows) {
  Site unknown = box(1000);
  unknown.unit().flowCoefficient.reset();
  EXPECT_TRUE(coefficientAdvice(unknown.record, unknown.project).empty());
  Site unread = box(1000);
  std::erase_if(unread.record.readings,
                [](const Reading& r) { return r.quantity == ReadingQuantity::reportedFlow; });
  EXPECT_TRUE(coefficientAdvice(unread.record, unread.project).empty());
}

TEST(CoefficientAdvice, keepsTheInletsOfADualDuctApart) {
  Site site = box(1000);
  site.unit().kind = fleet::UnitKind::dualDuct;
  site.unit().hotMax = quantity::cfm(300);
  site.measured(hotMax, 300, {.instrument = "H1"}).reported(hotMax, 360);
  const auto all = coefficientAdvice(site.record, site.project);
  ASSERT_EQ(all.size(), 2U);
  EXPECT_FALSE(all[0].hotInlet);
  EXPECT_TRUE(all[1].hotInlet);
  EXPECT_NEAR(all[1].onePoint->change, 300.0 / 360 - 1, 1e-9);
  EXPECT_FALSE(all[1].twoPoint);
}

TEST(CoefficientAdvice, isSaidInOneSentenceAKind) {
  const std::string words = sentence(adviceFor(box(1000, 3)), quantity::System::ip);
  EXPECT_THAT(words, HasSubstr("By one point at cooling max: 1000 → 8"));
  EXPECT_THAT(words, HasSubstr("error left: cooling min +"));
  EXPECT_THAT(words,
              HasSubstr("By two points, cooling max and cooling min: 1000 → 900 cfm/√in. w.g. (−10.0 % ± "));
  EXPECT_THAT(words, HasSubstr(", zero -0.012 in. w.g.; error left: heating max "));
  EXPECT_THAT(words, Not(HasSubstr("Doubtful")));
  EXPECT_THAT(sentence(adviceFor(box(1200)), quantity::System::si),
              HasSubstr("Doubtful: larger than a correction should be."));
}

}  // namespace
}  // namespace ductwright::verdict::testing
