#pragma once

#include <functional>

#include "edit.h"
#include "project/project.h"

namespace ductwright::project {

// Who does what, and why, in one action.
struct Doing {
  Author author;
  fleet::Timestamp at;
  std::string reason;
  std::function<fleet::Uuid()> newUuid;
};

// What follows from an edit, in the same action: the units are judged, failing checks raise their deficiencies,
// what a new run cured is proven, sign-offs whose digest changed are broken. A failure where a sign-off would
// break and no reason was given.
Result<verdict::FleetVerdict> settle(Edit&, const State& before, const Doing&);

}  // namespace ductwright::project
