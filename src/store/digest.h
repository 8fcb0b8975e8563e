#pragma once

#include <sodium.h>

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "sql.h"
#include "store/entry.h"

namespace ductwright::store {

using ShortDigest = std::array<std::uint8_t, 16>;  // BLAKE2b, 128 bit: of one reading

// Bytes in one fixed form: little-endian numbers, texts and blobs after their length.
class Encoder {
 public:
  void clear() { m_bytes.clear(); }
  void byte(std::uint8_t value) { m_bytes.push_back(static_cast<char>(value)); }
  void number(std::uint64_t value) {
    std::array<std::uint8_t, 8> bytes{};
    for (std::size_t i = 0; i < 8; ++i) bytes[i] = static_cast<std::uint8_t>(value >> (8 * i));
    raw(bytes);
  }
  void number(std::int64_t value) { number(static_cast<std::uint64_t>(value)); }
  void number(int value) { number(std::int64_t{value}); }
  void real(double value);
  void raw(Bytes bytes) { m_bytes.append(reinterpret_cast<const char*>(bytes.data()), bytes.size()); }
  void text(std::string_view text) {
    number(static_cast<std::uint64_t>(text.size()));
    m_bytes += text;
  }
  void blob(Bytes bytes) {
    number(static_cast<std::uint64_t>(bytes.size()));
    raw(bytes);
  }
  [[nodiscard]] Bytes bytes() const {
    return {reinterpret_cast<const std::uint8_t*>(m_bytes.data()), m_bytes.size()};
  }

 private:
  std::string m_bytes;
};

Digest digestOf(Bytes);
ShortDigest shortDigestOf(Bytes);
// BLAKE2b-256 of bytes that come in parts.
class Hasher {
 public:
  Hasher();
  void add(Bytes);
  Digest finish();

 private:
  crypto_generichash_state m_state;
};

// The sum of a set of rows, whatever their order: LtHash with 1024 lanes of 16 bits, each row's lanes spread
// from its digest by ChaCha20. A row is added and taken away at the cost of that row alone. After M. Bellare
// and D. Micciancio, "A new paradigm for collision-free hashing: incrementality at reduced cost", 1997.
class RowSum {
 public:
  static constexpr std::size_t kLanes = 1024;

  void add(const Digest& row);
  void subtract(const Digest& row);
  [[nodiscard]] Digest digest() const;
  [[nodiscard]] std::vector<std::uint8_t> bytes() const;
  static RowSum fromBytes(Bytes);  // throws where the length is wrong
  friend bool operator==(const RowSum&, const RowSum&) = default;

 private:
  std::array<std::uint16_t, kLanes> m_lanes{};
};

// zstd, for blobs. `size` is the length before; a packed blob that does not give exactly that is damaged.
std::vector<std::uint8_t> packed(Bytes);
std::vector<std::uint8_t> unpacked(Bytes packed, std::size_t size);

}  // namespace ductwright::store
