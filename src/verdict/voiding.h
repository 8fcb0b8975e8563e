#pragma once

#include "judging.h"

namespace ductwright::verdict {

// True where a run has a reading from before the first reading of an airflow run that superseded another: the box
// was balanced again since. Times that are not known are told, and void nothing.
bool isVoid(const Judging&, Criterion);

}  // namespace ductwright::verdict
