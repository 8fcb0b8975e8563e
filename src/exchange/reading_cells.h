#pragma once

#include <array>
#include <optional>
#include <string_view>
#include <unordered_map>

#include "cell.h"
#include "fleet/vocabulary.h"
#include "fleet/word.h"

// What makes reading many cells fast: words that recur are understood once.
namespace ductwright::exchange {

// Remembers what each text meant. The texts must outlive it (they are the table's).
template <class T>
class Remembered {
 public:
  template <class Find>
  const T& of(std::string_view text, Find find) {
    if (m_last && m_last->first == text) return m_last->second;
    auto [at, isNew] = m_known.try_emplace(text);
    if (isNew) at->second = find(text);
    m_last = &*at;
    return at->second;
  }

 private:
  std::unordered_map<std::string_view, T> m_known;
  const typename std::unordered_map<std::string_view, T>::value_type* m_last = nullptr;  // nodes never move
};

// Plain digits with a decimal point, the form of nearly all cells, and what follows the number; nothing for every other
// form, which `readMeasured` then understands or refuses.
struct PlainNumber {
  double value;
  std::string_view rest;
};
std::optional<PlainNumber> plainNumber(std::string_view text);

// The values of readings, in the unit of the cell, of the header, or of the project.
class ValueReader {
 public:
  ValueReader(quantity::System system, std::string_view headerUnit) : m_system(system), m_headerUnit(headerUnit) {}

  Read<Measured> read(CellInput cell, fleet::ReadingQuantity quantity);

 private:
  struct Family {
    const quantity::Unit* bare = nullptr;  // of a number without a unit; null where the header's does not fit
    bool known = false;
    Remembered<const quantity::Unit*> units;
  };
  Family& familyOf(quantity::Dimension dimension);

  quantity::System m_system;
  std::string_view m_headerUnit;
  std::array<Family, 16> m_families;
};

}  // namespace ductwright::exchange
