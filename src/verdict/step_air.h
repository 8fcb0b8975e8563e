#pragma once

#include "judging.h"

namespace ductwright::verdict {

// Where a flow was taken: it is converted between actual and standard with the air's temperature there.
enum class Place : std::uint8_t { inlet, discharge };

// The temperature of a step's air at a place: as read in the step (entering, primary, supply; the discharge's
// own first), else the schedule's entering air, the air handler's supply, 55 °F.
quantity::Temperature airTemperature(const Judging&, const StepReadings&, Place);

// The factor that brings a reading's flow to a basis: 1 where it has that basis already.
double toBasis(const Judging&, const StepReadings&, const Counted&, Place, fleet::FlowBasis);

// The mean of a flow quantity of a step on a basis; nothing where it has no reading that counts.
std::optional<Estimate> flowOf(const Judging&, const StepReadings&, ReadingQuantity, Place, fleet::FlowBasis);

// The outlets of a step: each outlet's mean, added. Nothing where no outlet was read, or where one of them was read
// too early only, so that the sum would lack it.
std::optional<Estimate> outletSum(const Judging&, const StepReadings&, fleet::FlowBasis);
// True where only early readings keep a step from having its outlets' sum.
bool outletsEarly(const StepReadings&);

}  // namespace ductwright::verdict
