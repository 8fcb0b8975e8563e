#pragma once

#include <optional>
#include <vector>

#include "fleet/record.h"

// In which order readings are usually taken, so that the keyboard need not leave the number.
namespace ductwright::ui {

struct Expected {
  int step = 0;
  fleet::ReadingQuantity quantity = fleet::ReadingQuantity::measuredFlow;
  friend bool operator==(const Expected&, const Expected&) = default;
};

// The steps of a procedure, those with a flow in the schedule first; for the lockout the points so far and one more.
std::vector<int> stepsOf(const fleet::UnitRecord& record, fleet::Procedure procedure);
// Every quantity, the usual ones of the procedure first.
std::vector<fleet::ReadingQuantity> quantitiesOf(fleet::Procedure procedure);

// What is usually read, step by step.
std::vector<Expected> usualReadings(const fleet::UnitRecord& record, fleet::Procedure procedure);
// The next of them, from `after` on, that the current run does not have; nothing when all are there.
std::optional<Expected> nextReading(const fleet::UnitRecord& record, fleet::Procedure procedure,
                                    std::optional<Expected> after = std::nullopt);

// The scheduled flow of an airflow step.
std::optional<quantity::Airflow> scheduledFlow(const fleet::Unit& unit, fleet::AirflowStep step);

}  // namespace ductwright::ui
