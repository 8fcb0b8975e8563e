#include "xlsx.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

#include "archive.h"
#include "guard.h"
#include "text.h"
#include "workbook.h"
#include "xml.h"

namespace ductwright::exchange {
namespace {

constexpr std::uint32_t kLastRow = 1'048'576;

struct CellPlace {
  std::uint32_t row = 0;  // from 1
  std::size_t column = 0;  // from 0
};

// "BC12"; nothing when it is not a cell's name or beyond what we read.
std::optional<CellPlace> placeOf(std::string_view name) {
  std::size_t column = 0, i = 0;
  for (; i < name.size() && name[i] >= 'A' && name[i] <= 'Z' && i < 3; ++i)
    column = column * 26 + static_cast<std::size_t>(name[i] - 'A' + 1);
  std::uint32_t row = 0;
  const auto [end, error] = std::from_chars(name.data() + i, name.data() + name.size(), row);
  if (i == 0 || error != std::errc{} || end != name.data() + name.size() || row == 0) return std::nullopt;
  return CellPlace{row, column - 1};
}

std::string numberText(double value) {
  std::array<char, 40> buffer{};
  const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
  return {buffer.data(), error == std::errc{} ? end : buffer.data()};
}

// 0.075 shown as a percentage is 7.5, not 7.499999999999999.
std::string percentText(double share) {
  std::array<char, 40> buffer{};
  const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), share * 100, std::chars_format::general, 15);
  return std::string(buffer.data(), error == std::errc{} ? end : buffer.data()) + " %";
}

class SheetReader {
 public:
  SheetReader(const Workbook& workbook, Table::Content& content) : m_workbook(workbook), m_content(content) {}

  Result<void> read(const Archive& archive, std::string_view part, const Job& job) {
    XmlEvents events;
    events.start = [this](std::string_view e, const XmlAttributes& a) { onStart(e, a); };
    events.end = [this](std::string_view e) { onEnd(e); };
    events.text = [this](std::string_view t) {
      if (m_inValue || m_inInline) m_value += t;
    };
    events.goOn = [&](double share) {
      if (job.progress) job.progress(share);
      return !job.stop.stop_requested() && !m_tooLarge;
    };
    const auto found = readXml(archive, part, events);
    endRow();
    if (m_tooLarge) return failure("The sheet “" + m_content.sheet + "” is too large or has cells far outside its table: "
                                   "copy the table to a new workbook.");
    if (!found) return tl::make_unexpected(found.error());
    if (!*found) return failure("The sheet “" + m_content.sheet + "” is missing from the workbook: export it again.");
    tellWhole();
    return {};
  }

 private:
  void onStart(std::string_view element, const XmlAttributes& a) {
    if (element == "row") {
      endRow();
      std::uint32_t number = 0;
      const std::string_view r = a.text("r");
      std::from_chars(r.data(), r.data() + r.size(), number);
      beginRow(number == 0 ? m_row + 1 : number);
      const std::string_view hidden = a.text("hidden");
      m_hiddenRows += hidden == "1" || hidden == "true" ? 1 : 0;
    } else if (element == "c") {
      beginCell(a);
    } else if (element == "v") {
      m_inValue = true;
    } else if (element == "t") {
      m_inInline = m_inIs && m_phonetic == 0;
    } else if (element == "is") {
      m_inIs = true;
    } else if (element == "rPh") {
      ++m_phonetic;
    } else if (element == "f") {
      m_formula = true;
    } else if (element == "mergeCell") {
      ++m_merged;
    }
  }

  void onEnd(std::string_view element) {
    if (element == "v") m_inValue = false;
    if (element == "t") m_inInline = false;
    if (element == "is") m_inIs = false;
    if (element == "rPh") --m_phonetic;
    if (element == "c") endCell();
    if (element == "row") endRow();
  }

  void beginRow(std::uint32_t number) {
    if (number > kLastRow) m_tooLarge = true;
    if (number <= m_row && !m_disorder) {
      m_disorder = true;
      m_content.problems.add({Weight::error, number, 0, {}, {}, "the rows of the sheet are not in order", "export the workbook again"});
    }
    m_row = number;
    m_nextColumn = 0;
    m_first = m_content.cells.size();
  }

  void endRow() {
    if (m_content.cells.size() == m_first) return;
    m_content.rows.push_back({static_cast<std::uint32_t>(m_first), m_row});
    m_content.widest = std::max(m_content.widest, m_content.cells.size() - m_first);
    m_first = m_content.cells.size();
  }

  void beginCell(const XmlAttributes& a) {
    m_value.clear();
    m_formula = false;
    m_type = a.text("t");
    m_style = 0;
    const std::string_view style = a.text("s");
    std::from_chars(style.data(), style.data() + style.size(), m_style);
    const auto named = placeOf(a.text("r"));
    m_column = named ? named->column : m_nextColumn;
    m_nextColumn = m_column + 1;
  }

  void endCell() {
    CellKind kind = CellKind::text;
    std::string text = meaning(kind);
    if (text.empty() && !m_formula) return;
    if (m_column >= kMostColumns || m_content.cells.size() > kMostCells || m_content.text.size() + text.size() > kMostBytes) {
      m_tooLarge = true;
      return;
    }
    if (m_column < m_content.cells.size() - m_first) return tell("the sheet has this cell twice", "export the workbook again");
    if (text.size() > kLongestCell) {
      tell("a cell is longer than a million characters", "shorten it");
      text.resize(kLongestCell);
    }
    m_content.cells.resize(m_first + m_column);
    const std::string_view plain = kind == CellKind::text ? unguarded(text) : std::string_view(text);
    m_content.cells.push_back({static_cast<std::uint32_t>(m_content.text.size()), static_cast<std::uint32_t>(plain.size()) & 0xFFFFFF,
                               static_cast<std::uint32_t>(kind) & 0x7F, m_formula});
    m_content.text += plain;
    m_formulas += m_formula ? 1 : 0;
  }

