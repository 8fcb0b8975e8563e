#pragma once

#include <string>
#include <string_view>

#include "fleet/record.h"
#include "verdict/judge.h"

// The scores, for the command line and for other programs. Only the unit with the tag, where one is given; the
// fleet's counts are always the whole fleet's.
namespace ductwright::report {

// One JSON object, SI, full precision; a number that does not exist is null.
std::string scoreJson(const fleet::Snapshot& project, const verdict::FleetVerdict& verdicts, std::string_view tag = {});

// A table of the fleet; with a tag, every check of the unit in words.
std::string scoreText(const fleet::Snapshot& project, const verdict::FleetVerdict& verdicts, std::string_view tag = {});

// One row a unit, RFC 4180.
std::string scoreCsv(const fleet::Snapshot& project, const verdict::FleetVerdict& verdicts, std::string_view tag = {});

}  // namespace ductwright::report
