#include <gtest/gtest.h>

#include "sample_state.h"
#include "ui/unit/entry_order.h"

namespace ductwright::ui {
namespace {

using fleet::AirflowStep;
using fleet::Procedure;
using fleet::ReadingQuantity;

Expected of(AirflowStep step, ReadingQuantity quantity) { return {code(step), quantity}; }

fleet::UnitRecord emptyUnit() {
  fleet::UnitRecord record;
  record.unit = inventedUnit(1, "1-1", "1");
  return record;
}

TEST(EntryOrder, BeginsWithTheFirstScheduledStep) {
  EXPECT_EQ(nextReading(emptyUnit(), Procedure::airflow), of(AirflowStep::coolingMax, ReadingQuantity::measuredFlow));
}

TEST(EntryOrder, GoesFromMeasuredToReportedToTheNextStep) {
  fleet::UnitRecord record = emptyUnit();
  const auto first = of(AirflowStep::coolingMax, ReadingQuantity::measuredFlow);
  record.readings.push_back(inventedReading(1, AirflowStep::coolingMax, ReadingQuantity::measuredFlow, 450));
  const auto second = nextReading(record, Procedure::airflow, first);
  EXPECT_EQ(second, of(AirflowStep::coolingMax, ReadingQuantity::reportedFlow));
  record.readings.push_back(inventedReading(2, AirflowStep::coolingMax, ReadingQuantity::reportedFlow, 449));
  EXPECT_EQ(nextReading(record, Procedure::airflow, second), of(AirflowStep::coolingMin, ReadingQuantity::measuredFlow));
}

TEST(EntryOrder, ComesBackToWhatWasLeftOut) {
  fleet::UnitRecord record = emptyUnit();
  record.readings.push_back(inventedReading(1, AirflowStep::coolingMin, ReadingQuantity::measuredFlow, 120));
  record.readings.push_back(inventedReading(2, AirflowStep::coolingMin, ReadingQuantity::reportedFlow, 120));
  EXPECT_EQ(nextReading(record, Procedure::airflow, of(AirflowStep::coolingMin, ReadingQuantity::reportedFlow)),
            of(AirflowStep::coolingMax, ReadingQuantity::measuredFlow));
}

TEST(EntryOrder, AsksAgainForAWithdrawnReading) {
  fleet::UnitRecord record = emptyUnit();
  for (const AirflowStep step : {AirflowStep::coolingMax, AirflowStep::coolingMin})
    for (const auto quantity : {ReadingQuantity::measuredFlow, ReadingQuantity::reportedFlow})
      record.readings.push_back(inventedReading(static_cast<std::uint8_t>(record.readings.size() + 1), step, quantity, 300));
  EXPECT_EQ(nextReading(record, Procedure::airflow), std::nullopt);
  record.readings[2].withdrawn = true;
  EXPECT_EQ(nextReading(record, Procedure::airflow), of(AirflowStep::coolingMin, ReadingQuantity::measuredFlow));
}

TEST(EntryOrder, OffersOneLockoutPointMoreThanThereAre) {
  fleet::UnitRecord record = emptyUnit();
  EXPECT_EQ(stepsOf(record, Procedure::reheatLockout), std::vector<int>{1});
  fleet::Reading reading;
  reading.procedure = Procedure::reheatLockout;
  reading.step = 2;
  record.readings.push_back(reading);
  EXPECT_EQ(stepsOf(record, Procedure::reheatLockout), (std::vector{1, 2, 3}));
}

TEST(EntryOrder, AsksForHeaterPowerOfElectricHeatAndWaterOfAHotWaterCoil) {
  fleet::UnitRecord record = emptyUnit();
  const auto asks = [&](ReadingQuantity quantity) {
    const auto all = usualReadings(record, Procedure::dischargeRise);
    return std::any_of(all.begin(), all.end(), [&](const Expected& each) { return each.quantity == quantity; });
  };
  record.unit.heat = fleet::HeatKind::electricStaged;
  EXPECT_TRUE(asks(ReadingQuantity::heaterPower));
  EXPECT_FALSE(asks(ReadingQuantity::enteringWaterTemperature));
  record.unit.heat = fleet::HeatKind::hotWater;
  EXPECT_FALSE(asks(ReadingQuantity::heaterPower));
  EXPECT_TRUE(asks(ReadingQuantity::enteringWaterTemperature));
}

TEST(EntryOrder, OffersEveryQuantityOnce) {
  for (const Procedure procedure : fleet::valuesOf<Procedure>())
    EXPECT_EQ(quantitiesOf(procedure).size(), fleet::kReadingQuantities);
}

}  // namespace
}  // namespace ductwright::ui
