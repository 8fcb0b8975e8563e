#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "exchange/mapping.h"
#include "exchange/problem.h"
#include "exchange/table.h"
#include "fleet/record.h"

namespace ductwright::exchange {

struct TextHash {
  using is_transparent = void;
  std::size_t operator()(std::string_view text) const { return std::hash<std::string_view>{}(text); }
};
using UnitsByTag = std::unordered_map<std::string, fleet::UnitId, TextHash, std::equal_to<>>;
using Serials = std::unordered_set<std::string, TextHash, std::equal_to<>>;

// What readings refer to in the present project.
struct ReadingContext {
  UnitsByTag units;
  Serials instruments;

  static ReadingContext of(const fleet::Snapshot& project);
};

struct PlacedReading {
  fleet::UnitId unit;
  std::uint32_t row = 0;   // as a spreadsheet numbers it
  fleet::Reading reading;  // key: null batch, ordinal in the order of the file
};

struct ReadingImport {
  std::vector<PlacedReading> readings;  // the good rows, in the order of the file
  std::size_t rowsWithErrors = 0;
  std::size_t known = 0;                // left out by `leaveOutKnown`
  Problems problems;
};

// Reads a table of readings. Fails only when stopped.
Result<ReadingImport> readReadings(const Table&, const Layout&, const ReadingContext&, const Job& = {});

// Leaves out readings that the project already has, equal in everything that was recorded (so that importing a file
// twice adds nothing), and returns how many. A reading that the file has more often than the project stays for the rest.
std::size_t leaveOutKnown(ReadingImport&, const fleet::Snapshot& project);

}  // namespace ductwright::exchange
