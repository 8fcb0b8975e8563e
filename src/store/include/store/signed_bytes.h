#pragma once

#include <string>

namespace ductwright::store {

// What a sign-off signs: a canonical text, and the number of the encoder that made it. Kept in the file,
// compressed, so that what was signed can be read for ever.
struct SignedBytes {
  int format = 1;
  std::string text;
  [[nodiscard]] std::string digest() const;  // BLAKE2b-256 of the text, hex
};

}  // namespace ductwright::store
