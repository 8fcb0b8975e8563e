#include "fleet/id.h"

namespace ductwright::fleet {

std::string Uuid::text() const {
  static constexpr char kHex[] = "0123456789abcdef";
  std::string out;
  out.reserve(36);
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    if (i == 4 || i == 6 || i == 8 || i == 10) out += '-';
    out += kHex[bytes[i] >> 4];
    out += kHex[bytes[i] & 15];
  }
  return out;
}

std::optional<Uuid> Uuid::fromText(std::string_view text) {
  if (text.size() != 36) return std::nullopt;
  Uuid out;
  std::size_t nibble = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (i == 8 || i == 13 || i == 18 || i == 23) {
      if (c != '-') return std::nullopt;
      continue;
    }
    int digit = 0;
    if (c >= '0' && c <= '9') digit = c - '0';
    else if (c >= 'a' && c <= 'f') digit = c - 'a' + 10;
    else if (c >= 'A' && c <= 'F') digit = c - 'A' + 10;
    else return std::nullopt;
    auto& byte = out.bytes[nibble / 2];
    byte = static_cast<std::uint8_t>(nibble % 2 == 0 ? digit << 4 : byte | digit);
    ++nibble;
  }
  return out;
}

Uuid Uuid::version7(std::int64_t utcMillis, const std::array<std::uint8_t, 10>& random) {
  Uuid out;
  for (std::size_t i = 0; i < 6; ++i) out.bytes[i] = static_cast<std::uint8_t>(utcMillis >> (8 * (5 - i)));
  for (std::size_t i = 0; i < random.size(); ++i) out.bytes[6 + i] = random[i];
  out.bytes[6] = static_cast<std::uint8_t>(0x70 | (out.bytes[6] & 0x0F));
  out.bytes[8] = static_cast<std::uint8_t>(0x80 | (out.bytes[8] & 0x3F));
  return out;
}

}  // namespace ductwright::fleet
