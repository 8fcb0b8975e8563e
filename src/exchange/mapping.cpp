#include "exchange/mapping.h"

#include <algorithm>
#include <array>
#include <utility>

#include "header_match.h"
#include "text.h"

namespace ductwright::exchange {
namespace {

constexpr std::size_t kHeaderSearch = 20;
constexpr std::string_view kFirstLine = "ductwright column mapping 1";
constexpr std::array<std::string_view, 3> kDecimals = {"recognise", "point", "comma"};

bool isSure(Match match) { return match <= Match::synonym; }

// The row with the most headers that are understood, the first of equals.
template <class Understood>
std::size_t headerRowOf(const Table& table, Understood understood) {
  std::size_t best = 0, most = 0;
  for (std::size_t r = 0; r < std::min(kHeaderSearch, table.rows()); ++r) {
    std::size_t n = 0;
    for (std::size_t c = 0; c < table.width(r); ++c) n += understood(table.text(r, c)) ? 1 : 0;
    if (n > most) {
      most = n;
      best = r;
    }
  }
  return best;
}

MappedHeader suggested(TableKind kind, std::string_view header, std::size_t source) {
  MappedHeader out{.header = std::string(trimmed(header)), .column = {}, .unit = {}, .match = Match::none, .source = source};
  const HeaderMatch match = matchHeader(kind, header);
  out.match = match.match;
  if (match.match == Match::none) return out;
  out.column = columnsOf(kind)[match.column].name;
  out.unit = match.unit;
  return out;
}

// Of several headers that seem to mean one column, a better match sets the weaker ones aside.
void settleRivals(std::vector<MappedHeader>& headers) {
  for (MappedHeader& header : headers)
    for (const MappedHeader& rival : headers)
      if (&rival != &header && !header.column.empty() && rival.column == header.column && rival.match < header.match) {
        header.column.clear();
        header.match = Match::none;
      }
}

std::string inQuotes(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    if (c == '\n') {
      out += "\\n";
    } else if (c == '\r') {
      out += "\\r";
    } else {
      out += c;
    }
  }
  return out += '"';
}

// The quoted text at the beginning of `line`, which then begins behind it.
std::optional<std::string> takeQuoted(std::string_view& line) {
  std::string out;
  for (std::size_t i = 1; i < line.size(); ++i) {
    if (line[i] == '"') {
      line.remove_prefix(i + 1);
      return out;
    }
    if (line[i] == '\\' && i + 1 < line.size()) {
      ++i;
      out += line[i] == 'n' ? '\n' : line[i] == 'r' ? '\r' : line[i];
    } else {
      out += line[i];
    }
  }
  return std::nullopt;
}

std::string_view takeLine(std::string_view& text) {
  const std::size_t end = text.find('\n');
  const std::string_view line = trimmed(text.substr(0, end));
  text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
  return line;
}

const Column* columnNamed(TableKind kind, std::string_view name) {
  for (const Column& column : columnsOf(kind))
    if (column.name == name) return &column;
  return nullptr;
}

Result<void> readSetting(std::string_view line, Mapping& mapping, bool& kindKnown) {
  const std::size_t colon = line.find(':');
  const std::string_view key = trimmed(line.substr(0, colon));
  const std::string_view value = colon == std::string_view::npos ? std::string_view{} : trimmed(line.substr(colon + 1));
  if (key == "table") {
    if (const auto kind = readTableKind(value)) {
      mapping.kind = *kind;
      kindKnown = true;
      return {};
    }
  } else if (key == "decimal") {
    for (std::size_t i = 0; i < kDecimals.size(); ++i)
      if (kDecimals[i] == value) {
        mapping.decimal = static_cast<Decimal>(i);
        return {};
      }
  }
  return failure("“" + std::string(line) + "” is not understood in a column mapping: write a line such as \"Tag\" = unit.");
}

Result<MappedHeader> readEntry(std::string_view line, TableKind kind) {
  MappedHeader out;
  const std::string whole(line);
  auto header = takeQuoted(line);
  line = trimmed(line);
  if (!header || !line.starts_with('=')) return failure("“" + whole + "” has no header in quotes and no =: write \"Tag\" = unit.");
  const HeaderParts parts = headerParts(trimmed(line.substr(1)));
  if (!parts.base.empty() && columnNamed(kind, parts.base) == nullptr)
    return failure("“" + std::string(parts.base) + "” is not a column of the table “" + std::string(name(kind)) + "”: use its own header.");
  out.header = std::move(*header);
  out.column = std::string(parts.base);
  out.unit = std::string(parts.unit);
  out.match = out.column.empty() ? Match::none : Match::byHand;
  return out;
}

}  // namespace

