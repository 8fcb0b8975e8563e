#include "random.h"

#include <cmath>
#include <numbers>

namespace ductwright::sample {

Random Random::stream(std::uint64_t number) const {
  Random mixed(m_state ^ (number + 1) * 0xD1B54A32D192ED03ULL);
  return Random(mixed.bits());
}

std::uint64_t Random::bits() {
  m_state += 0x9E3779B97F4A7C15ULL;
  std::uint64_t z = m_state;
  z = (z ^ z >> 30) * 0xBF58476D1CE4E5B9ULL;
  z = (z ^ z >> 27) * 0x94D049BB133111EBULL;
  return z ^ z >> 31;
}

double Random::uniform(double low, double high) {
  return low + (high - low) * static_cast<double>(bits() >> 11) * 0x1.0p-53;
}

// Box and Muller's transform.
double Random::normal() {
  const double radius = std::sqrt(-2 * std::log(uniform(0x1.0p-53, 1)));
  return radius * std::cos(2 * std::numbers::pi * uniform(0, 1));
}

std::size_t Random::below(std::size_t count) {
  return static_cast<std::size_t>(bits() % count);
}

}  // namespace ductwright::sample
