#include "sample_state.h"

#include "verdict/judge.h"

namespace ductwright::ui {

using fleet::AirflowStep;
using fleet::ReadingQuantity;

fleet::Uuid invented(std::uint8_t n) {
  fleet::Uuid id;
  id.bytes[15] = n;
  return id;
}

fleet::Unit inventedUnit(std::uint8_t n, const std::string& tag, const std::string& floor) {
  fleet::Unit unit;
  unit.id = {invented(n)};
  unit.tag = tag;
  unit.floor = floor;
  unit.airHandler = floor == "1" ? "AHU-1" : "AHU-2";
  unit.zone = "Room " + tag;
  unit.kind = fleet::UnitKind::coolingOnly;
  unit.inletDiameter = quantity::inches(8);
  unit.coolingMax = quantity::cfm(450);
  unit.coolingMin = quantity::cfm(120);
  return unit;
}

fleet::Reading inventedReading(std::uint8_t n, AirflowStep step, ReadingQuantity quantity, double cfm) {
  fleet::Reading reading;
  reading.key = {{invented(200)}, n};
  reading.procedure = fleet::Procedure::airflow;
  reading.step = code(step);
  reading.quantity = quantity;
  reading.value = quantity::cfm(cfm).si();
  reading.typed = fleet::Word(std::to_string(static_cast<int>(cfm)) + " cfm");
  return reading;
}

fleet::Snapshot inventedFleet() {
  fleet::Snapshot project;
  project.projectName = "Invented House";
  const auto add = [&](fleet::Unit unit, std::vector<fleet::Reading> readings) {
    auto record = std::make_shared<fleet::UnitRecord>();
    record->unit = std::move(unit);
    record->readings = std::move(readings);
    if (!record->readings.empty()) record->runs.push_back({{invented(100)}, fleet::Procedure::airflow, 1, {}, "Ada Invented", ""});
    project.units.push_back(record);
  };
  add(inventedUnit(1, "1-1", "1"), {inventedReading(1, AirflowStep::coolingMax, ReadingQuantity::measuredFlow, 451),
                                   inventedReading(2, AirflowStep::coolingMin, ReadingQuantity::measuredFlow, 121)});
  add(inventedUnit(2, "1-2", "1"), {});
  add(inventedUnit(3, "2-1", "2"), {});
  return project;
}

project::State stateOf(fleet::Snapshot snapshot) {
  project::State state;
  state.verdicts = std::make_shared<const verdict::FleetVerdict>(verdict::judgeFleet(snapshot, 1));
  state.snapshot = std::make_shared<const fleet::Snapshot>(std::move(snapshot));
  return state;
}

}  // namespace ductwright::ui
