#pragma once

#include <vector>

#include "fleet/id.h"
#include "store/entry.h"

namespace ductwright::store {

// What a commit, an undo or a redo changed, so that a reader re-reads that alone.
struct Changed {
  std::vector<fleet::UnitId> units;     // added, removed, or with a record that differs; sorted
  std::vector<fleet::BatchId> batches;  // whose readings came, went, or were struck as a whole; sorted
  bool project = false;                 // name, system, elevation
  bool buildings = false, airHandlers = false, profiles = false, roomSensors = false, segments = false;
  bool instruments = false, deficiencies = false, criteria = false, mappings = false;
  bool unitList = false;  // a unit was added, removed or moved

  [[nodiscard]] bool nothing() const {
    return units.empty() && batches.empty() && !project && !buildings && !airHandlers && !profiles &&
           !roomSensors && !segments && !instruments && !deficiencies && !criteria && !mappings && !unitList;
  }
};

struct Committed {
  std::int64_t number =
      0;               // of the journal entry; equals Snapshot::revision after a refresh. 0: nothing changed
  std::string action;  // as shown, "Undo …" and "Redo …" without their prefix
  Changed changed;
};

}  // namespace ductwright::store
