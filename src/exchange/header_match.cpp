#include "header_match.h"

#include <algorithm>
#include <array>
#include <set>
#include <utility>
#include <vector>

#include "text.h"

namespace ductwright::exchange {
namespace {

using quantity::Dimension;

bool isWordByte(char c) {
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80;
}

char lower(char c) { return static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c); }

using Words = std::vector<std::string>;

constexpr auto kAbbreviations = std::to_array<std::pair<std::string_view, std::string_view>>({
    {"clg", "cooling"}, {"cool", "cooling"}, {"htg", "heating"}, {"maximum", "max"}, {"minimum", "min"}, {"airflow", "flow"},
    {"temp", "temperature"}, {"dia", "diameter"}, {"diam", "diameter"}, {"disch", "discharge"}, {"ent", "entering"},
    {"lvg", "leaving"}, {"setpt", "setpoint"}, {"stpt", "setpoint"}, {"htr", "heater"}, {"rht", "reheat"}, {"vent", "ventilation"},
    {"unocc", "unoccupied"}, {"stby", "standby"}, {"pos", "position"}, {"coeff", "coefficient"}, {"no", "number"}, {"addr", "address"},
    {"temps", "temperature"}, {"kfactor", "coefficient"}, {"pct", "percent"},
});
constexpr auto kFillers = std::to_array<std::string_view>({"flow", "air", "the", "of", "design", "scheduled", "schedule", "rate", "value", "primary"});

// The words of a header, abbreviations written out; "CoolingMax" is two.
Words wordsOf(std::string_view text) {
  Words out;
  std::string word;
  const auto finish = [&] {
    if (word.empty()) return;
    const auto known = std::find_if(kAbbreviations.begin(), kAbbreviations.end(), [&](const auto& a) { return a.first == word; });
    out.push_back(known == kAbbreviations.end() ? word : std::string(known->second));
    word.clear();
  };
  char before = ' ';
  for (const char c : text) {
    if (c >= 'A' && c <= 'Z' && before >= 'a' && before <= 'z') finish();
    if (isWordByte(lower(c))) {
      word += lower(c);
    } else {
      finish();
    }
    before = c;
  }
  finish();
  return out;
}

bool isFiller(const std::string& word) { return std::find(kFillers.begin(), kFillers.end(), word) != kFillers.end(); }

// A header, or a column's name, made ready for comparing.
struct Name {
  explicit Name(std::string_view text) : key(headerKey(text)) {
    for (std::string& word : wordsOf(text)) {
      if (!isFiller(word)) core.insert(word);
      words.insert(std::move(word));
    }
  }
  std::string key;
  std::set<std::string> words, core;  // all, and those that tell columns apart
};

const std::vector<Name>& namesOf(TableKind kind) {
  static const auto all = [] {
    std::array<std::vector<Name>, 8> out;
    for (std::size_t k = 0; k < out.size(); ++k)
      for (const Column& column : columnsOf(static_cast<TableKind>(k))) out[k].emplace_back(column.name);
    return out;
  }();
  return all[static_cast<std::size_t>(kind)];
}

bool isSynonym(const Column& column, std::string_view key) {
  std::string_view rest = column.synonyms;
  while (!rest.empty()) {
    const std::size_t blank = rest.find(' ');
    if (rest.substr(0, blank) == key) return true;
    if (blank == std::string_view::npos) break;
    rest.remove_prefix(blank + 1);
  }
  return false;
}

std::size_t editDistance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
      diagonal = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, change});
    }
  }
  return row[b.size()];
}

// How well a header without its unit fits a column.
Match fit(const Column& column, const Name& own, const Name& given) {
  if (given.key.empty()) return Match::none;
  if (given.key == own.key) return Match::exact;
  if (isSynonym(column, given.key) || given.words == own.words) return Match::synonym;
  if (own.core.size() >= 2 && own.core == given.core) return Match::synonym;
  const std::size_t a = given.key.size(), b = own.key.size();
  if (a >= 6 && a <= b + 2 && b <= a + 2 && editDistance(given.key, own.key) <= 2) return Match::likely;
  if (!own.core.empty() && given.core.size() <= own.core.size() + 2 &&
      std::includes(given.core.begin(), given.core.end(), own.core.begin(), own.core.end()))
    return Match::likely;
  return Match::none;
}

// A last or only word that is a unit of the column: "Cooling Max CFM", "Heater kW", "GPM".
std::optional<HeaderParts> trailingUnit(const Column& column, std::string_view header) {
  if (!column.dimension || *column.dimension == Dimension::number) return std::nullopt;
  const std::size_t blank = header.find_last_of(" _\n");
  const std::size_t start = blank == std::string_view::npos ? 0 : blank + 1;
  const std::string_view unit = trimmed(header.substr(start));
  if (unit.size() < 2 || quantity::findUnit(*column.dimension, unit) == nullptr) return std::nullopt;
  return HeaderParts{trimmed(header.substr(0, start)), unit};
}

}  // namespace

HeaderParts headerParts(std::string_view header) {
  header = trimmed(header);
  for (const auto& [open, close] : {std::pair{'[', ']'}, std::pair{'(', ')'}}) {
    if (header.empty() || header.back() != close) continue;
    const std::size_t at = header.rfind(open);
    if (at == std::string_view::npos || at == 0) continue;
    return {trimmed(header.substr(0, at)), trimmed(header.substr(at + 1, header.size() - at - 2))};
  }
  return {header, {}};
}

std::string headerKey(std::string_view header) {
  std::string out;
  for (const char c : header)
    if (isWordByte(lower(c))) out += lower(c);
  return out;
}

HeaderMatch matchHeader(TableKind kind, std::string_view header) {
  HeaderMatch best;
  const HeaderParts parts = headerParts(header);
  const Name given(parts.base);
  if (given.key.find_first_not_of("0123456789") == std::string::npos) return best;
  const auto columns = columnsOf(kind);
  const auto& names = namesOf(kind);
  const auto take = [&](Match match, std::size_t column, std::string_view unit) {
    if (match < best.match) best = {match, column, std::string(unit)};
  };
  for (std::size_t i = 0; i < columns.size(); ++i) {
    const auto split = parts.unit.empty() ? trailingUnit(columns[i], parts.base) : std::nullopt;
    if (split) take(fit(columns[i], names[i], Name(split->base)), i, split->unit);
    const Match whole = fit(columns[i], names[i], given);
    take(whole, i, split && whole != Match::exact ? split->unit : parts.unit);
  }
  return best;
}

}  // namespace ductwright::exchange
