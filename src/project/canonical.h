#pragma once

#include <string>

#include "verdict/judge.h"

namespace ductwright::project {

// The format of the bytes below; encoders of old formats are kept for ever.
inline constexpr int kCanonicalFormat = 1;

// What a signature covers, as text that can be read years later without this program: the unit's schedule,
// its current and superseded readings, the instruments and criteria that judged them, and the verdict.
// One "key value" line a fact, in a fixed order; numbers are SI with the fewest digits that read back exactly.
std::string canonicalText(const fleet::UnitRecord&, const verdict::UnitVerdict&, const fleet::Snapshot&);

}  // namespace ductwright::project