void Mapping::set(std::size_t source, std::string_view column, std::string_view unit) {
  for (MappedHeader& header : headers) {
    if (header.source == source) {
      header.column = std::string(column);
      header.unit = std::string(unit);
      header.match = column.empty() ? Match::none : Match::byHand;
    } else if (!column.empty() && header.column == column) {
      header.column.clear();
      header.match = Match::none;
    }
  }
}

std::string Mapping::text() const {
  std::string out(kFirstLine);
  (out += "\ntable: ") += name(kind);
  (out += "\ndecimal: ") += kDecimals[static_cast<std::size_t>(decimal)];
  out += '\n';
  for (const MappedHeader& header : headers) {
    out += inQuotes(header.header) + " =";
    if (isSure(header.match)) (out += ' ') += header.column;
    if (isSure(header.match) && !header.unit.empty()) out += " [" + header.unit + "]";
    out += '\n';
  }
  return out;
}

Mapping suggestMapping(TableKind kind, const Table& table) {
  Mapping out;
  out.kind = kind;
  out.headerRow = headerRowOf(table, [&](std::string_view text) { return isSure(matchHeader(kind, text).match); });
  if (out.headerRow < table.rows())
    for (std::size_t c = 0; c < table.width(out.headerRow); ++c) out.headers.push_back(suggested(kind, table.text(out.headerRow, c), c));
  settleRivals(out.headers);
  return out;
}

Mapping applyMapping(const Mapping& kept, const Table& table) {
  const auto named = [&](std::string_view text) {
    const std::string_view header = trimmed(text);
    return std::find_if(kept.headers.begin(), kept.headers.end(), [&](const MappedHeader& h) { return h.header == header; });
  };
  Mapping out;
  out.kind = kept.kind;
  out.decimal = kept.decimal;
  out.headerRow = headerRowOf(table, [&](std::string_view text) { return named(text) != kept.headers.end(); });
  if (out.headerRow >= table.rows()) return out;
  std::vector<bool> used(kept.headers.size());
  for (std::size_t c = 0; c < table.width(out.headerRow); ++c) {
    const std::string_view text = table.text(out.headerRow, c);
    // A header that stands twice in the file stands twice in the mapping.
    auto known = named(text);
    while (known != kept.headers.end() && used[static_cast<std::size_t>(known - kept.headers.begin())])
      known = std::find_if(known + 1, kept.headers.end(), [&](const MappedHeader& h) { return h.header == trimmed(text); });
    if (known == kept.headers.end()) {
      out.headers.push_back(suggested(kept.kind, text, c));
      continue;
    }
    used[static_cast<std::size_t>(known - kept.headers.begin())] = true;
    out.headers.push_back(*known);
    out.headers.back().source = c;
  }
  settleRivals(out.headers);
  return out;
}

Result<Mapping> readMapping(std::string_view text) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  if (takeLine(text) != kFirstLine)
    return failure("The file is not a column mapping: its first line must be “" + std::string(kFirstLine) + "”.");
  Mapping out;
  bool kindKnown = false;
  while (!text.empty()) {
    const std::string_view line = takeLine(text);
    if (line.empty() || line.starts_with('#')) continue;
    if (!line.starts_with('"')) {
      if (const auto read = readSetting(line, out, kindKnown); !read) return tl::make_unexpected(read.error());
      continue;
    }
    if (!kindKnown) return failure("The column mapping does not say which table it is for: add a line such as “table: schedule”.");
    auto entry = readEntry(line, out.kind);
    if (!entry) return tl::make_unexpected(entry.error());
    entry->source = out.headers.size();
    out.headers.push_back(std::move(*entry));
  }
  if (!kindKnown) return failure("The column mapping does not say which table it is for: add a line such as “table: schedule”.");
  return out;
}

}  // namespace ductwright::exchange
