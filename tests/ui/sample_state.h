#pragma once

#include "project/project.h"

// A small invented fleet, built by hand, for tests of models.
namespace ductwright::ui {

fleet::Uuid invented(std::uint8_t n);
fleet::Unit inventedUnit(std::uint8_t n, const std::string& tag, const std::string& floor);
fleet::Reading inventedReading(std::uint8_t n, fleet::AirflowStep step, fleet::ReadingQuantity quantity, double cfm);

// Units "1-1", "1-2", "2-1" on two floors and two air handlers; 1-1 has its airflow measured and passes.
fleet::Snapshot inventedFleet();
// Judged.
project::State stateOf(fleet::Snapshot snapshot);

}  // namespace ductwright::ui
