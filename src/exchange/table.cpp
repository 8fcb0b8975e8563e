#include "exchange/table.h"

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <system_error>
#include <utility>

#include "csv.h"
#include "encoding.h"
#include "table_content.h"
#include "text.h"
#include "xlsx.h"

namespace ductwright::exchange {
namespace {

struct CloseFile {
  void operator()(std::FILE* file) const { std::fclose(file); }
};

Result<std::string> bytesOf(const std::filesystem::path& path, const Job& job) {
  std::error_code error;
  const std::string shown = "“" + path.string() + "”";
  if (std::filesystem::is_directory(path, error)) return failure(shown + " is a folder: choose a CSV or XLSX file.");
  const std::unique_ptr<std::FILE, CloseFile> file(std::fopen(path.c_str(), "rb"));
  if (!file) return failure(shown + " cannot be opened (" + std::strerror(errno) + "): check the name and the permission.");
  const auto size = std::filesystem::file_size(path, error);
  if (!error && size > kMostBytes) return failure(shown + " is larger than 1 GiB: split it into smaller files.");
  std::string out;
  constexpr std::size_t kStep = std::size_t{4} << 20;
  if (!error) out.reserve(size + 1);
  for (;;) {
    if (job.stop.stop_requested()) return failure("Stopped: nothing was imported.");
    const std::size_t from = out.size();
    out.resize(from + (error ? kStep : std::min<std::size_t>(kStep, std::max<std::size_t>(size + 1 - std::min<std::size_t>(from, size), 1))));
    const std::size_t got = std::fread(out.data() + from, 1, out.size() - from, file.get());
    out.resize(from + got);
    if (got == 0) break;
    if (out.size() > kMostBytes) return failure(shown + " is larger than 1 GiB: split it into smaller files.");
  }
  if (std::ferror(file.get()) != 0) return failure(shown + " cannot be read to its end: check the drive.");
  return out;
}

// A sentence for a file that is known to be something else.
std::optional<std::string> foreign(std::string_view bytes) {
  if (bytes.empty()) return "The file is empty: choose another one.";
  if (bytes.starts_with("\xD0\xCF\x11\xE0"))
    return "The file is an old or password-protected workbook: save it as XLSX without a password, or as CSV.";
  if (bytes.starts_with("%PDF")) return "The file is a PDF: choose the CSV or XLSX file.";
  if (bytes.starts_with("SQLite format 3")) return "The file is a database or a project: choose a CSV or XLSX file.";
  return std::nullopt;
}

constexpr std::string_view name(Encoding encoding) {
  switch (encoding) {
    case Encoding::utf8:
    case Encoding::utf8Marked: return "UTF-8";
    case Encoding::utf16Little:
    case Encoding::utf16Big: return "UTF-16";
    case Encoding::windows1252: return "Windows-1252";
  }
  return "";
}

Result<Table> readText(std::string bytes, const TableChoice& choice, const Job& job) {
  auto decoded = decode(std::move(bytes));
  if (!decoded) return tl::make_unexpected(decoded.error());
  auto content = std::make_shared<Table::Content>();
  content->encoding = decoded->encoding;
  content->problems = std::move(decoded->problems);
  content->text = std::move(decoded->text);
  if (content->text.size() > kMostBytes) return failure("The file is larger than 1 GiB: split it into smaller files.");
  if (const auto read = scanCsv(*content, choice.delimiter, job); !read) return tl::make_unexpected(read.error());
  return Table(std::move(content));
}

}  // namespace

std::size_t Table::rows() const { return m_content->rows.size(); }
std::size_t Table::columns() const { return m_content->widest; }
std::size_t Table::width(std::size_t row) const { return m_content->width(row); }
std::uint32_t Table::place(std::size_t row) const { return m_content->rows[row].place; }
char Table::delimiter() const { return m_content->delimiter; }
Encoding Table::encoding() const { return m_content->encoding; }
const std::string& Table::sheet() const { return m_content->sheet; }
const std::vector<std::string>& Table::sheets() const { return m_content->sheets; }
const Problems& Table::problems() const { return m_content->problems; }

std::string_view Table::text(std::size_t row, std::size_t column) const {
  const auto* cell = m_content->cell(row, column);
  return cell ? m_content->view(*cell) : std::string_view{};
}

CellKind Table::kind(std::size_t row, std::size_t column) const {
  const auto* cell = m_content->cell(row, column);
  return cell ? static_cast<CellKind>(cell->kind) : CellKind::text;
}

bool Table::isFormula(std::size_t row, std::size_t column) const {
  const auto* cell = m_content->cell(row, column);
  return cell != nullptr && cell->formula != 0;
}

std::string Table::description() const {
  if (delimiter() == 0) return "XLSX, sheet “" + sheet() + "”";
  const char d = delimiter();
  return "CSV, " + std::string(name(encoding())) + ", " + (d == ',' ? "comma" : d == ';' ? "semicolon" : "tab");
}

Result<Table> readTable(const std::filesystem::path& file, const TableChoice& choice, const Job& job) {
  auto bytes = bytesOf(file, job);
  if (!bytes) return tl::make_unexpected(bytes.error());
  return readTable(std::move(*bytes), choice, job);
}

Result<Table> readTable(std::string bytes, const TableChoice& choice, const Job& job) {
  if (auto why = foreign(bytes)) return failure(std::move(*why));
  if (bytes.size() > kMostBytes) return failure("The file is larger than 1 GiB: split it into smaller files.");
  if (!bytes.starts_with("PK\x03\x04") && !bytes.starts_with("PK\x05\x06")) return readText(std::move(bytes), choice, job);
  auto content = std::make_shared<Table::Content>();
  if (const auto read = readXlsx(bytes, choice.sheet, *content, job); !read) return tl::make_unexpected(read.error());
  return Table(std::move(content));
}

Table readPasted(std::string_view text) {
  auto table = readTable(std::string(text), {.delimiter = '\t', .sheet = {}});
  return table ? std::move(*table) : Table(std::make_shared<Table::Content>());
}

}  // namespace ductwright::exchange