  // The cell's text as a person sees it, and of what kind it is (ECMA-376 Part 1, 18.18.11).
  std::string meaning(CellKind& kind) {
    if (m_type == "s") return shared();
    if (m_type == "inlineStr" || m_type == "str") return std::move(m_value);
    if (m_type == "b") {
      kind = CellKind::boolean;
      return m_value.empty() ? std::string() : m_value == "1" || m_value == "true" ? "1" : "0";
    }
    if (m_type == "e") {
      kind = CellKind::error;
      return std::move(m_value);
    }
    if (m_type == "d") {
      kind = CellKind::date;
      return std::move(m_value);
    }
    return number(kind);
  }

  std::string shared() {
    std::size_t index = 0;
    const auto [end, error] = std::from_chars(m_value.data(), m_value.data() + m_value.size(), index);
    if (m_value.empty()) return {};
    if (error == std::errc{} && index < m_workbook.shared.size()) return std::string(m_workbook.sharedString(index));
    tell("the cell's text is missing from the workbook", "export the workbook again");
    return {};
  }

  std::string number(CellKind& kind) {
    const std::string_view written = trimmed(m_value);
    if (written.empty()) return {};
    double value = 0;
    const auto [end, error] = std::from_chars(written.data(), written.data() + written.size(), value);
    if (error != std::errc{} || end != written.data() + written.size() || !std::isfinite(value)) {
      tell("the cell is marked as a number and holds " + cited(written), "export the workbook again");
      return {};
    }
    const NumberStyle style = m_style < m_workbook.styles.size() ? m_workbook.styles[m_style] : NumberStyle::plain;
    kind = CellKind::number;
    if (style == NumberStyle::percent) return percentText(value);
    if (style == NumberStyle::plain) return numberText(value);
    kind = CellKind::date;
    if (auto date = dateText(value, m_workbook.since1904)) return std::move(*date);
    tell("the cell is shown as a date and " + cited(written) + " is no day", "write it as 2026-03-04");
    return std::string(written);
  }

  void tell(std::string what, std::string todo) {
    m_content.problems.add({Weight::error, m_row, static_cast<std::uint32_t>(m_column + 1), {}, m_value.substr(0, 60),
                            std::move(what), std::move(todo)});
  }

  void tellWhole() {
    const auto note = [this](std::string what, std::string todo) {
      m_content.problems.add({Weight::warning, 0, 0, {}, {}, std::move(what), std::move(todo)});
    };
    if (m_merged > 0)
      note("the sheet has " + counted(m_merged, "merged cell") + ", only the first cell of each holds the value", "unmerge them");
    if (m_hiddenRows > 0) note(counted(m_hiddenRows, "hidden row") + " of the sheet are read as well", "delete what should not go in");
    if (m_formulas > 0)
      note(counted(m_formulas, "cell") + " of the sheet are formulas, their last saved values are used", "check that they are up to date");
  }

  const Workbook& m_workbook;
  Table::Content& m_content;
  std::uint32_t m_row = 0;
  std::size_t m_first = 0, m_nextColumn = 0, m_column = 0, m_style = 0;
  std::size_t m_hiddenRows = 0, m_merged = 0, m_formulas = 0;
  std::string m_value, m_type;
  int m_phonetic = 0;
  bool m_inValue = false, m_inIs = false, m_inInline = false, m_formula = false, m_disorder = false, m_tooLarge = false;
};

Result<void> readSheet(const Archive& archive, const Workbook& workbook, const Workbook::Sheet& sheet, Table::Content& content,
                       const Job& job) {
  content.sheet = sheet.name;
  return SheetReader(workbook, content).read(archive, sheet.part, job);
}

std::string listed(const std::vector<std::string>& names) {
  std::string out;
  for (const std::string& name : names) (out += out.empty() ? "“" : ", “") += name + "”";
  return out;
}

}  // namespace

Result<void> readXlsx(std::string_view bytes, std::string_view wanted, Table::Content& content, const Job& job) {
  const auto archive = Archive::open(bytes);
  if (!archive) return tl::make_unexpected(archive.error());
  const auto workbook = readWorkbook(*archive);
  if (!workbook) return tl::make_unexpected(workbook.error());
  for (const auto& sheet : workbook->sheets) content.sheets.push_back(sheet.name);
  for (const std::string& part : workbook->missing)
    content.problems.add({Weight::error, 0, 0, {}, {}, "the part “" + part + "” of the workbook is missing", "export it again"});
  if (!wanted.empty()) {
    const auto sheet = std::find_if(workbook->sheets.begin(), workbook->sheets.end(), [&](const auto& s) { return s.name == wanted; });
    if (sheet == workbook->sheets.end())
      return failure("The workbook has no sheet “" + std::string(wanted) + "”: it has " + listed(content.sheets) + ".");
    return readSheet(*archive, *workbook, *sheet, content, job);
  }
  for (const auto& sheet : workbook->sheets) {
    if (const auto read = readSheet(*archive, *workbook, sheet, content, job); !read) return read;
    if (!content.rows.empty()) break;
  }
  return {};
}

}  // namespace ductwright::exchange
