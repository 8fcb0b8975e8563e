#include "digest.h"

#include <zstd.h>

#include <bit>
#include <cstring>

#include "store/signed_bytes.h"

namespace ductwright::store {
namespace {

// A packed blob may not claim more: no changeset of ours comes near.
constexpr std::size_t kLargest = 1'000'000'000;

std::array<std::uint16_t, RowSum::kLanes> lanesOf(const Digest& row) {
  static_assert(crypto_stream_chacha20_KEYBYTES == std::tuple_size_v<Digest>);
  constexpr std::array<std::uint8_t, crypto_stream_chacha20_NONCEBYTES> nonce{};
  std::array<std::uint8_t, RowSum::kLanes * 2> bytes;
  crypto_stream_chacha20(bytes.data(), bytes.size(), nonce.data(), row.data());
  std::array<std::uint16_t, RowSum::kLanes> lanes;
  for (std::size_t i = 0; i < lanes.size(); ++i)
    lanes[i] = static_cast<std::uint16_t>(bytes[2 * i] | bytes[2 * i + 1] << 8);
  return lanes;
}

}  // namespace

std::string hex(const Digest& digest) {
  static constexpr char kHex[] = "0123456789abcdef";
  std::string out;
  for (const std::uint8_t byte : digest) {
    out += kHex[byte >> 4];
    out += kHex[byte & 15];
  }
  return out;
}

std::string SignedBytes::digest() const {
  return hex(digestOf({reinterpret_cast<const std::uint8_t*>(text.data()), text.size()}));
}

void Encoder::real(double value) {
  number(std::bit_cast<std::uint64_t>(value));
}

Digest digestOf(Bytes bytes) {
  Digest out;
  crypto_generichash(out.data(), out.size(), bytes.data(), bytes.size(), nullptr, 0);
  return out;
}

ShortDigest shortDigestOf(Bytes bytes) {
  ShortDigest out;
  crypto_generichash(out.data(), out.size(), bytes.data(), bytes.size(), nullptr, 0);
  return out;
}

Hasher::Hasher() {
  crypto_generichash_init(&m_state, nullptr, 0, std::tuple_size_v<Digest>);
}
void Hasher::add(Bytes bytes) {
  crypto_generichash_update(&m_state, bytes.data(), bytes.size());
}
Digest Hasher::finish() {
  Digest out;
  crypto_generichash_final(&m_state, out.data(), out.size());
  return out;
}

void RowSum::add(const Digest& row) {
  const auto lanes = lanesOf(row);
  for (std::size_t i = 0; i < kLanes; ++i) m_lanes[i] = static_cast<std::uint16_t>(m_lanes[i] + lanes[i]);
}

void RowSum::subtract(const Digest& row) {
  const auto lanes = lanesOf(row);
  for (std::size_t i = 0; i < kLanes; ++i) m_lanes[i] = static_cast<std::uint16_t>(m_lanes[i] - lanes[i]);
}

std::vector<std::uint8_t> RowSum::bytes() const {
  std::vector<std::uint8_t> out;
  out.reserve(kLanes * 2);
  for (const std::uint16_t lane : m_lanes) {
    out.push_back(static_cast<std::uint8_t>(lane));
    out.push_back(static_cast<std::uint8_t>(lane >> 8));
  }
  return out;
}

Digest RowSum::digest() const {
  return digestOf(bytes());
}

RowSum RowSum::fromBytes(Bytes bytes) {
  if (bytes.size() != kLanes * 2) throw SqlError(SQLITE_CORRUPT, "the sum of the content is missing");
  RowSum sum;
  for (std::size_t i = 0; i < kLanes; ++i)
    sum.m_lanes[i] = static_cast<std::uint16_t>(bytes[2 * i] | bytes[2 * i + 1] << 8);
  return sum;
}

std::vector<std::uint8_t> packed(Bytes bytes) {
  std::vector<std::uint8_t> out(ZSTD_compressBound(bytes.size()));
  const std::size_t size = ZSTD_compress(out.data(), out.size(), bytes.data(), bytes.size(), 3);
  if (ZSTD_isError(size) != 0) throw SqlError(SQLITE_NOMEM, ZSTD_getErrorName(size));
  out.resize(size);
  return out;
}

std::vector<std::uint8_t> unpacked(Bytes bytes, std::size_t size) {
  if (size > kLargest || ZSTD_getFrameContentSize(bytes.data(), bytes.size()) != size)
    throw SqlError(SQLITE_CORRUPT, "a packed record has the wrong length");
  std::vector<std::uint8_t> out(size);
  const std::size_t got = ZSTD_decompress(out.data(), out.size(), bytes.data(), bytes.size());
  if (ZSTD_isError(got) != 0 || got != size)
    throw SqlError(SQLITE_CORRUPT, "a packed record cannot be unpacked");
  return out;
}

}  // namespace ductwright::store
