#pragma once

#include <QStringList>

#include "fleet/building.h"

namespace ductwright::ui {

// Short cautions for a procedure at this unit: heat, electricity, water, height. They defer to local codes and to
// licensed practice; they are no instruction how to work on live parts.
QStringList cautionsFor(const fleet::Unit& unit, fleet::Procedure procedure);

}  // namespace ductwright::ui
