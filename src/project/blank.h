#pragma once

#include <string_view>

namespace ductwright::project {

// Nothing but white space: not a reason, a name or a note.
inline bool blank(std::string_view text) { return text.find_first_not_of(" \t\r\n") == std::string_view::npos; }

}  // namespace ductwright::project
