#pragma once

#include <string>
#include <string_view>

namespace ductwright::fleet {

// A short text that recurs in many records (a serial number, a person, "450 cfm"): equal texts share one
// immutable string for the life of the program, so that a reading stays small. Behaves as a value.
class Word {
 public:
  Word() = default;
  explicit Word(std::string_view text);  // safe from every thread

  [[nodiscard]] const std::string& text() const { return *m_text; }
  [[nodiscard]] bool empty() const { return m_text->empty(); }
  friend bool operator==(Word a, Word b) { return a.m_text == b.m_text; }
  friend std::strong_ordering operator<=>(Word a, Word b) { return *a.m_text <=> *b.m_text; }

 private:
  static const std::string s_empty;
  const std::string* m_text = &s_empty;
};

}  // namespace ductwright::fleet
