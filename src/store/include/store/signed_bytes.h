#pragma once

#include <string>

#include "fleet/record.h"

namespace ductwright::store {

// What a sign-off signs: the canonical text of everything a unit's verdict rests on (the unit's row, its runs
// and readings, settings as found, its air handler, profile, segment and sensor, the instruments that were used,
// the criteria, the project's elevation and its deficiencies), one `record.column=value` a line, numbers in SI
// with all their digits. An encoder is never removed: `format` says which one made the text.
struct SignedBytes {
  int format = 1;
  std::string text;
  [[nodiscard]] std::string digest() const;  // BLAKE2b-256 of the text, hex
};

inline constexpr int kSignedFormat = 1;

// The canonical text of one unit as it stands. A unit that the snapshot does not hold gives an empty text.
SignedBytes signedBytes(const fleet::Snapshot&, fleet::UnitId, int format = kSignedFormat);

}  // namespace ductwright::store
