#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace ductwright::report {

// Writes JSON as it goes, without holding a tree: a fleet has a hundred thousand checks.
class Json {
 public:
  Json& object() { return open('{'); }
  Json& array() { return open('['); }
  Json& end();
  Json& key(std::string_view name);
  Json& value(std::string_view text);
  Json& value(const char* text) { return value(std::string_view(text)); }
  Json& value(double number);  // shortest text that reads back the same; null where it is not finite
  Json& value(std::int64_t number);
  Json& value(std::size_t number) { return value(static_cast<std::int64_t>(number)); }
  Json& value(int number) { return value(static_cast<std::int64_t>(number)); }
  Json& value(bool flag);
  Json& null();

  template <class T>
  Json& member(std::string_view name, const T& content) {
    return key(name).value(content);
  }
  [[nodiscard]] std::string take() { return std::move(m_text); }

 private:
  Json& open(char bracket);
  void separate();
  void quote(std::string_view text);

  std::string m_text, m_closers;
  bool m_comma = false;
};

}  // namespace ductwright::report
