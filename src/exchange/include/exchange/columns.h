#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

#include "quantity/unit.h"

namespace ductwright::exchange {

// The tables that a project exchanges.
enum class TableKind : std::uint8_t {
  schedule, airHandlers, profiles, roomSensors, segments, settings, instruments, readings
};

// The command line's word: "schedule", "air-handlers", "profiles", "sensors", "segments", "settings",
// "instruments", "readings".
std::string_view name(TableKind);
std::optional<TableKind> readTableKind(std::string_view word);

// A column of one of our tables.
struct Column {
  std::string_view name;                         // the header that we write
  std::string_view synonyms;                     // other headers, folded, separated by blanks
  bool required = false;
  std::optional<quantity::Dimension> dimension;  // where it holds a number, with what units
  std::string_view words;                        // where only some words are allowed: which, for a person
};

std::span<const Column> columnsOf(TableKind);

}  // namespace ductwright::exchange
