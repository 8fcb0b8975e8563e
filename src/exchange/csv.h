#pragma once

#include <memory>
#include <optional>
#include <string>

#include "exchange/table.h"
#include "quantity/result.h"
#include "table_content.h"

namespace ductwright::exchange {

// Reads UTF-8 text as CSV (RFC 4180; line ends of any kind) into `content`, which already holds it as `text`.
// Without a delimiter, the one that splits the rows most evenly is taken.
Result<void> scanCsv(Table::Content& content, std::optional<char> delimiter, const Job& job);

}  // namespace ductwright::exchange
