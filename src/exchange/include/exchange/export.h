#pragma once

#include <filesystem>

#include "exchange/columns.h"
#include "exchange/sheet.h"
#include "fleet/record.h"

namespace ductwright::exchange {

// A table of the project in its own exchange format: reading it gives the same records again. Readings that were
// withdrawn are left out.
SheetStream tableOf(TableKind, const fleet::Snapshot& project);
Sheet sheetOf(TableKind, const fleet::Snapshot& project);
// Writes CSV or XLSX, as the file's ending says.
Result<void> exportTable(TableKind, const fleet::Snapshot& project, const std::filesystem::path& file);

}  // namespace ductwright::exchange
