#include "csv.h"

#include <algorithm>
#include <array>
#include <cstring>
#include <map>
#include <string_view>

#include "guard.h"
#include "text.h"

namespace ductwright::exchange {
namespace {

constexpr std::uint32_t kRowsBetweenChecks = 4096;

class Scanner {
 public:
  Scanner(Table::Content& content, char delimiter)
      : m_content(content), m_data(content.text.data()), m_size(content.text.size()), m_delimiter(delimiter) {
    for (const char c : {delimiter, '\n', '\r'}) m_ends[static_cast<unsigned char>(c)] = true;
  }

  Result<void> all(const Job& job) {
    while (m_at < m_size) {
      record();
      if (m_content.cells.size() > kMostCells)
        return failure("The file has more than 60 million cells: split it into smaller files.");
      if (m_wide) return failure("Row " + std::to_string(m_place) + " has more than 1,024 cells: is this a CSV file?");
      if (m_place % kRowsBetweenChecks != 0) continue;
      if (job.stop.stop_requested()) return failure("Stopped: nothing was imported.");
      if (job.progress) job.progress(static_cast<double>(m_at) / static_cast<double>(m_size));
    }
    return {};
  }

  // Begins behind a first line that is no row of the table, but counts.
  void skipLine(std::size_t end) {
    m_at = end;
    m_place = end == 0 ? 0 : 1;
  }

 private:
  void record() {
    ++m_place;
    const auto first = m_first = static_cast<std::uint32_t>(m_content.cells.size());
    bool anyText = false;
    do {
      const Table::Content::Cell cell = m_at < m_size && opensQuoted() ? quotedCell() : plainCell();
      anyText = anyText || cell.length > 0;
      m_content.cells.push_back(cell);
      m_wide = m_wide || m_content.cells.size() - first > kMostColumns;
    } while (separated());
    if (!anyText) {
      m_content.cells.resize(first);
      return;
    }
    m_content.rows.push_back({first, m_place});
    m_content.widest = std::max(m_content.widest, m_content.cells.size() - first);
  }

  // Blanks before an opening quote are forgiven: many people type them.
  bool opensQuoted() {
    std::size_t at = m_at;
    while (at < m_size && m_data[at] == ' ') ++at;
    if (at == m_size || m_data[at] != '"') return false;
    m_at = at;
    return true;
  }

  Table::Content::Cell plainCell() {
    const std::size_t from = m_at;
    while (m_at < m_size && !m_ends[static_cast<unsigned char>(m_data[m_at])]) ++m_at;
    return cell(from, m_at);
  }

  // Doubled quotes are closed up in place: the text never grows.
  Table::Content::Cell quotedCell() {
    const std::size_t from = ++m_at;
    std::size_t to = from;
    for (;;) {
      const void* quote = m_at < m_size ? std::memchr(m_data + m_at, '"', m_size - m_at) : nullptr;
      const std::size_t end = quote ? static_cast<std::size_t>(static_cast<const char*>(quote) - m_data) : m_size;
      if (to != m_at) std::memmove(m_data + to, m_data + m_at, end - m_at);
      to += end - m_at;
      m_at = end;
      if (quote == nullptr) {
        tell(from, to, "a quote is opened and never closed", "close it with \" or remove it");
        break;
      }
      ++m_at;
      if (m_at >= m_size || m_data[m_at] != '"') break;
      m_data[to++] = '"';
      ++m_at;
    }
    while (m_at < m_size && m_data[m_at] == ' ') ++m_at;
    if (m_at < m_size && !m_ends[static_cast<unsigned char>(m_data[m_at])]) {
      tell(from, to, "text stands behind a closing quote", "double the quotes inside the cell");
      while (m_at < m_size && !m_ends[static_cast<unsigned char>(m_data[m_at])]) ++m_at;
    }
    return cell(from, to);
  }

  Table::Content::Cell cell(std::size_t from, std::size_t to) {
    if (to - from > kLongestCell) {
      tell(from, to, "a cell is longer than a million characters", "look for a quote that is never closed");
      to = from + kLongestCell;
    }
    const std::string_view text(m_data + from, to - from);
    const std::string_view plain = unguarded(text);
    return {static_cast<std::uint32_t>(from + (text.size() - plain.size())), static_cast<std::uint32_t>(plain.size()) & 0xFFFFFF,
            static_cast<std::uint32_t>(CellKind::text), plain.size() == text.size() && plain.starts_with('=')};
  }

  // Goes past what ends a cell; true where another cell of the row follows.
  bool separated() {
    if (m_at >= m_size) return false;
    const char c = m_data[m_at++];
    if (c == m_delimiter) return true;
    if (c == '\r' && m_at < m_size && m_data[m_at] == '\n') ++m_at;
    return false;
  }

