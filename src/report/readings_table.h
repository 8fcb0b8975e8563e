#pragma once

#include "report/content.h"
#include "fleet/record.h"
#include "quantity/unit.h"

namespace ductwright::report {

// The readings of the runs that count, a row a step. A struck reading is marked, superseded runs are named.
Table readingsTable(const fleet::UnitRecord& record, quantity::System system);

}  // namespace ductwright::report
