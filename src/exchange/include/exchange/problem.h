#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace ductwright::exchange {

enum class Weight : std::uint8_t {
  error,    // the row cannot go in (with row 0: the file cannot)
  warning,  // flagged and kept
};

// What is wrong with one place of a file, and what to do about it.
struct Problem {
  Weight weight = Weight::error;
  std::uint32_t row = 0;     // as a spreadsheet numbers it, the first is 1; 0: the whole file
  std::uint32_t column = 0;  // the first is 1; 0: the whole row
  std::string header;        // of the column, as written in the file
  std::string found;         // the cell's text, shortened
  std::string what;          // "“abc” is not a number"
  std::string todo;          // "write it as 450 or 450 cfm"

  // "cooling max flow: “abc” is not a number, write it as 450 or 450 cfm"
  [[nodiscard]] std::string sentence() const;
  // "schedule.csv:12: cooling max flow: “abc” …"; without ":12" where it concerns the whole file.
  [[nodiscard]] std::string line(std::string_view file) const;
};

// The problems of one file, in the order of its rows. Every one is counted; the first `kListed` are kept whole.
class Problems {
 public:
  static constexpr std::size_t kListed = 10'000;

  void add(Problem problem);
  void add(const Problems& others);

  [[nodiscard]] const std::vector<Problem>& list() const { return m_list; }
  [[nodiscard]] std::size_t errors() const { return m_errors; }
  [[nodiscard]] std::size_t warnings() const { return m_warnings; }
  // Problems that were counted but not listed.
  [[nodiscard]] std::size_t unlisted() const { return m_errors + m_warnings - m_list.size(); }
  [[nodiscard]] bool empty() const { return m_errors + m_warnings == 0; }
  // A problem that keeps the whole file out: a required column is missing, the file breaks off.
  [[nodiscard]] bool blocked() const { return m_blocked; }
  void sortByRow();

 private:
  std::vector<Problem> m_list;
  std::size_t m_errors = 0, m_warnings = 0;
  bool m_blocked = false;
};

}  // namespace ductwright::exchange
