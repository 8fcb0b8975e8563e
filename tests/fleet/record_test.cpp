#include "fleet/record.h"

#include <gtest/gtest.h>

#include <thread>
#include <vector>

namespace ductwright::fleet {
namespace {

Run run(Procedure procedure, int number) {
  Run out;
  out.procedure = procedure;
  out.number = number;
  return out;
}

Reading reading(Procedure procedure, int number, bool withdrawn = false) {
  Reading out;
  out.procedure = procedure;
  out.run = number;
  out.withdrawn = withdrawn;
  return out;
}

TEST(CurrentRun, isTheHighestOfItsProcedure) {
  UnitRecord record;
  EXPECT_FALSE(record.currentRun(Procedure::airflow));
  record.runs = {run(Procedure::airflow, 1), run(Procedure::airflow, 3), run(Procedure::airflow, 2),
                 run(Procedure::dischargeRise, 7)};
  EXPECT_EQ(record.currentRun(Procedure::airflow), 3);
  EXPECT_EQ(record.currentRun(Procedure::dischargeRise), 7);
  EXPECT_FALSE(record.currentRun(Procedure::reheatLockout));
}

TEST(CurrentRun, isKnownFromItsReadingsWhereNoRunWasStarted) {
  UnitRecord record;
  record.readings = {reading(Procedure::airflow, 2), reading(Procedure::airflow, 1)};
  EXPECT_EQ(record.currentRun(Procedure::airflow), 2);
}

TEST(CurrentRun, isNotMadeByAWithdrawnReading) {
  UnitRecord record;
  record.readings = {reading(Procedure::airflow, 1), reading(Procedure::airflow, 2, true)};
  EXPECT_EQ(record.currentRun(Procedure::airflow), 1);
}

TEST(CurrentRun, isTheStartedOneAlsoBeforeItsFirstReading) {
  UnitRecord record;
  record.runs = {run(Procedure::airflow, 2)};
  record.readings = {reading(Procedure::airflow, 1)};
  EXPECT_EQ(record.currentRun(Procedure::airflow), 2);
}

Accuracy accuracy(const std::string& quantity, double share, double plus) {
  Accuracy out;
  out.quantity = quantity;
  out.share = share;
  out.plus = plus;
  return out;
}

Instrument hood() {
  Instrument out;
  out.accuracies = {accuracy("Flow", 0.03, 0), accuracy("outlet flow", 0.05, 0),
                    accuracy("temperature", 0, 0.5)};
  return out;
}

TEST(Accuracy, ofTheQuantityComesBeforeThatOfItsDimension) {
  const Instrument instrument = hood();
  EXPECT_EQ(instrument.accuracyFor(ReadingQuantity::outletFlow)->share, 0.05);
  EXPECT_EQ(instrument.accuracyFor(ReadingQuantity::measuredFlow)->share, 0.03);
  EXPECT_EQ(instrument.accuracyFor(ReadingQuantity::dischargeAirTemperature)->plus, 0.5);
  EXPECT_EQ(instrument.accuracyFor(ReadingQuantity::enteringWaterTemperature)->plus, 0.5);
}

TEST(Accuracy, ofAirIsNotThatOfWater) {
  EXPECT_EQ(hood().accuracyFor(ReadingQuantity::waterFlow), nullptr);
  EXPECT_EQ(hood().accuracyFor(ReadingQuantity::heaterPower), nullptr);
}

TEST(DeficiencyState, isWhereItsLastMoveLed) {
  Deficiency deficiency;
  EXPECT_EQ(deficiency.state(), DeficiencyState::raised);
  deficiency.moves.push_back({.to = DeficiencyState::accepted, .at = {}, .by = "", .role = {}, .note = ""});
  deficiency.moves.push_back(
      {.to = DeficiencyState::workReported, .at = {}, .by = "", .role = {}, .note = ""});
  EXPECT_EQ(deficiency.state(), DeficiencyState::workReported);
}

TEST(Snapshot, findsItsRecordsByTheirNames) {
  Snapshot project;
  auto record = std::make_shared<UnitRecord>();
  record->unit.tag = "1-01";
  record->unit.id = UnitId{Uuid::version7(1, {})};
  project.units = {record};
  AirHandler handler;
  handler.name = "AH-1";
  project.airHandlers.push_back(handler);
  Instrument instrument = hood();
  instrument.serial = "H-7";
  project.instruments.push_back(instrument);
  EXPECT_EQ(project.unit("1-01"), record.get());
  EXPECT_EQ(project.unit(record->unit.id), record.get());
  EXPECT_EQ(project.unit("1-02"), nullptr);
  EXPECT_EQ(project.airHandler("AH-1"), &project.airHandlers[0]);
  EXPECT_EQ(project.airHandler("ah-1"), nullptr);
  EXPECT_EQ(project.instrument("H-7"), &project.instruments[0]);
  EXPECT_EQ(project.profile("any"), nullptr);
}

TEST(Word, ofEqualTextIsTheSame) {
  EXPECT_EQ(Word("450 cfm"), Word(std::string("450 ") + "cfm"));
  EXPECT_EQ(&Word("H-7").text(), &Word("H-7").text());
  EXPECT_NE(Word("a"), Word("b"));
  EXPECT_LT(Word("a"), Word("b"));
  EXPECT_TRUE(Word().empty());
  EXPECT_EQ(Word(""), Word());
}

TEST(Word, isSharedByEveryThread) {
  std::vector<std::thread> threads;
  std::vector<std::vector<const std::string*>> seen(4);
  for (auto& mine : seen)
    threads.emplace_back([&mine] {
      for (int i = 0; i < 500; ++i) mine.push_back(&Word("word " + std::to_string(i)).text());
    });
  for (auto& thread : threads) thread.join();
  for (const auto& mine : seen) EXPECT_EQ(mine, seen[0]);
}

}  // namespace
}  // namespace ductwright::fleet
