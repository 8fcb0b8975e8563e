#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

// SQLite's file layer with a disk that fails when it is told to: https://www.sqlite.org/vfs.html.
namespace ductwright::store::testing {

enum class Call : std::uint8_t { open, close, read, write, truncate, sync, size, remove, lock };

// What the disk does to each call, counted from 1 since `arm`.
struct Fault {
  enum class Kind : std::uint8_t {
    none,
    failOnce,     // the call numbered `at` fails
    failForGood,  // it and all later ones fail
    full,         // a file cannot grow beyond `at` bytes
    kill,         // the program is killed just before the call numbered `at`
    killTorn      // the same, and half of a write is done
  };
  Kind kind = Kind::none;
  std::uint64_t at = 0;
  bool onlyChanges = false;  // count only calls that change the disk: write, truncate, sync, remove
};

// One thing that the disk was asked to do, in order; for replaying what is left after the power went.
struct DiskStep {
  Call call = Call::write;
  std::string file;
  std::int64_t offset = 0;  // of a write; the new length of a truncate
  std::string bytes;
};

const char* faultVfs();  // registers the layer on first use and gives its name
void arm(const Fault&);
std::uint64_t callsSinceArmed();
bool tripped();  // whether the fault has happened
// Keeps each change of the disk until stopped; null stops.
void record(std::vector<DiskStep>* steps);

}  // namespace ductwright::store::testing
