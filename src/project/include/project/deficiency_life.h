#pragma once

#include <string>
#include <vector>

#include "fleet/record.h"

namespace ductwright::project {

// The states to which a person of this role may move a deficiency by hand. `proven` is never among them:
// only a new run that passes proves.
std::vector<fleet::DeficiencyState> movesFor(fleet::DeficiencyState from, fleet::Role role);

// What a move must say: a sentence when `note` is missing where the move needs one, else empty.
std::string lackingNote(fleet::DeficiencyState to, const std::string& note);

}  // namespace ductwright::project
