#include "text.h"

#include <algorithm>

namespace ductwright::exchange {
namespace {

constexpr std::size_t kShown = 60;

bool isBlank(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; }

}  // namespace

std::string_view trimmed(std::string_view text) {
  for (;;) {
    if (!text.empty() && isBlank(text.front())) {
      text.remove_prefix(1);
    } else if (text.starts_with("\xC2\xA0")) {
      text.remove_prefix(2);
    } else {
      break;
    }
  }
  for (;;) {
    if (!text.empty() && isBlank(text.back())) {
      text.remove_suffix(1);
    } else if (text.ends_with("\xC2\xA0")) {
      text.remove_suffix(2);
    } else {
      break;
    }
  }
  return text;
}

std::string cited(std::string_view text) {
  std::string out = "“";
  std::size_t end = std::min(text.size(), kShown);
  while (end < text.size() && end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;
  for (const char c : text.substr(0, end)) out += static_cast<unsigned char>(c) < 0x20 || c == 0x7F ? ' ' : c;
  if (end < text.size()) out += "…";
  return out += "”";
}

std::string columnLetters(std::size_t column) {
  std::string out;
  for (std::size_t n = column + 1; n > 0; n = (n - 1) / 26) out.insert(out.begin(), static_cast<char>('A' + (n - 1) % 26));
  return out;
}

std::string counted(std::size_t n, std::string_view thing) {
  std::string out = std::to_string(n) + " " + std::string(thing);
  if (n != 1) out += 's';
  return out;
}

void appendUtf8(std::string& out, char32_t c) {
  const auto put = [&](char32_t byte) { out += static_cast<char>(static_cast<unsigned char>(byte)); };
  if (c < 0x80) {
    put(c);
  } else if (c < 0x800) {
    put(0xC0 | c >> 6);
    put(0x80 | (c & 0x3F));
  } else if (c < 0x10000) {
    put(0xE0 | c >> 12);
    put(0x80 | (c >> 6 & 0x3F));
    put(0x80 | (c & 0x3F));
  } else {
    put(0xF0 | c >> 18);
    put(0x80 | (c >> 12 & 0x3F));
    put(0x80 | (c >> 6 & 0x3F));
    put(0x80 | (c & 0x3F));
  }
}

}  // namespace ductwright::exchange
