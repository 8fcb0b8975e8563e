#pragma once

#include <cstdint>
#include <string>

namespace ductwright::store {

// Something that `verify` found wrong.
struct Finding {
  enum class Place : std::uint8_t { file, schema, reading, batch, entry, state, signOff };
  Place place = Place::file;
  std::string where;     // "entry 12", "reading 3 of batch …", "2-14"
  std::string sentence;  // what is wrong, for a person
};

}  // namespace ductwright::store
