#include "verdict/review.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <map>
#include <set>

#include "fleet_for_tests.h"

namespace ductwright::verdict {
namespace {

using fleet::Custody;
using fleet::HeatKind;
using fleet::Unit;
using fleet::UnitKind;
using quantity::cfm;
using quantity::fahrenheit;
using quantity::inches;

std::string shown(const std::vector<Finding>& findings) {
  std::string out;
  for (const Finding& f : findings)
    out += f.rule + " | " + f.unit + " | " + f.finding + " | " + f.evidence + "\n";
  return out;
}

TEST(DeskReview, FindsNothingInASoundSchedule) {
  const auto findings = deskReview(soundFleet().project);
  EXPECT_TRUE(findings.empty()) << shown(findings);
}

TEST(DeskReview, FindsNothingInAnEmptyProject) {
  EXPECT_TRUE(deskReview({}).empty());
}

TEST(DeskReview, FindsNothingInASoundScheduleOfAProjectInSi) {
  FleetForTests f = soundFleet();
  f.project.system = quantity::System::si;
  const auto findings = deskReview(f.project);
  EXPECT_TRUE(findings.empty()) << shown(findings);
}

struct Planted {
  const char* name;
  const char* rule;
  const char* unit;  // what the finding is about
  std::function<void(FleetForTests&)> plant;
  const char* evidence = "";  // part of it
  fleet::Severity severity = fleet::Severity::major;
};

// Twelve more units like 1-1, so that there is a crowd to stand out from.
void crowd(FleetForTests& f) {
  for (std::uint32_t i = 0; i < 12; ++i) {
    Unit u = unitForTests(20 + i, "2-" + std::to_string(i + 1));
    u.coolingMax = cfm(570 + 5.0 * i);
    add(f, u);
  }
  f.project.airHandlers.front().designFlow = cfm(10000);
}

auto onUnit(const char* tag, std::function<void(Unit&)> change) {
  return [tag, change](FleetForTests& f) { f.changeUnit(tag, change); };
}

void found(FleetForTests& f, const char* tag, const char* setting, const char* typed,
           std::optional<double> value) {
  f.change(tag, [&](fleet::UnitRecord& r) { r.settings.push_back({r.unit.id, setting, typed, value, {}}); });
}

const auto kMajor = fleet::Severity::major;
const auto kModerate = fleet::Severity::moderate;
const auto kMinor = fleet::Severity::minor;

const std::vector<Planted>& planted() {
  static const std::vector<Planted> faults{
      {"NegativeFlow", "absurd-value", "1-1", onUnit("1-1", [](Unit& u) { u.coolingMin = cfm(-180); }),
       "cooling min -180 cfm", kMajor},
      {"ImpossibleFlow", "absurd-value", "1-3", onUnit("1-3", [](Unit& u) { u.coolingMax = cfm(60000); }),
       "cooling max 60000 cfm", kMajor},
      {"NoCoolingMax", "flow-missing", "1-3", onUnit("1-3", [](Unit& u) { u.coolingMax.reset(); }), "",
       kMajor},
      {"NoFanFlow", "flow-missing", "1-5", onUnit("1-5", [](Unit& u) { u.fan.reset(); }), "", kMajor},
      {"NoHotMax", "flow-missing", "1-6", onUnit("1-6", [](Unit& u) { u.hotMax.reset(); }), "", kMajor},
      {"MinOverMax", "flow-order", "1-3", onUnit("1-3", [](Unit& u) { u.coolingMin = cfm(650); }),
       "cooling min 650 cfm is above cooling max 600 cfm", kMajor},
      {"HeatingMaxOverCoolingMax", "flow-order", "1-1",
       onUnit("1-1",
              [](Unit& u) {
                u.heatingMax = cfm(620);
                u.designDischarge = fahrenheit(72);
              }),
       "heating max 620 cfm", kModerate},
      {"StandbyOverMax", "flow-order", "1-1", onUnit("1-1", [](Unit& u) { u.standby = cfm(700); }),
       "standby 700 cfm", kModerate},
      {"HeatOnCoolingOnly", "kind-conflict", "1-3",
       onUnit("1-3", [](Unit& u) { u.heat = HeatKind::hotWater; }), "", kModerate},
      {"VentilationNotCovered", "ventilation", "1-3",
       onUnit("1-3", [](Unit& u) { u.ventilationMin = cfm(200); }),
       "ventilation min 200 cfm, cooling min 180 cfm", kMajor},
      {"VentilationNotCoveredInHeating", "ventilation", "1-4",
       onUnit("1-4", [](Unit& u) { u.heatingMin = cfm(140); }), "heating min 140 cfm", kMajor},
      {"MinimumHigh", "minimum-high", "1-1",
       onUnit("1-1", [](Unit& u) { u.coolingMin = u.reheat = u.heatingMax = cfm(330); }), "55 %", kModerate},
      {"NoInlet", "inlet-missing", "1-3", onUnit("1-3", [](Unit& u) { u.inletDiameter.reset(); }), "",
       kMinor},
      {"InletSmall", "inlet-velocity-high", "1-3",
       onUnit("1-3",
              [](Unit& u) {
                u.inletDiameter = inches(7);
                u.flowCoefficient.reset();
              }),
       "2245 fpm", kMinor},
      {"InletFarTooSmall", "inlet-velocity-high", "1-3",
       onUnit("1-3",
              [](Unit& u) {
                u.inletDiameter = inches(6);
                u.flowCoefficient.reset();
              }),
       "3056 fpm, at most 2500 fpm", kModerate},
      {"InletLargeForMinimum", "inlet-velocity-low", "1-3",
       [](FleetForTests& f) {
         f.project.profiles[0].leastControllablePressure = quantity::inchesOfWater(0.004);
         f.changeUnit("1-3", [](Unit& u) { u.coolingMin = u.ventilationMin = cfm(130); });
       },
       "372 fpm, at least 400 fpm", kMinor},
      {"InletLargeForMaximum", "inlet-velocity-low", "1-3",
       onUnit("1-3",
              [](Unit& u) {
                u.coolingMax = cfm(205);
                u.coolingMin = u.ventilationMin = cfm(145);
              }),
       "587 fpm, at least 600 fpm", kMinor},
      {"HardToControl", "least-controllable-flow", "1-3",
       onUnit("1-3", [](Unit& u) { u.coolingMin = u.ventilationMin = cfm(130); }),
       "velocity pressure of 0.009 in. w.g., element signal 0.020 in. w.g.", kMinor},
      {"BelowControl", "least-controllable-flow", "1-3",
       onUnit("1-3", [](Unit& u) { u.coolingMin = u.ventilationMin = cfm(80); }),
       "element signal 0.008 in. w.g., least 0.010 in. w.g.; least flow 138 cfm", kModerate},
      {"PrimaryOverFan", "series-fan-flow", "1-5", onUnit("1-5", [](Unit& u) { u.fan = cfm(550); }),
       "fan 550 cfm", kMajor},

      {"NoHeaterPower", "heater-data", "1-2", onUnit("1-2", [](Unit& u) { u.heaterPower.reset(); }), "",
       kModerate},
      {"NoStages", "heater-data", "1-2", onUnit("1-2", [](Unit& u) { u.heaterStages.reset(); }), "", kMinor},
      {"ElectricWithoutReheatFlow", "reheat-flow-missing", "1-2",
       onUnit("1-2", [](Unit& u) { u.reheat.reset(); }), "", kModerate},
      {"ElectricWithoutAnyReference", "reheat-flow-missing", "1-2",
       onUnit("1-2",
              [](Unit& u) {
                u.reheat.reset();
                u.heatingMin.reset();
              }),
       "", kMajor},
      {"WaterWithoutAnyHeatingFlow", "reheat-flow-missing", "1-1",
       onUnit("1-1",
              [](Unit& u) {
                u.reheat.reset();
                u.heatingMax.reset();
                u.heatingMin.reset();
              }),
       "", kModerate},
      {"ReheatZero", "reheat-flow-low", "1-1", onUnit("1-1", [](Unit& u) { u.reheat = cfm(0); }),
       "reheat 0 cfm", kMajor},
      {"ReheatBelowMinimum", "reheat-flow-low", "1-1", onUnit("1-1", [](Unit& u) { u.reheat = cfm(170); }),
       "reheat 170 cfm, cooling min 180 cfm", kMajor},
      {"RatioAbove1", "heat-enable-ratio", "1-2", onUnit("1-2", [](Unit& u) { u.heatEnableRatio = 75; }),
       "75", kMajor},
      {"NoLockout", "heat-enable-ratio", "1-2", onUnit("1-2", [](Unit& u) { u.heatEnableRatio = 0; }), "0",
       kMajor},
      {"HeaterStarvedOfAir", "heater-minimum-flow", "1-2",
       onUnit("1-2", [](Unit& u) { u.heaterPower = quantity::kilowatts(7.5); }), "7.50 kW", kMajor},
      {"HeaterTooHot", "heater-rise", "1-2",
       onUnit("1-2", [](Unit& u) { u.heaterPower = quantity::kilowatts(4); }), "limit 90.0 °F", kModerate},
      {"DesignOverLimit", "discharge-over-limit", "1-1",
       onUnit("1-1", [](Unit& u) { u.designDischarge = fahrenheit(105); }), "105.0 °F", kModerate},
      {"DesignDoesNotFollow", "discharge-design", "1-2",
       onUnit("1-2", [](Unit& u) { u.heaterPower = quantity::kilowatts(2); }), "2.00 kW", kMinor},
      {"LimitBelowSetpoint", "discharge-limit", "1-1",
       onUnit("1-1",
              [](Unit& u) {
                u.dischargeLimit = fahrenheit(68);
                u.designDischarge = fahrenheit(67);
              }),
       "68.0 °F", kModerate},
      {"LimitFarAboveSetpoint", "discharge-limit", "1-1",
       onUnit("1-1", [](Unit& u) { u.dischargeLimit = fahrenheit(110); }), "110.0 °F", kMinor},
      {"NoLimitNoSetpoint", "discharge-limit-missing", "1-2",
       onUnit("1-2", [](Unit& u) { u.zoneHeatingSetpoint.reset(); }), "", kMinor},
      {"SetpointsCrossed", "setpoint-order", "1-3",
       onUnit("1-3", [](Unit& u) { u.zoneCoolingSetpoint = fahrenheit(69); }), "cooling 69.0 °F", kMajor},
      {"NoWaterTemperature", "coil-data", "1-1", onUnit("1-1", [](Unit& u) { u.coilEnteringWater.reset(); }),
       "", kMinor},
      {"CoilCannot", "coil-impossible", "1-1",
       onUnit("1-1", [](Unit& u) { u.coilWaterFlow = quantity::gallonsPerMinute(0.1); }), "0.10 gpm", kMajor},
      {"StagedHeatLimited", "discharge-limit-heat", "1-2",
       onUnit("1-2", [](Unit& u) { u.dischargeLimit = fahrenheit(90); }), "2 stages", kModerate},
      {"LimitWithoutSensor", "discharge-limit-sensor", "1-1",
       [](FleetForTests& f) { f.project.profiles[0].dischargeSensor = false; }, "profile HW", kMajor},

      {"UnknownAirHandler", "air-handler-unknown", "1-3",
       onUnit("1-3", [](Unit& u) { u.airHandler = "AH-9"; }), "AH-9", kModerate},
      {"WarmAirWithoutHeatingMax", "warm-air", "1-3",
       [](FleetForTests& f) {
         f.project.airHandlers.push_back(f.project.airHandlers.front());
         f.project.airHandlers.back().name = "AH-2";
         f.project.airHandlers.back().suppliesWarmAir = true;
         f.project.airHandlers.back().designFlow.reset();
         f.changeUnit("1-3", [](Unit& u) { u.airHandler = "AH-2"; });
       },
       "AH-2", kModerate},
      {"WarmAirWithoutHeatingMin", "warm-air", "1-3",
       [](FleetForTests& f) {
         f.project.airHandlers.push_back(f.project.airHandlers.front());
         f.project.airHandlers.back().name = "AH-2";
         f.project.airHandlers.back().suppliesWarmAir = true;
         f.project.airHandlers.back().designFlow.reset();
         f.changeUnit("1-3", [](Unit& u) {
           u.airHandler = "AH-2";
           u.heatingMax = cfm(300);
         });
       },
       "heating max 300 cfm", kModerate},
      {"HeatingMaxWithoutWarmAir", "warm-air", "1-3", onUnit("1-3", [](Unit& u) { u.heatingMax = cfm(300); }),
       "heating max 300 cfm", kMinor},
      {"EnteringAirWarm", "entering-air", "1-1",
       onUnit("1-1", [](Unit& u) { u.designEnteringAir = fahrenheit(65); }), "65.0 °F", kMinor},
      {"MaximaFarOverFan", "diversity", "AH-1",
       [](FleetForTests& f) { f.project.airHandlers[0].designFlow = cfm(2000); }, "diversity 0.56",
       kModerate},
      {"MinimaOverFan", "diversity", "AH-1",
       [](FleetForTests& f) { f.project.airHandlers[0].designFlow = cfm(900); }, "of minima 1080 cfm",
       kMajor},
      {"UnitsMissing", "diversity", "AH-1",
       [](FleetForTests& f) { f.project.airHandlers[0].designFlow = cfm(5000); }, "diversity 1.39",
       kModerate},

      {"UnknownProfile", "profile-unknown", "1-3", onUnit("1-3", [](Unit& u) { u.profile = "ZZ"; }),
       "would serve: EL and HW", kModerate},
      {"NoProfile", "profile-unknown", "1-3", onUnit("1-3", [](Unit& u) { u.profile.clear(); }), "",
       kModerate},
      {"ProfileWithoutFan", "profile-lacks", "1-4",
       [](FleetForTests& f) {
         f.project.profiles.push_back(f.project.profiles[2]);
         f.project.profiles.back().name = "FAN-";
         f.project.profiles.back().fan = false;
         f.changeUnit("1-4", [](Unit& u) { u.profile = "FAN-"; });
       },
       "least capable first: FAN", kMajor},
      {"ProfileForOtherHeat", "profile-lacks", "1-1", onUnit("1-1", [](Unit& u) { u.profile = "EL"; }),
       "least capable first: HW and FAN", kMajor},
      {"OneActuatorForDualDuct", "profile-lacks", "1-6",
       [](FleetForTests& f) { f.project.profiles[3].inlets = 1; }, "no profile of the project serves",
       kMajor},
      {"NoExhaust", "profile-lacks", "E-1", [](FleetForTests& f) { f.project.profiles[4].exhaust = false; },
       "no profile", kMajor},
      {"StrokeTimes", "stroke-time", "1-3",
       onUnit("1-3", [](Unit& u) { u.strokeTime = quantity::seconds(60); }), "schedule 60 s, profile HW 90 s",
       kMinor},
      {"NoSetup", "setup-means", "1-3",
       [](FleetForTests& f) {
         f.project.roomSensors.push_back(f.project.roomSensors[0]);
         f.project.roomSensors.back().name = "Plain";
         f.project.roomSensors.back().canSetUpController = false;
         f.changeUnit("1-3", [](Unit& u) { u.roomSensor = "Plain"; });
       },
       "Plain", kMinor},
      {"OtherProtocol", "protocol", "EX", [](FleetForTests& f) { f.project.profiles[4].protocol = "Modbus"; },
       "required BACnet MS/TP", kMajor},
      {"NobodyHoldsTrends", "front-end-points", "EX",
       [](FleetForTests& f) { f.project.profiles[4].trends = Custody::unknown; }, "trends held by nobody",
       kModerate},
      {"NoDamperFeedback", "damper-feedback", "EX",
       [](FleetForTests& f) { f.project.profiles[4].damperFeedback = false; }, "1 unit", kMinor},

      {"NoSensor", "sensor-missing", "1-3",
       [](FleetForTests& f) {
         f.project.roomSensors.clear();
         f.changeUnit("1-3", [](Unit& u) { u.roomSensor.clear(); });
       },
       "Room 103", kModerate},
      {"UnknownSensor", "sensor-unknown", "1-3", onUnit("1-3", [](Unit& u) { u.roomSensor = "Brass"; }),
       "Brass", kModerate},
      {"NoMotion", "sensor-motion", "1-3",
       [](FleetForTests& f) {
         f.project.roomSensors[0].motion = false;
         f.changeUnit("1-3", [](Unit& u) { u.standby = cfm(0); });
       },
       "standby 0 cfm", kModerate},
      {"NoOverride", "sensor-override", "1-3",
       [](FleetForTests& f) {
         f.project.roomSensors.push_back(f.project.roomSensors[0]);
         f.project.roomSensors.back().name = "Plain";
         f.project.roomSensors.back().override_ = false;
         f.changeUnit("1-3", [](Unit& u) { u.roomSensor = "Plain"; });
       },
       "unoccupied 0 cfm", kMinor},
      {"NoAdjustment", "sensor-adjustment", "1-3",
       [](FleetForTests& f) {
         f.project.roomSensors[0].adjustment = false;
         f.changeUnit("1-3", [](Unit& u) {
           u.zoneHeatingSetpoint.reset();
           u.zoneCoolingSetpoint.reset();
         });
       },
       "Wall", kMinor},
      {"NoDisplay", "sensor-display", "1-3",
       [](FleetForTests& f) {
         f.project.roomSensors.push_back(f.project.roomSensors[0]);
         f.project.roomSensors.back().name = "Plain";
         f.project.roomSensors.back().display = false;
         f.changeUnit("1-3", [](Unit& u) { u.roomSensor = "Plain"; });
       },
       "Plain", kMinor},

      {"SameTag", "duplicate-tag", "1-1 ", onUnit("1-3", [](Unit& u) { u.tag = "1-1 "; }), "Room 101",
       kMajor},
      {"UnknownSegment", "segment-unknown", "1-3", onUnit("1-3", [](Unit& u) { u.segment = "Trunk 9"; }),
       "Trunk 9", kModerate},
      {"MacTooHigh", "mac-range", "1-3", onUnit("1-3", [](Unit& u) { u.macAddress = 128; }),
       "MAC address 128", kMajor},
      {"MacAboveSegment", "mac-range", "E-1",
       [](FleetForTests& f) { f.project.segments[0].highestAddress = 6; }, "0 to 6", kMajor},
      {"SameMac", "mac-duplicate", "1-3", onUnit("1-3", [](Unit& u) { u.macAddress = 1; }), "1-1 and 1-3",
       kMajor},
      {"NoMac", "mac-missing", "1-3", onUnit("1-3", [](Unit& u) { u.macAddress.reset(); }), "", kMinor},
      {"InstanceTooHigh", "instance-range", "1-3", onUnit("1-3", [](Unit& u) { u.deviceInstance = 4194303; }),
       "0 to 4194302", kMajor},
      {"SameInstance", "instance-duplicate", "1-3", onUnit("1-3", [](Unit& u) { u.deviceInstance = 100001; }),
       "1-1 and 1-3", kMajor},
      {"NoInstance", "instance-missing", "1-3", onUnit("1-3", [](Unit& u) { u.deviceInstance.reset(); }), "",
       kMinor},
      {"OddSpeed", "segment-limits", "Trunk 1", [](FleetForTests& f) { f.project.segments[0].speed = 14400; },
       "14400 bit/s", kModerate},
      {"HighestAddressTooHigh", "segment-limits", "Trunk 1",
       [](FleetForTests& f) { f.project.segments[0].highestAddress = 254; }, "at most 127", kModerate},
      {"TooManyLoads", "segment-load", "Trunk 1",
       [](FleetForTests& f) { f.project.segments[0].loadLimit = 1.5; }, "1.750 unit loads, at most 1.500",
       kMajor},

      {"StandsOut", "size-outlier", "2-3",
       [](FleetForTests& f) {
         crowd(f);
         f.changeUnit("2-3", [](Unit& u) {
           u.coolingMax = cfm(290);
           u.coolingMin = u.heatingMin = cfm(142);
           u.ventilationMin = cfm(120);
           u.heatingMax = u.reheat = cfm(280);
         });
       },
       "cooling max 290 cfm, median of 14 units", kMinor},
      {"CoefficientOfAnotherSize", "coefficient-outlier", "1-1",
       onUnit("1-1", [](Unit& u) { u.flowCoefficient = *u.flowCoefficient * 0.4; }), "amplification 14",
       kModerate},
      {"CoefficientOutOfItsCrowd", "coefficient-outlier", "2-3",
       [](FleetForTests& f) {
         crowd(f);
         f.changeUnit("2-3", [](Unit& u) { u.flowCoefficient = *u.flowCoefficient * 1.25; });
       },
       "median of its size 922", kModerate},
      {"SettingDiffers", "setting-differs", "1-1",
       [](FleetForTests& f) { found(f, "1-1", "Cooling_Max flow", "450 cfm", cfm(450).si()); },
       "found 450 cfm, scheduled 600 cfm", kMajor},
      {"SettingOfWords", "setting-differs", "1-1",
       [](FleetForTests& f) { found(f, "1-1", "heat", "electric staged", {}); }, "scheduled hot water",
       kMajor},
  };
  return faults;
}

class PlantedFault : public testing::TestWithParam<Planted> {};

TEST_P(PlantedFault, GivesExactlyItsFinding) {
  FleetForTests f = soundFleet();
  GetParam().plant(f);
  const auto findings = deskReview(f.project);
  ASSERT_EQ(findings.size(), 1U) << shown(findings);
  EXPECT_EQ(findings[0].rule, GetParam().rule);
  EXPECT_EQ(findings[0].unit, GetParam().unit);
  EXPECT_EQ(findings[0].severity, GetParam().severity);
  EXPECT_THAT(findings[0].evidence, testing::HasSubstr(GetParam().evidence));
  EXPECT_FALSE(findings[0].finding.empty());
  EXPECT_EQ(findings[0].finding.back(), '.');
}

TEST_P(PlantedFault, IsTheSameInAProjectInSi) {
  FleetForTests f = soundFleet();
  GetParam().plant(f);
  f.project.system = quantity::System::si;
  const auto findings = deskReview(f.project);
  ASSERT_EQ(findings.size(), 1U) << shown(findings);
  EXPECT_EQ(findings[0].rule, GetParam().rule);
  EXPECT_EQ(findings[0].severity, GetParam().severity);
}

INSTANTIATE_TEST_SUITE_P(DeskReview, PlantedFault, testing::ValuesIn(planted()),
                         [](const testing::TestParamInfo<Planted>& fault) {
                           return std::string(fault.param.name);
                         });

TEST(DeskReview, HasAPlantedFaultForEveryRule) {
  std::set<std::string_view> tested;
  for (const Planted& p : planted()) tested.insert(p.rule);
  for (const ReviewRule& rule : reviewRules()) {
    EXPECT_TRUE(tested.count(rule.key)) << rule.key;
    EXPECT_FALSE(rule.basis.empty()) << rule.key;
  }
}

TEST(DeskReview, HoldsProfilesToWhatTheFrontEndRequires) {
  const FleetForTests f = soundFleet();
  const auto rulesWith = [&](FrontEndNeeds needs) {
    ReviewLimits limits;
    limits.frontEnd = std::move(needs);
    std::set<std::string> rules;
    for (const Finding& finding : deskReview(f.project, limits)) rules.insert(finding.rule);
    return rules;
  };
  EXPECT_THAT(rulesWith({.protocol = "bacnet ms/tp"}), testing::IsEmpty());
  EXPECT_THAT(rulesWith({.protocol = "BACnet/IP"}), testing::ElementsAre("protocol"));
  EXPECT_THAT(rulesWith({.protocol = "", .trends = Custody::controller}),
              testing::ElementsAre("front-end-points"));
  EXPECT_THAT(rulesWith({.protocol = "", .schedules = Custody::frontEnd, .alarms = Custody::controller}),
              testing::IsEmpty());
  EXPECT_THAT(rulesWith({.protocol = "", .damperFeedback = true, .dischargeSensor = true}),
              testing::IsEmpty());
}

TEST(DeskReview, DemandsDamperFeedbackWhereTheFrontEndRequiresIt) {
  FleetForTests f = soundFleet();
  f.project.profiles[4].damperFeedback = false;
  ReviewLimits limits;
  limits.frontEnd.damperFeedback = true;
  const auto findings = deskReview(f.project, limits);
  ASSERT_EQ(findings.size(), 1U) << shown(findings);
  EXPECT_EQ(findings[0].rule, "profile-lacks");
  EXPECT_EQ(findings[0].unit, "E-1");
}

TEST(DeskReview, CallsNoUnitAnOutlierAmongAFew) {
  FleetForTests f = soundFleet();
  for (std::uint32_t i = 0; i < 3; ++i) add(f, unitForTests(20 + i, "2-" + std::to_string(i + 1)));
  f.project.airHandlers.front().designFlow.reset();
  f.changeUnit("2-3", [](Unit& u) {
    u.coolingMax = cfm(290);
    u.coolingMin = u.heatingMin = cfm(142);
    u.ventilationMin = cfm(120);
    u.heatingMax = u.reheat = cfm(280);
  });
  const auto findings = deskReview(f.project);
  EXPECT_TRUE(findings.empty()) << shown(findings);
}

TEST(DeskReview, FindsEveryDuplicateAmongManyUnits) {
  FleetForTests f;
  for (std::uint32_t i = 0; i < 3000; ++i) {
    Unit u = unitForTests(i % 1000, "T-" + std::to_string(i % 1000));
    u.macAddress.reset();
    u.deviceInstance.reset();
    add(f, u);
  }
  const auto findings = deskReview(f.project);
  EXPECT_EQ(std::count_if(findings.begin(), findings.end(),
                          [](const Finding& x) { return x.rule == "duplicate-tag"; }),
            2000);
}

TEST(DeskReview, TakesCapitalsForTheSameTagButNotAnotherNumbering) {
  FleetForTests f = soundFleet();
  f.changeUnit("1-3", [](Unit& u) { u.tag = "1-1A"; });
  f.changeUnit("1-6", [](Unit& u) { u.tag = "1-1-A"; });
  EXPECT_TRUE(deskReview(f.project).empty());
  f.changeUnit("1-1A", [](Unit& u) { u.tag = "e-1"; });
  EXPECT_EQ(deskReview(f.project).size(), 1U);
}

TEST(ProfileNeeds, ListsWhatServesLeastCapableFirstAndWhatIsLacking) {
  FleetForTests f = soundFleet();
  f.changeUnit("1-1", [](Unit& u) { u.profile = "EL"; });
  const auto needs = profileNeeds(f.project);
  ASSERT_EQ(needs.size(), f.project.units.size());
  EXPECT_EQ(needs[0].tag, "1-1");
  EXPECT_FALSE(needs[0].scheduledServes);
  EXPECT_THAT(needs[0].lacking, testing::ElementsAre("hot water heat"));
  EXPECT_THAT(needs[0].serve, testing::ElementsAre("HW", "FAN"));
  EXPECT_TRUE(needs[1].scheduledServes);
  EXPECT_THAT(needs[1].lacking, testing::IsEmpty());
}

TEST(ProfileNeeds, CountsScheduledAndLeastCapableProfiles) {
  const FleetForTests f = soundFleet();
  std::map<std::string, std::pair<int, int>> counts;
  for (const ProfileQuantity& q : profileQuantities(f.project))
    counts[q.profile] = {q.scheduled, q.leastCapable};
  EXPECT_EQ(counts["HW"],
            (std::pair{2, 1}));  // 1-3, cooling only, could do with EL, the first by name of two alike
  EXPECT_EQ(counts["EL"], (std::pair{1, 2}));
  EXPECT_EQ(counts["FAN"], (std::pair{2, 2}));
  EXPECT_EQ(counts["DD"], (std::pair{1, 1}));
}

TEST(ProfileNeeds, TakesACapabilityThatIsNotStatedFromTheKindsServed) {
  FleetForTests f = soundFleet();
  f.project.profiles[2].fan.reset();
  f.project.profiles[3].inlets.reset();
  f.project.profiles[4].exhaust.reset();
  EXPECT_TRUE(deskReview(f.project).empty());
}

TEST(SettingDifferences, AreRankedOverTheFleetAndForgiveRounding) {
  FleetForTests f = soundFleet();
  found(f, "1-1", "cooling max flow", "598 cfm", cfm(598).si());    // within rounding
  found(f, "1-1", "cooling min flow", "200 cfm", cfm(200).si());    // +11 %
  found(f, "1-2", "cooling max flow", "1200 cfm", cfm(1200).si());  // +100 %
  found(f, "1-3", "standby flow", "100 cfm", cfm(100).si());        // not scheduled
  found(f, "1-3", "zone heating setpoint", "68 °F", fahrenheit(68).si());
  const auto differences = settingDifferences(f.project);
  ASSERT_EQ(differences.size(), 3U);
  EXPECT_EQ(differences[0].tag, "1-2");
  EXPECT_NEAR(differences[0].change, 1, 1e-9);
  EXPECT_EQ(differences[1].setting, "zone heating setpoint");
  EXPECT_EQ(differences[2].setting, "cooling min flow");
  EXPECT_EQ(differences[2].scheduled, "180 cfm");
  EXPECT_EQ(differences[2].found, "200 cfm");
}

TEST(SettingDifferences, TakeTheLatestReading) {
  FleetForTests f = soundFleet();
  const auto at = [](const char* text) { return fleet::Timestamp::fromText(text); };
  f.change("1-1", [&](fleet::UnitRecord& r) {
    r.settings.push_back({r.unit.id, "cooling max flow", "600 cfm", cfm(600).si(), at("2026-05-02T10:00Z")});
    r.settings.push_back({r.unit.id, "cooling max flow", "900 cfm", cfm(900).si(), at("2026-05-01T10:00Z")});
  });
  EXPECT_TRUE(settingDifferences(f.project).empty());
}

TEST(AirHandlerLoads, SumTheirUnitsWithoutExhaust) {
  const auto loads = airHandlerLoads(soundFleet().project);
  ASSERT_EQ(loads.size(), 1U);
  EXPECT_EQ(loads[0].units, 6U);
  EXPECT_NEAR(quantity::inCfm(loads[0].maxima), 3600, 1e-6);
  EXPECT_NEAR(*loads[0].diversity(), 3000.0 / 3600, 1e-9);
}

}  // namespace
}  // namespace ductwright::verdict
