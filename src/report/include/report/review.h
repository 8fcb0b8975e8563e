#pragma once

#include <string>
#include <vector>

#include "fleet/record.h"
#include "verdict/review.h"

// The desk review, for the command line and for other programs.
namespace ductwright::report {

// {"schema":1,"project","findings":[{"rule","unit","severity","party","finding","evidence"}],
//  "profiles":[{"unit","scheduled","scheduled_serves","lacking","serve"}],
//  "profile_quantities":[{"profile","scheduled","least_capable"}]}
std::string reviewJson(const fleet::Snapshot& project);
// The findings in words, then the controller profiles that would serve, with quantities.
std::string reviewText(const fleet::Snapshot& project);
// One row a finding, RFC 4180.
std::string reviewCsv(const fleet::Snapshot& project);

}  // namespace ductwright::report
