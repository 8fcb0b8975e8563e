#pragma once

#include <cstdint>
#include <functional>
#include <span>
#include <string>

#include "fleet/id.h"
#include "fleet/timestamp.h"

namespace ductwright::store {

// What the project file takes from outside, so that a test can fix it.
struct Environment {
  std::function<fleet::Timestamp()> now;
  std::function<void(std::span<std::uint8_t>)> random;  // fills with random bytes
  std::string device;                                   // this installation; undo is per device
  std::string vfs;            // SQLite's file layer by name; empty: the platform's own
  int patienceMillis = 3000;  // how long a busy file is waited for

  // The wall clock and the operating system's random source.
  static Environment ofSystem(std::string device);

  [[nodiscard]] fleet::Uuid newUuid() const;  // version 7
  template <class Record>
  [[nodiscard]] fleet::Id<Record> newId() const {
    return {newUuid()};
  }
};

}  // namespace ductwright::store
