#include <xlsxwriter.h>

#include <algorithm>
#include <array>
#include <map>
#include <string>
#include <utility>

#include "exchange/sheet.h"
#include "field.h"
#include "file_in_place.h"
#include "guard.h"
#include "sheet_text.h"

namespace ductwright::exchange {
namespace {

constexpr std::size_t kMeasuredRows = 500;  // whose text decides the widths
constexpr std::size_t kLongestText = 32'767;  // characters of a cell; counted in bytes here

std::size_t shownLength(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

std::string numberFormat(int decimals) {
  return decimals < 0 ? "General" : decimals == 0 ? "0" : "0." + std::string(static_cast<std::size_t>(decimals), '0');
}

// Worksheet names: at most 31 characters, none of []:*?/\ and no apostrophe at the ends.
std::string sheetName(std::string_view wanted, std::size_t number) {
  std::string out;
  std::size_t characters = 0;
  for (const char c : wanted) {
    characters += (static_cast<unsigned char>(c) & 0xC0) != 0x80 ? 1 : 0;
    if (characters > 31) break;
    out += std::string_view("[]:*?/\\'").find(c) == std::string_view::npos ? c : ' ';
  }
  return out.empty() ? "Sheet" + std::to_string(number) : out;
}

class WorkbookFile {
 public:
  explicit WorkbookFile(const std::filesystem::path& path, bool constantMemory) {
    lxw_workbook_options options{};
    options.constant_memory = constantMemory ? LXW_TRUE : LXW_FALSE;
    m_book = workbook_new_opt(path.c_str(), &options);
    m_header = workbook_add_format(m_book);
    format_set_bold(m_header);
    format_set_text_wrap(m_header);
    format_set_align(m_header, LXW_ALIGN_VERTICAL_TOP);
    format_set_bottom(m_header, LXW_BORDER_THIN);
    m_headerRight = workbook_add_format(m_book);
    format_set_bold(m_headerRight);
    format_set_text_wrap(m_headerRight);
    format_set_align(m_headerRight, LXW_ALIGN_VERTICAL_TOP);
    format_set_align(m_headerRight, LXW_ALIGN_RIGHT);
    format_set_bottom(m_headerRight, LXW_BORDER_THIN);
  }
  ~WorkbookFile() {
    if (m_book) workbook_close(m_book);
  }
  WorkbookFile(const WorkbookFile&) = delete;
  WorkbookFile& operator=(const WorkbookFile&) = delete;

  // What went wrong, or null.
  const char* add(SheetStream stream) {
    lxw_worksheet* sheet = workbook_add_worksheet(m_book, sheetName(stream.name, ++m_sheets).c_str());
    if (sheet == nullptr) return "two sheets have the same name";
    // The first rows decide the widths, which must be set before any row is written.
    std::vector<SheetRow> head;
    SheetRow row;
    while (head.size() < kMeasuredRows && stream.next(row)) head.push_back(std::exchange(row, {}));
    setColumns(sheet, stream.columns, head);
    for (std::size_t c = 0; c < stream.columns.size(); ++c)
      worksheet_write_string(sheet, 0, static_cast<lxw_col_t>(c), headerText(stream.columns[c]).c_str(), isRight(stream.columns[c]) ? m_headerRight : m_header);
    worksheet_freeze_panes(sheet, 1, 0);
    lxw_row_t at = 1;
    for (const SheetRow& each : head) {
      if (const char* why = write(sheet, at++, each, stream.columns)) return why;
    }
    if (head.size() == kMeasuredRows)
      while (stream.next(row)) {
        if (const char* why = write(sheet, at++, row, stream.columns)) return why;
        row.clear();
      }
    if (!stream.columns.empty()) worksheet_autofilter(sheet, 0, 0, std::max<lxw_row_t>(at - 1, 1), static_cast<lxw_col_t>(stream.columns.size() - 1));
    return nullptr;
  }

  const char* close() {
    const lxw_error error = workbook_close(std::exchange(m_book, nullptr));
    return error == LXW_NO_ERROR ? nullptr : lxw_strerror(error);
  }

 private:
  static bool isRight(const SheetColumn& column) { return column.kind == ColumnKind::number; }

  void setColumns(lxw_worksheet* sheet, const std::vector<SheetColumn>& columns, const std::vector<SheetRow>& head) {
    for (std::size_t c = 0; c < columns.size(); ++c) {
      // Headers wrap at blanks: their longest word counts.
      std::size_t width = 6;
      const std::string header = headerText(columns[c]);
      for (std::size_t from = 0; from < header.size();) {
        const std::size_t blank = std::min(header.find(' ', from), header.size());
        width = std::max(width, shownLength(std::string_view(header).substr(from, blank - from)) + 3);  // room for the filter's button
        from = blank + 1;
      }
      for (const SheetRow& row : head)
        if (c < row.size()) width = std::max(width, lengthOf(row[c], columns[c]) + 1);
      worksheet_set_column(sheet, static_cast<lxw_col_t>(c), static_cast<lxw_col_t>(c), static_cast<double>(std::min<std::size_t>(width, 60)), formatOf(columns[c]));
    }
  }

  static std::size_t lengthOf(const SheetValue& value, const SheetColumn& column) {
    if (const auto* text = std::get_if<std::string>(&value)) return shownLength(*text);
    if (const auto* number = std::get_if<double>(&value))
      return column.decimals < 0 ? exactNumber(*number).size() : std::to_string(static_cast<long long>(*number)).size() + 1 + static_cast<std::size_t>(column.decimals);
    return std::holds_alternative<fleet::Day>(value) ? 10 : std::holds_alternative<fleet::Timestamp>(value) ? 25 : 0;
  }

  lxw_format* formatOf(const SheetColumn& column) {
    const std::string code = column.kind == ColumnKind::number ? numberFormat(column.decimals) : column.kind == ColumnKind::date ? "yyyy-mm-dd" : "";
    lxw_format*& format = m_formats[code];
    if (format != nullptr) return format;
    format = workbook_add_format(m_book);
    if (!code.empty()) format_set_num_format(format, code.c_str());
    if (column.kind == ColumnKind::number) format_set_align(format, LXW_ALIGN_RIGHT);
    return format;
  }

  const char* write(lxw_worksheet* sheet, lxw_row_t at, const SheetRow& row, const std::vector<SheetColumn>& columns) {
    if (at >= LXW_ROW_MAX) return "a worksheet has room for 1,048,576 rows: use CSV";
    for (std::size_t c = 0; c < std::min(row.size(), columns.size()); ++c) {
      const auto column = static_cast<lxw_col_t>(c);
      lxw_format* format = formatOf(columns[c]);
      if (const auto* text = std::get_if<std::string>(&row[c])) writeText(sheet, at, column, *text, format);
      if (const auto* number = std::get_if<double>(&row[c])) worksheet_write_number(sheet, at, column, *number, format);
      if (const auto* time = std::get_if<fleet::Timestamp>(&row[c])) writeText(sheet, at, column, time->text(), format);  // keeps its offset
      if (const auto* day = std::get_if<fleet::Day>(&row[c])) {
        lxw_datetime date{day->year, day->month, day->day, 0, 0, 0};
        worksheet_write_datetime(sheet, at, column, &date, format);
      }
    }
    return nullptr;
  }

  // A string cell never starts a formula; only text that reading would strip of a guard gets one more.
  static void writeText(lxw_worksheet* sheet, lxw_row_t row, lxw_col_t column, const std::string& text, lxw_format* format) {
    if (text.empty()) return;
    std::string safe = text.front() == kGuard ? guarded(text) : text;
    if (safe.size() > kLongestText) {
      safe.resize(kLongestText - 3);
      while (!safe.empty() && (static_cast<unsigned char>(safe.back()) & 0xC0) == 0x80) safe.pop_back();
      if (!safe.empty() && static_cast<unsigned char>(safe.back()) >= 0xC0) safe.pop_back();
      safe += "…";
    }
    worksheet_write_string(sheet, row, column, safe.c_str(), format);
  }

  lxw_workbook* m_book = nullptr;
  lxw_format *m_header = nullptr, *m_headerRight = nullptr;
  std::map<std::string, lxw_format*> m_formats;
  std::size_t m_sheets = 0;
};

}  // namespace

Result<void> writeXlsx(const std::filesystem::path& path, const std::vector<Sheet>& sheets) {
  FileInPlace place(path);
  WorkbookFile book(place.temporary(), false);
  for (const Sheet& sheet : sheets)
    if (const char* why = book.add(streamOf(sheet))) return place.failed(why);
  if (const char* why = book.close()) return place.failed(why);
  return place.put();
}

Result<void> writeXlsx(const std::filesystem::path& path, SheetStream stream) {
  FileInPlace place(path);
  WorkbookFile book(place.temporary(), true);
  if (const char* why = book.add(std::move(stream))) return place.failed(why);
  if (const char* why = book.close()) return place.failed(why);
  return place.put();
}

}  // namespace ductwright::exchange
