#pragma once

#include <cstddef>
#include <cstdint>

namespace ductwright::sample {

// Numbers drawn from a seed, the same on every machine (SplitMix64; the standard library's distributions
// differ).
class Random {
 public:
  explicit Random(std::uint64_t seed) : m_state(seed) {}
  // An independent series for one unit or instrument, so that one more unit changes no other.
  [[nodiscard]] Random stream(std::uint64_t number) const;

  std::uint64_t bits();
  double uniform(double low, double high);
  double normal();  // mean 0, standard deviation 1
  std::size_t below(std::size_t count);

 private:
  std::uint64_t m_state;
};

}  // namespace ductwright::sample
