#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

#include "quantity/unit.h"

// The first byte says which dimension the rest is read as. What was read must be finite and, written in full, read back.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace ductwright::quantity;
  if (size == 0) return 0;
  std::string text(size - 1, '\0');
  for (std::size_t i = 1; i < size; ++i) text[i - 1] = static_cast<char>(data[i]);
  const auto dimension = static_cast<Dimension>((data[0] & 0x7F) % 16);
  const System system = data[0] & 0x80 ? System::si : System::ip;
  for (const bool decimalComma : {false, true}) {
    const auto typed = readQuantity(text, dimension, unitFor(dimension, system), decimalComma);
    if (!typed) {
      if (typed.error().sentence.empty()) std::abort();
      continue;
    }
    if (!std::isfinite(typed->si) || typed->unit == nullptr || typed->unit->dimension != dimension) std::abort();
    if (dimension == Dimension::flag) continue;
    const auto again = readQuantity(writeExact(typed->si, *typed->unit), dimension, *typed->unit);
    if (!again || std::abs(again->si - typed->si) > 1e-12 * std::abs(typed->si) + 1e-300) std::abort();
  }
  return 0;
}
