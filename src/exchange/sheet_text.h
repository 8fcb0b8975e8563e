#pragma once

#include <string>

#include "exchange/sheet.h"

namespace ductwright::exchange {

// "cooling max flow [cfm]".
std::string headerText(const SheetColumn& column);

// The rows of a sheet one after the other; the sheet must outlive it.
SheetStream streamOf(const Sheet& sheet);

}  // namespace ductwright::exchange
