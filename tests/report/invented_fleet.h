#pragma once

#include <cstddef>

#include "fleet/record.h"

namespace ductwright::report {

// An invented building of `units` terminal units on invented floors, with readings of three procedures, some
// planted faults, instruments, deficiencies and sign-offs. The same number gives the same building.
// Unit 0 passes; unit 3 is short of air; unit 5 heats without enough air; unit 7 was not measured.
fleet::Snapshot inventedFleet(std::size_t units, quantity::System system = quantity::System::ip);

}  // namespace ductwright::report
