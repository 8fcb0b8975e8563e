#pragma once

#include <filesystem>

#include "quantity/result.h"
#include "sample/sample_building.h"

namespace ductwright::sample {

// Writes the building's tables into a folder that exists: schedule (CSV and XLSX), air handlers, profiles, sensors,
// segments, instruments, settings, readings, and what is planted.
Result<void> writeFiles(const SampleBuilding& building, const std::filesystem::path& folder);

}  // namespace ductwright::sample
