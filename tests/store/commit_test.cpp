#include "support.h"

namespace ductwright::store::testing {
namespace {

using fleet::AirflowStep;

class CommitTest : public ::testing::Test {
 protected:
  TemporaryFolder folder;
  Environment environment = fixedEnvironment();
  std::unique_ptr<ProjectFile> project = created(folder / "tower.ductwright", environment);
};

TEST_F(CommitTest, aNewProjectHoldsItsNameABuildingAndTheDefaultCriteria) {
  const auto s = loaded(*project);
  EXPECT_EQ(s.projectName, "Invented Tower");
  EXPECT_EQ(s.system, quantity::System::ip);
  EXPECT_DOUBLE_EQ(quantity::inFeet(s.elevation), 1600);
  ASSERT_EQ(s.buildings.size(), 1U);
  EXPECT_EQ(s.buildings[0].name, "Invented Tower");
  EXPECT_EQ(s.criteria, fleet::Criteria{});
  EXPECT_EQ(s.revision, 1U);
  EXPECT_EQ(findingsOf(*project), "");
}

TEST_F(CommitTest, aUnitIsReadBackWithEveryField) {
  fleet::Unit u = inventedUnit(environment, "2-14");
  u.building = "Invented Tower";
  u.zone = "Corner, north";
  u.heatingMax = quantity::cfm(300);
  u.heatingMin = quantity::cfm(301);
  u.reheat = quantity::cfm(302);
  u.unoccupied = quantity::cfm(0);
  u.standby = quantity::cfm(304);
  u.fan = quantity::cfm(305);
  u.hotMax = quantity::cfm(306);
  u.hotMin = quantity::cfm(307);
  u.ventilationMin = quantity::cfm(308);
  u.flowBasis = fleet::FlowBasis::standard;
  u.heat = fleet::HeatKind::electricStaged;
  u.heaterPosition = fleet::HeaterPosition::plenumInlet;
  u.heaterPower = quantity::kilowatts(4.5);
  u.heatEnableRatio = 0.7;
  u.coilWaterFlow = quantity::gallonsPerMinute(1.5);
  u.coilEnteringWater = quantity::fahrenheit(180);
  u.designEnteringAir = quantity::fahrenheit(55);
  u.designDischarge = quantity::fahrenheit(90);
  u.dischargeLimit = quantity::fahrenheit(95);
  u.zoneHeatingSetpoint = quantity::fahrenheit(70);
  u.zoneCoolingSetpoint = quantity::fahrenheit(75);
  u.flowCoefficient = quantity::FlowCoefficient::fromSi(0.0123);
  u.strokeTime = quantity::seconds(95);
  u.profile = "P-1";
  u.roomSensor = "S-1";
  u.segment = "N-1";
  u.macAddress = 12;
  u.deviceInstance = 4'194'302;
  committed(*project, "Add 2-14", [&](Writer& w) { w.put(u); });
  const auto s = loaded(*reopened(folder / "tower.ductwright", Access::read));
  ASSERT_EQ(s.units.size(), 1U);
  EXPECT_EQ(s.units[0]->unit, u);
}

TEST_F(CommitTest, everyOtherRecordIsReadBack) {
  const auto now = environment.now();
  fleet::AirHandler ahu{environment.newId<fleet::AirHandler>(),
                        "AHU-1",
                        quantity::cfm(12000),
                        true,
                        quantity::fahrenheit(55),
                        quantity::inchesOfWater(1.5)};
  fleet::ControllerProfile profile;
  profile.id = environment.newId<fleet::ControllerProfile>();
  profile.name = "P-1";
  profile.kindsServed = {fleet::UnitKind::reheat, fleet::UnitKind::seriesFan};
  profile.heatServed = {fleet::HeatKind::electricStaged};
  profile.inlets = 1;
  profile.fan = false;
  profile.alarms = fleet::Custody::frontEnd;
  profile.leastControllablePressure = quantity::inchesOfWater(0.005);
  profile.unitLoad = 0.125;
  profile.document = "Submittal 23-09";
  fleet::RoomSensor sensor{
      environment.newId<fleet::RoomSensor>(), "S-1", true, false, std::nullopt, true, false};
  fleet::NetworkSegment segment{environment.newId<fleet::NetworkSegment>(), "N-1", 38400.0, 64, 32.0};
  fleet::Instrument hood;
  hood.id = environment.newId<fleet::Instrument>();
  hood.serial = "INV-001";
  hood.description = "capture hood (invented)";
  hood.accuracies = {
      {"measured flow", 0.03, 0.003, 0.0005, std::nullopt, std::nullopt, fleet::FlowBasis::standard},
      {"temperature", 0, 0.5, 0.1, 0.3, 2.0, std::nullopt}};
  hood.calibratedOn = fleet::Day{2026, 3, 4};
  fleet::Unit unit = inventedUnit(environment, "2-14");
  fleet::Run run{
      environment.newId<fleet::Run>(), fleet::Procedure::airflow, 2, now, "A. Invented", "inlet was blocked"};
  fleet::FoundSetting setting{unit.id, "cooling max flow", "480 cfm", quantity::cfm(480).si(), now};
  fleet::Deficiency deficiency;
  deficiency.id = environment.newId<fleet::Deficiency>();
  deficiency.unit = unit.id;
  deficiency.number = 7;
  deficiency.cause = "airflow/cooling max";
  deficiency.party = fleet::Party::balancer;
  deficiency.severity = fleet::Severity::major;
  deficiency.title = "Cooling maximum is low";
  deficiency.evidence = "450 cfm was designed, 300 cfm was measured";
  deficiency.closes = "405 to 495 cfm";

  committed(*project, "Add everything", [&](Writer& w) {
    w.put(ahu);
    w.put(profile);
    w.put(sensor);
    w.put(segment);
    w.put(hood);
    w.put(unit);
    w.put(unit.id, run);
    w.put(setting);
    w.put(deficiency);
    w.addMove(unit.id, deficiency.id,
              {fleet::DeficiencyState::raised, now, "A. Invented", fleet::Role::agent, ""});
    w.addMove(
        unit.id, deficiency.id,
        {fleet::DeficiencyState::accepted, now, "B. Invented", fleet::Role::contractor, "will be done"});
    w.put(KeptMapping{"schedule", "Invented engineers", "unit=Tag"});
  });
  const auto s = loaded(*reopened(folder / "tower.ductwright", Access::read));
  ASSERT_EQ(s.airHandlers.size(), 1U);
  EXPECT_EQ(s.airHandlers[0].designFlow, ahu.designFlow);
  EXPECT_EQ(s.airHandlers[0].suppliesWarmAir, true);
  EXPECT_EQ(s.airHandlers[0].ductStaticPressure, ahu.ductStaticPressure);
  ASSERT_EQ(s.profiles.size(), 1U);
  EXPECT_EQ(s.profiles[0], profile);
  ASSERT_EQ(s.roomSensors.size(), 1U);
  EXPECT_EQ(s.roomSensors[0], sensor);
  ASSERT_EQ(s.segments.size(), 1U);
  EXPECT_EQ(s.segments[0], segment);
  ASSERT_EQ(s.instruments.size(), 1U);
  EXPECT_EQ(s.instruments[0], hood);
  ASSERT_EQ(s.units.size(), 1U);
  ASSERT_EQ(s.units[0]->runs.size(), 1U);
  EXPECT_EQ(s.units[0]->runs[0], run);
  EXPECT_EQ(s.units[0]->runs[0].startedAt->offsetMinutes, 60);
  ASSERT_EQ(s.units[0]->settings.size(), 1U);
  EXPECT_EQ(s.units[0]->settings[0], setting);
  ASSERT_EQ(s.deficiencies.size(), 1U);
  EXPECT_EQ(s.deficiencies[0].title, deficiency.title);
  EXPECT_EQ(s.deficiencies[0].party, fleet::Party::balancer);
  EXPECT_EQ(s.deficiencies[0].state(), fleet::DeficiencyState::accepted);
  ASSERT_EQ(s.deficiencies[0].moves.size(), 2U);
  EXPECT_EQ(s.deficiencies[0].moves[1].by, "B. Invented");
  ASSERT_EQ(project->mappings()->size(), 1U);
  EXPECT_EQ(project->mappings()->at(0).text, "unit=Tag");
  EXPECT_EQ(findingsOf(*project), "");
}

TEST_F(CommitTest, aReadingIsReadBackWithEveryField) {
  fleet::Unit unit = inventedUnit(environment, "2-14");
  fleet::Reading full = inventedReading(412.5);
  full.run = 3;
  full.outlet = fleet::Word("1");
  full.note = fleet::Word("door open; \"measured\" twice, 5 ¾\" slot");
  fleet::Reading bare;
  bare.value = 0;
  bare.procedure = fleet::Procedure::dischargeRise;
  bare.quantity = fleet::ReadingQuantity::waterFlow;
  committed(*project, "Enter readings", [&](Writer& w) {
    w.put(unit);
    const auto batch = w.newBatch("typed");
    w.addReading(batch, unit.id, full);
    w.addReading(batch, unit.id, bare);
  });
  const auto s = loaded(*reopened(folder / "tower.ductwright", Access::read));
  ASSERT_EQ(s.units[0]->readings.size(), 2U);
  const fleet::Reading& a = s.units[0]->readings[0];
  EXPECT_EQ(a.value, full.value);
  EXPECT_EQ(a.takenAt, full.takenAt);
  EXPECT_EQ(a.takenAt->offsetMinutes, -300);
  EXPECT_EQ(a.waited, 90.5F);
  EXPECT_EQ(a.run, 3);
  EXPECT_EQ(a.outlet.text(), "1");
  EXPECT_EQ(a.typed, full.typed);
  EXPECT_EQ(a.instrument, full.instrument);
  EXPECT_EQ(a.takenBy, full.takenBy);
  EXPECT_EQ(a.note, full.note);
  const fleet::Reading& b = s.units[0]->readings[1];
  EXPECT_FALSE(b.takenAt.has_value());
  EXPECT_FALSE(b.waited.has_value());
  EXPECT_EQ(b.quantity, fleet::ReadingQuantity::waterFlow);
  EXPECT_TRUE(b.note.empty());
}

TEST_F(CommitTest, unitsStayInTheOrderInWhichTheyCame) {
  committed(*project, "Add units", [&](Writer& w) {
    for (const char* tag : {"3-01", "1-02", "2-03"}) w.put(inventedUnit(environment, tag));
  });
  auto s = loaded(*project);
  fleet::Unit first = s.units[0]->unit;
  first.zone = "Lobby";
  committed(*project, "Change the first", [&](Writer& w) { w.put(first); });
  s = loaded(*project);
  ASSERT_EQ(s.units.size(), 3U);
  EXPECT_EQ(s.units[0]->unit.tag, "3-01");
  EXPECT_EQ(s.units[0]->unit.zone, "Lobby");
  EXPECT_EQ(s.units[2]->unit.tag, "2-03");
}

TEST_F(CommitTest, aFailureOfTheCallerLeavesNothing) {
  const auto done = project->commit(kAct, [&](Writer& w) -> Result<void> {
    const fleet::Unit unit = inventedUnit(environment, "2-14");
    w.put(unit);
    w.addReading(w.newBatch("typed"), unit.id, inventedReading(400));
    return failure("A rule says no.");
  });
  ASSERT_FALSE(done.has_value());
  EXPECT_EQ(done.error().sentence, "A rule says no.");
  EXPECT_TRUE(loaded(*project).units.empty());
  EXPECT_EQ(loaded(*project).revision, 1U);
  EXPECT_TRUE(project->batches()->empty());
  EXPECT_EQ(findingsOf(*project), "");
}

TEST_F(CommitTest, aRefusalOfTheWriterStopsTheActionAndIsItsAnswer) {
  const auto done = project->commit(kAct, [&](Writer& w) -> Result<void> {
    w.put(inventedUnit(environment, "2-14"));
    w.withdraw({environment.newId<fleet::Batch>(), 0}, "slip");
    EXPECT_TRUE(w.failed());
    w.put(inventedUnit(environment, "2-15"));
    return {};
  });
  ASSERT_FALSE(done.has_value());
  EXPECT_EQ(done.error().sentence, "The reading is not in this project; open the project again.");
  EXPECT_TRUE(loaded(*project).units.empty());
}

TEST_F(CommitTest, anActionThatChangesNothingLeavesNoEntry) {
  const fleet::Unit unit = inventedUnit(environment, "2-14");
  const auto first = committed(*project, "Add", [&](Writer& w) { w.put(unit); });
  EXPECT_EQ(first.number, 2);
  const auto second = committed(*project, "Add again", [&](Writer& w) { w.put(unit); });
  EXPECT_EQ(second.number, 0);
  EXPECT_TRUE(second.changed.nothing());
  EXPECT_EQ(project->head()->number, 2);
}

TEST_F(CommitTest, aCancelLeavesTheProjectAsItWas) {
  std::stop_source stop;
  std::uint64_t reported = 0;
  const fleet::Unit unit = inventedUnit(environment, "2-14");
  const auto done = project->commit(kAct,
                                    [&](Writer& w) -> Result<void> {
                                      w.put(unit);
                                      const auto batch = w.newBatch("readings.csv");
                                      for (int i = 0; i < 10'000 && !w.failed(); ++i)
                                        w.addReading(batch, unit.id, inventedReading(400));
                                      return {};
                                    },
                                    {stop.get_token(), [&](std::uint64_t n) {
                                       reported = n;
                                       if (n >= 2048) stop.request_stop();
                                     }});
  ASSERT_FALSE(done.has_value());
  EXPECT_EQ(done.error().sentence, "Cancelled: nothing was changed.");
  EXPECT_EQ(reported, 2048U);
  EXPECT_TRUE(loaded(*project).units.empty());
  EXPECT_EQ(findingsOf(*project), "");
}

TEST_F(CommitTest, aStruckReadingIsShownAndMarkedWithItsReason) {
  const fleet::Unit unit = inventedUnit(environment, "2-14");
  fleet::FactKey slip;
  committed(*project, "Enter", [&](Writer& w) {
    w.put(unit);
    const auto batch = w.newBatch("typed");
    slip = w.addReading(batch, unit.id, inventedReading(4120));
    w.addReading(batch, unit.id, inventedReading(412));
  });
  const auto done = committed(*project, "Strike", [&](Writer& w) { w.withdraw(slip, "one digit too many"); });
  EXPECT_EQ(done.changed.units, std::vector{unit.id});
  const auto s = loaded(*project);
  ASSERT_EQ(s.units[0]->readings.size(), 2U);
  EXPECT_TRUE(s.units[0]->readings[0].withdrawn);
  EXPECT_FALSE(s.units[0]->readings[1].withdrawn);
  ASSERT_EQ(project->withdrawals(unit.id)->size(), 1U);
  EXPECT_EQ(project->withdrawals(unit.id)->at(0).reason, "one digit too many");
}

TEST_F(CommitTest, aStruckBatchIsOneRowAndMarksAllItsReadings) {
  const fleet::Unit unit = inventedUnit(environment, "2-14");
  fleet::BatchId batch;
  committed(*project, "Import", [&](Writer& w) {
    w.put(unit);
    batch = w.newBatch("readings.csv");
    for (int i = 0; i < 50; ++i) w.addReading(batch, unit.id, inventedReading(400 + i));
  });
  committed(*project, "Strike all", [&](Writer& w) { w.withdrawBatch(batch, "the wrong floor"); });
  const auto s = loaded(*project);
  ASSERT_EQ(s.units[0]->readings.size(), 50U);
  for (const auto& reading : s.units[0]->readings) EXPECT_TRUE(reading.withdrawn);
  ASSERT_EQ(project->batches()->size(), 1U);
  EXPECT_EQ(project->batches()->at(0).withdrawn, "the wrong floor");
  EXPECT_EQ(project->batches()->at(0).count, 50U);
}

TEST_F(CommitTest, aVersionOfTheCriteriaIsNeverOverwritten) {
  fleet::Criteria criteria;
  criteria.flowLow = 0.05;
  const auto put = [&](Writer& w) -> Result<void> {
    w.put(criteria);
    return {};
  };
  EXPECT_FALSE(project->commit(kAct, put).has_value());
  criteria.version = 2;
  criteria.rule = fleet::DecisionRule::guarded;
  EXPECT_TRUE(project->commit(kAct, put).has_value());
  EXPECT_EQ(loaded(*project).criteria, criteria);
}

TEST_F(CommitTest, aUnitWithASignOffStaysAndOneWithoutGoesWithAllThatIsItsOwn) {
  const fleet::Unit a = inventedUnit(environment, "2-14"), b = inventedUnit(environment, "2-15");
  committed(*project, "Add", [&](Writer& w) {
    for (const auto& unit : {a, b}) {
      w.put(unit);
      w.put(unit.id, fleet::Run{environment.newId<fleet::Run>(), fleet::Procedure::airflow, 1, {}, "", ""});
      w.put(fleet::FoundSetting{unit.id, "cooling max flow", "1", 1.0, {}});
      w.addReading(w.newBatch("typed"), unit.id, inventedReading(400));
    }
    fleet::SignOff signOff;
    signOff.id = environment.newId<fleet::SignOff>();
    signOff.unit = a.id;
    signOff.person = "C. Invented";
    w.sign(signOff, {1, "what was seen"});
  });
  const auto remove = [&](fleet::UnitId id) {
    return project->commit(kAct, [&](Writer& w) -> Result<void> {
      w.remove(id);
      return {};
    });
  };
  EXPECT_FALSE(remove(a.id).has_value());
  const auto removed = remove(b.id);
  ASSERT_TRUE(removed.has_value());
  EXPECT_TRUE(removed->changed.unitList);
  const auto s = loaded(*project);
  ASSERT_EQ(s.units.size(), 1U);
  EXPECT_EQ(s.units[0]->unit.tag, "2-14");
  EXPECT_EQ(findingsOf(*project), "");
  ASSERT_TRUE(project->undo("A. Invented", fleet::Role::agent).has_value());
  const auto back = loaded(*project);
  ASSERT_EQ(back.units.size(), 2U);
  EXPECT_EQ(back.units[1]->readings.size(), 1U);
  EXPECT_EQ(back.units[1]->runs.size(), 1U);
}

}  // namespace
}  // namespace ductwright::store::testing
