#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "exchange/mapping.h"

namespace ductwright::exchange {

// A header taken apart: "Cooling Max (CFM)" is "Cooling Max" and "CFM".
struct HeaderParts {
  std::string_view base, unit;
};
HeaderParts headerParts(std::string_view header);

// Letters and digits only, in lower case: how headers are compared.
std::string headerKey(std::string_view header);

struct HeaderMatch {
  Match match = Match::none;
  std::size_t column = 0;  // of columnsOf(kind)
  std::string unit;        // as written in the header
};

// Which of our columns a header means.
HeaderMatch matchHeader(TableKind kind, std::string_view header);

}  // namespace ductwright::exchange
