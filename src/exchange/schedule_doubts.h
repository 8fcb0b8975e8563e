#pragma once

#include "exchange/import.h"

namespace ductwright::exchange {

// Warnings about a whole schedule that looks as if columns were exchanged or a unit was mistaken.
void doubtSchedule(Import<fleet::Unit>& import, const Layout& layout);

}  // namespace ductwright::exchange
