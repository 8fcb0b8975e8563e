#pragma once

#include <optional>
#include <string>
#include <vector>

#include "air/flow_element.h"
#include "fleet/record.h"

// What a box's flow coefficient should become, from the airflow run's measured and reported flows.
namespace ductwright::verdict {

// The error of the reported flow at a step, as a share of the measured one.
struct StepError {
  fleet::AirflowStep step;
  double now = 0, after = 0;
};

struct PlannedCorrection {
  air::Correction correction;
  double change = 0, u = 0;  // of the coefficient, as shares; u is standard
  air::CorrectionDoubt doubt;
  std::vector<StepError> errors;  // at every step with a measured and a reported flow
};

// Of one inlet. One point: at the step with the greatest measured flow. Two points: that one and the one with
// the least; nothing where only one step was measured, or where the two contradict a flow element.
struct CoefficientAdvice {
  bool hotInlet = false;
  fleet::FlowCoefficient today;
  fleet::AirflowStep high, low;
  std::optional<PlannedCorrection> onePoint, twoPoint;
};

// One for each inlet that can be advised on: its coefficient is known (as found last, else as scheduled) and
// a step of the current airflow run has both flows. Flows are taken as actual; a damper that moves by more
// than 2 % of its stroke within a step (common practice, no source) makes its correction doubtful.
std::vector<CoefficientAdvice> coefficientAdvice(const fleet::UnitRecord& record,
                                                 const fleet::Snapshot& project);

// "By one point at cooling max: 904 → 858 cfm/√in. w.g. (−5.1 % ± 3.0 %); error left: cooling min +12.3 %."
// and what makes it doubtful; the same for two points. In the project's units.
std::string sentence(const CoefficientAdvice& advice, quantity::System system);

}  // namespace ductwright::verdict
