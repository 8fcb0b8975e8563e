#include "json.h"

#include <array>
#include <charconv>
#include <cmath>

namespace ductwright::report {

void Json::separate() {
  if (m_comma) m_text += ',';
  m_comma = true;
}

Json& Json::open(char bracket) {
  separate();
  m_text += bracket;
  m_closers += bracket == '{' ? '}' : ']';
  m_comma = false;
  return *this;
}

Json& Json::end() {
  m_text += m_closers.back();
  m_closers.pop_back();
  m_comma = true;
  return *this;
}

Json& Json::key(std::string_view name) {
  separate();
  quote(name);
  m_text += ':';
  m_comma = false;
  return *this;
}

Json& Json::value(std::string_view text) {
  separate();
  quote(text);
  return *this;
}

Json& Json::value(double number) {
  if (!std::isfinite(number)) return null();
  separate();
  std::array<char, 32> digits{};
  const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), number).ptr;
  m_text.append(digits.data(), end);
  return *this;
}

Json& Json::value(std::int64_t number) {
  separate();
  m_text += std::to_string(number);
  return *this;
}

Json& Json::value(bool flag) {
  separate();
  m_text += flag ? "true" : "false";
  return *this;
}

Json& Json::null() {
  separate();
  m_text += "null";
  return *this;
}

void Json::quote(std::string_view text) {
  static constexpr std::string_view kHex = "0123456789abcdef";
  m_text += '"';
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    switch (c) {
      case '"': m_text += "\\\""; break;
      case '\\': m_text += "\\\\"; break;
      case '\n': m_text += "\\n"; break;
      case '\r': m_text += "\\r"; break;
      case '\t': m_text += "\\t"; break;
      default:
        if (byte >= 0x20) {
          m_text += c;
        } else {
          m_text += "\\u00";
          m_text += kHex[byte >> 4];
          m_text += kHex[byte & 15];
        }
    }
  }
  m_text += '"';
}

}  // namespace ductwright::report
