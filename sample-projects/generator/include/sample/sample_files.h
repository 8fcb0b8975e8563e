#pragma once

#include <filesystem>

#include "quantity/result.h"
#include "sample/sample_building.h"

namespace ductwright::sample {

// Writes the building's tables into a folder that exists: schedule (CSV and XLSX), air handlers, profiles,
// sensors, segments, instruments, settings, readings, what is planted; and in words of their own the NAME and
// ELEVATION.
Result<void> writeFiles(const SampleBuilding& building, const std::filesystem::path& folder);

}  // namespace ductwright::sample
