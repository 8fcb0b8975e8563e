#pragma once

#include <array>

#include "judging.h"
#include "metrology/conformity.h"

namespace ductwright::verdict {

inline constexpr std::size_t kJudgedSteps = 8;  // all airflow steps but `shut`

// What the schedule asks of a step and what was read there, all flows on the design's basis.
struct AirflowStepData {
  std::optional<double> design;       // above zero
  std::optional<Estimate> measured;   // of this step's own readings
  std::optional<double> reported;
  bool measuredEarly = false;         // only early readings could have given the measured flow
  bool reportedEarly = false;
  int from = 0;                       // the step whose measured flow counts here: another of equal design flow
};
using AirflowData = std::array<AirflowStepData, kJudgedSteps>;

// The scheduled flow of an airflow step, where it is above zero.
std::optional<double> scheduledFlow(const Unit&, fleet::AirflowStep);

AirflowData airflowData(const Judging&);

// The inlet's flow by the outlets. A parallel fan blows through the same outlets: its flow is taken off where it was
// read, and where it was only seen on the outlets do not tell the inlet's.
std::optional<Estimate> inletByOutlets(const Judging&, const StepReadings&);

// The acceptance interval of a measured flow. A side that allows no share allows nothing (−0/+10 %).
metrology::Interval flowInterval(double design, const Criteria&);

// Explanations beside the checks: starved, below control, coefficient, zero, units, size, density, too perfect.
void explainAirflow(const Judging&, const AirflowData&);

// Notes on how the readings of a step were taken: without an instrument, overdue, wait or time unknown.
void noteReadings(const Judging&, Criterion, const StepReadings&);

}  // namespace ductwright::verdict
