#pragma once

#include <string_view>

#include "exchange/table.h"
#include "quantity/result.h"
#include "table_content.h"

namespace ductwright::exchange {

// Reads one sheet of an XLSX workbook (ECMA-376, transitional and strict) from its bytes.
Result<void> readXlsx(std::string_view bytes, std::string_view sheet, Table::Content& content, const Job& job);

}  // namespace ductwright::exchange
