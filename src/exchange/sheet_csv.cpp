#include <array>
#include <charconv>
#include <cstdio>
#include <cstring>
#include <memory>
#include <utility>

#include "exchange/sheet.h"
#include "field.h"
#include "file_in_place.h"
#include "guard.h"
#include "sheet_text.h"

namespace ductwright::exchange {
namespace {

void appendCell(std::string& out, std::string_view text) {
  const std::string safe = guarded(text);
  const bool blankEnds = !safe.empty() && (safe.front() == ' ' || safe.back() == ' ');
  if (safe.find_first_of(",;\t\"\r\n") == std::string::npos && !blankEnds) {
    out += safe;
    return;
  }
  out += '"';
  for (const char c : safe) {
    if (c == '"') out += '"';
    out += c;
  }
  out += '"';
}

void appendValue(std::string& out, const SheetValue& value) {
  if (const auto* text = std::get_if<std::string>(&value)) appendCell(out, *text);
  if (const auto* number = std::get_if<double>(&value)) out += exactNumber(*number);
  if (const auto* day = std::get_if<fleet::Day>(&value)) out += day->text();
  if (const auto* time = std::get_if<fleet::Timestamp>(&value)) out += time->text();
}

void appendHeader(std::string& out, const std::vector<SheetColumn>& columns) {
  for (std::size_t i = 0; i < columns.size(); ++i) {
    if (i > 0) out += ',';
    appendCell(out, headerText(columns[i]));
  }
  out += "\r\n";
}

void appendRow(std::string& out, const SheetRow& row, std::size_t columns) {
  for (std::size_t i = 0; i < columns; ++i) {
    if (i > 0) out += ',';
    if (i < row.size()) appendValue(out, row[i]);
  }
  out += "\r\n";
}

struct Close {
  void operator()(std::FILE* file) const { std::fclose(file); }
};

}  // namespace

std::string headerText(const SheetColumn& column) {
  return column.unit.empty() ? column.header : column.header + " [" + column.unit + "]";
}

std::string toCsv(const Sheet& sheet) {
  std::string out;
  appendHeader(out, sheet.columns);
  for (const SheetRow& row : sheet.rows) appendRow(out, row, sheet.columns.size());
  return out;
}

SheetStream streamOf(const Sheet& sheet) {
  return {sheet.name, sheet.columns, [&sheet, next = std::size_t{0}](SheetRow& row) mutable {
            if (next == sheet.rows.size()) return false;
            row = sheet.rows[next++];
            return true;
          }};
}

Result<void> writeCsv(const std::filesystem::path& path, const Sheet& sheet) { return writeCsv(path, streamOf(sheet)); }

Result<void> writeCsv(const std::filesystem::path& path, SheetStream stream) {
  FileInPlace place(path);
  std::unique_ptr<std::FILE, Close> file(std::fopen(place.temporary().c_str(), "wb"));
  if (!file) return place.failed(std::strerror(errno));
  constexpr std::size_t kChunk = std::size_t{1} << 18;
  std::string out;
  appendHeader(out, stream.columns);
  SheetRow row;
  const auto flush = [&] {
    const bool done = std::fwrite(out.data(), 1, out.size(), file.get()) == out.size();
    out.clear();
    return done;
  };
  while (stream.next(row)) {
    appendRow(out, row, stream.columns.size());
    row.clear();
    if (out.size() >= kChunk && !flush()) return place.failed(std::strerror(errno));
  }
  if (!flush() || std::fflush(file.get()) != 0) return place.failed(std::strerror(errno));
  if (std::fclose(file.release()) != 0) return place.failed(std::strerror(errno));
  return place.put();
}

}  // namespace ductwright::exchange
