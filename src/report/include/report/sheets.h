#pragma once

#include <vector>

#include "exchange/sheet.h"
#include "fleet/record.h"
#include "verdict/judge.h"
#include "verdict/review.h"

// The report's tables as sheets, in the project's units.
namespace ductwright::report {

exchange::Sheet resultSheet(const fleet::Snapshot& project, const verdict::FleetVerdict& verdicts);     // a row a unit
exchange::Sheet checkSheet(const fleet::Snapshot& project, const verdict::FleetVerdict& verdicts);      // a row a check
exchange::Sheet deficiencySheet(const fleet::Snapshot& project);
exchange::Sheet turnoverSheet(const fleet::Snapshot& project, const verdict::FleetVerdict& verdicts);   // as left
exchange::Sheet instrumentSheet(const fleet::Snapshot& project, fleet::Day today);
exchange::Sheet signatureSheet(const fleet::Snapshot& project);
exchange::Sheet reviewSheet(const std::vector<verdict::Finding>& findings);

}  // namespace ductwright::report