  void tell(std::size_t from, std::size_t to, std::string what, std::string todo) {
    const auto column = static_cast<std::uint32_t>(m_content.cells.size()) - m_first + 1;
    m_content.problems.add({Weight::error, m_place, column, {}, std::string(m_data + from, std::min<std::size_t>(to - from, 60)),
                            std::move(what), std::move(todo)});
  }

  Table::Content& m_content;
  char* m_data;
  std::size_t m_size;
  char m_delimiter;
  std::size_t m_at = 0;
  std::uint32_t m_place = 0;
  std::uint32_t m_first = 0;  // cell of the row being read
  bool m_wide = false;
  std::array<bool, 256> m_ends{};
};

struct Split {
  double evenness = -1;      // share of rows with the commonest width, broken quotes counted against it
  std::size_t width = 0;     // that width
  double cellsPerByte = 0;
};

constexpr std::size_t kSample = 64 * 1024;

// How well a delimiter splits the beginning of the text. The first row that has any candidate in it is most likely the
// header, where a decimal comma is not found: a delimiter that splits it as wide as the rest counts for more.
Split splitBy(std::string_view text, char delimiter) {
  Table::Content sample;
  const bool whole = text.size() <= kSample;
  sample.text = std::string(text.substr(0, kSample));
  [[maybe_unused]] const auto tooWideIsSeenLater = Scanner(sample, delimiter).all({});
  if (!whole && sample.rows.size() > 1) sample.rows.pop_back();
  Split out;
  if (sample.rows.empty()) return out;
  out.cellsPerByte = static_cast<double>(sample.cells.size()) / static_cast<double>(sample.text.size());
  const std::size_t rows = std::min<std::size_t>(sample.rows.size(), 60);
  std::map<std::size_t, std::size_t> byWidth;
  for (std::size_t r = 0; r < rows; ++r) byWidth[sample.width(r)] += 1;
  const auto most = std::max_element(byWidth.begin(), byWidth.end(),
                                     [](const auto& a, const auto& b) { return a.second < b.second; });
  out.width = most->first;
  if (out.width < 2) return out;
  const auto broken = std::min<double>(static_cast<double>(sample.problems.errors()), static_cast<double>(rows));
  out.evenness = (static_cast<double>(most->second) - broken) / static_cast<double>(rows);
  for (std::size_t r = 0; r < rows; ++r) {
    const auto& first = sample.cells[sample.rows[r].firstCell];
    const auto& last = sample.cells[sample.rows[r].firstCell + sample.width(r) - 1];
    const std::string_view line(sample.text.data() + first.offset, last.offset + last.length - first.offset);
    if (line.find_first_of(",;\t") == std::string_view::npos) continue;
    if (sample.width(r) >= out.width) out.evenness += 1;
    break;
  }
  return out;
}

struct Choice {
  char delimiter = ',';
  double cellsPerByte = 0;
};

Choice recognised(std::string_view text) {
  Choice best;
  Split bestSplit;
  for (const char candidate : {',', ';', '\t'}) {
    const Split split = splitBy(text, candidate);
    const bool better = split.evenness > bestSplit.evenness + 1e-9 ||
                        (split.evenness > bestSplit.evenness - 1e-9 && split.width > bestSplit.width);
    if (!better) continue;
    best = {candidate, split.cellsPerByte};
    bestSplit = split;
  }
  return best;
}

}  // namespace

Result<void> scanCsv(Table::Content& content, std::optional<char> delimiter, const Job& job) {
  std::size_t start = 0;
  // Some spreadsheets put the delimiter on a line of its own.
  if (content.text.starts_with("sep=") && content.text.size() > 5 && (content.text[5] == '\r' || content.text[5] == '\n')) {
    if (!delimiter && std::string_view(",;\t").find(content.text[4]) != std::string_view::npos) delimiter = content.text[4];
    start = content.text.find_first_not_of("\r\n", 5);
    if (start == std::string::npos) start = content.text.size();
  }
  const std::string_view text = std::string_view(content.text).substr(start);
  const Choice choice = delimiter ? Choice{*delimiter, splitBy(text, *delimiter).cellsPerByte} : recognised(text);
  content.delimiter = choice.delimiter;
  const double expected = choice.cellsPerByte * static_cast<double>(text.size()) * 1.05;
  content.cells.reserve(static_cast<std::size_t>(std::min(expected, static_cast<double>(kMostCells))));
  Scanner scanner(content, choice.delimiter);
  scanner.skipLine(start);
  return scanner.all(job);
}

}  // namespace ductwright::exchange
