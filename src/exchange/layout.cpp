#include <algorithm>
#include <array>

#include "exchange/mapping.h"
#include "text.h"
#include "written_number.h"

namespace ductwright::exchange {
namespace {

using quantity::Dimension;

bool isSure(Match match) { return match <= Match::synonym; }

class LayoutMaker {
 public:
  LayoutMaker(const Mapping& mapping, const Table& table, quantity::System system)
      : m_mapping(mapping), m_table(table), m_columns(columnsOf(mapping.kind)) {
    m_layout.kind = mapping.kind;
    m_layout.system = system;
    m_layout.firstRow = mapping.headerRow + 1;
    m_layout.places.resize(m_columns.size());
  }

  Layout made() {
    if (m_table.rows() == 0) {
      whole(Weight::error, "the table is empty", "choose another file or sheet");
      return std::move(m_layout);
    }
    for (const MappedHeader& header : m_mapping.headers) place(header);
    tellMissing();
    for (std::size_t i = 0; i < m_columns.size(); ++i) defaultUnit(i);
    if (m_layout.firstRow >= m_table.rows() && !m_layout.problems.blocked())
      whole(Weight::error, "there are no rows below the headers", "choose another file or sheet");
    checkWidths();
    decideDecimal();
    return std::move(m_layout);
  }

 private:
  void place(const MappedHeader& header) {
    const std::uint32_t column = static_cast<std::uint32_t>(header.source) + 1;
    const auto tell = [&](Weight weight, std::string what, std::string todo) {
      m_layout.problems.add({weight, 0, column, header.header, {}, std::move(what), std::move(todo)});
    };
    if (!isSure(header.match)) {
      if (header.match == Match::likely)
        tell(Weight::warning, "the column is not used, it looks like “" + header.column + "”", "say in the mapping what it is");
      else if (!header.header.empty())
        tell(Weight::warning, "the column is not used", "say in the mapping what it is, if it should go in");
      return;
    }
    const auto at = std::find_if(m_columns.begin(), m_columns.end(), [&](const Column& c) { return c.name == header.column; });
    if (at == m_columns.end()) return tell(Weight::error, "the mapping names “" + header.column + "”, which is no column", "choose another");
    Layout::Place& spot = m_layout.places[static_cast<std::size_t>(at - m_columns.begin())];
    if (spot.source)
      return tell(Weight::error, "this column and “" + spot.header + "” both seem to be “" + header.column + "”", "choose one in the mapping");
    spot.source = header.source;
    spot.header = header.header;
    takeUnit(spot, *at, header, tell);
  }

  template <class Tell>
  void takeUnit(Layout::Place& spot, const Column& column, const MappedHeader& header, Tell tell) {
    if (header.unit.empty() || !column.dimension) return;
    spot.unitText = header.unit;
    if (*column.dimension == Dimension::number) return;
    spot.unit = quantity::findUnit(*column.dimension, header.unit);
    spot.unitFromHeader = spot.unit != nullptr;
    if (!spot.unit)
      tell(Weight::error, cited(header.unit) + " is not a unit of " + std::string(quantity::name(*column.dimension)),
           "correct the header or choose a unit in the mapping");
  }

  void tellMissing() {
    for (std::size_t i = 0; i < m_columns.size(); ++i) {
      if (!m_columns[i].required || m_layout.places[i].source) continue;
      const std::string column(m_columns[i].name);
      const auto likely = std::find_if(m_mapping.headers.begin(), m_mapping.headers.end(),
                                       [&](const MappedHeader& h) { return h.match == Match::likely && h.column == column; });
      whole(Weight::error, "the column “" + column + "” is missing",
            likely == m_mapping.headers.end() ? "add it, or say in the mapping which column it is"
                                              : "say in the mapping whether “" + likely->header + "” is it");
    }
  }

  void defaultUnit(std::size_t i) {
    Layout::Place& spot = m_layout.places[i];
    if (!spot.unit && m_columns[i].dimension) spot.unit = &quantity::unitFor(*m_columns[i].dimension, m_layout.system);
  }

  // A CSV row that is wider than its header was most likely shifted by a delimiter inside a cell.
  void checkWidths() {
    if (m_mapping.headerRow >= m_table.rows()) return;
    const std::size_t headers = m_table.width(m_mapping.headerRow);
    std::vector<std::size_t> beyond(m_table.columns() > headers ? m_table.columns() - headers : 0);
    for (std::size_t r = m_layout.firstRow; r < m_table.rows(); ++r) {
      const std::size_t width = m_table.width(r);
      if (width == headers) continue;
      if (width < headers) {
        if (m_table.delimiter() != 0)
          row(r, Weight::warning, "the row has " + counted(width, "cell") + " and the header " + std::to_string(headers),
              "see whether its last cells are missing");
        continue;
      }
      std::size_t extra = 0;
      for (std::size_t c = headers; c < width; ++c)
        if (!trimmed(m_table.text(r, c)).empty()) {
          ++extra;
          ++beyond[c - headers];
        }
      if (extra > 0 && m_table.delimiter() != 0)
        row(r, Weight::error, "the row has " + counted(width, "cell") + " and the header " + std::to_string(headers),
            "look for a delimiter inside a cell and put that cell in quotes");
    }
    if (m_table.delimiter() != 0) return;
    for (std::size_t c = 0; c < beyond.size(); ++c)
      if (beyond[c] > 0)
        m_layout.problems.add({Weight::warning, 0, static_cast<std::uint32_t>(headers + c + 1), {}, {},
                               "column " + columnLetters(headers + c) + " has " + counted(beyond[c], "cell") + " and no header, it is not used",
                               "give it a header if it should go in"});
  }

  // The decimal mark is that of the cells that can only be read one way. With a comma between cells it is a point, unless
  // a person says otherwise. Cells that could be read both ways are told, not guessed.
  void decideDecimal() {
    std::array<std::size_t, 4> seen{};
    for (std::size_t i = 0; i < m_columns.size(); ++i)
      if (m_columns[i].dimension && *m_columns[i].dimension != Dimension::flag && m_layout.places[i].source)
        countMarks(*m_layout.places[i].source, seen);
    const auto count = [&](DecimalMark mark) { return seen[static_cast<std::size_t>(mark)]; };
    const std::size_t points = count(DecimalMark::point), commas = count(DecimalMark::comma);
    if (m_mapping.decimal != Decimal::recognise) {
      m_layout.decimalComma = m_mapping.decimal == Decimal::comma;
      return;
    }
    const bool commaDelimited = m_table.delimiter() == ',';
    m_layout.decimalComma = !commaDelimited && commas > points;
    const bool contradictory = points > 0 && commas > 0;
    m_layout.decimalUnclear = commaDelimited ? commas > 0 : contradictory || (points + commas == 0 && count(DecimalMark::unclear) > 0);
    if (contradictory)
      whole(Weight::warning, "some numbers have a decimal point and some a decimal comma", "correct those that are told below");
  }

  void countMarks(std::size_t source, std::array<std::size_t, 4>& seen) const {
    for (std::size_t r = m_layout.firstRow; r < m_table.rows(); ++r) {
      const std::string_view text = trimmed(m_table.text(r, source));
      const bool telling = text.find(',') != std::string_view::npos || (m_table.delimiter() != ',' && text.find('.') != std::string_view::npos);
      if (!telling || m_table.kind(r, source) != CellKind::text) continue;
      if (const auto number = WrittenNumber::leading(text)) seen[static_cast<std::size_t>(number->mark())] += 1;
    }
  }

  void whole(Weight weight, std::string what, std::string todo) {
    m_layout.problems.add({weight, 0, 0, {}, {}, std::move(what), std::move(todo)});
  }
  void row(std::size_t r, Weight weight, std::string what, std::string todo) {
    m_layout.problems.add({weight, m_table.place(r), 0, {}, {}, std::move(what), std::move(todo)});
  }

  const Mapping& m_mapping;
  const Table& m_table;
  std::span<const Column> m_columns;
  Layout m_layout;
};

}  // namespace

std::string describe(const Table& table, const Layout& layout) {
  return table.description() + (layout.decimalUnclear ? ", decimal mark unclear" : layout.decimalComma ? ", decimal comma" : ", decimal point");
}

Layout layoutOf(const Mapping& mapping, const Table& table, quantity::System system) {
  return LayoutMaker(mapping, table, system).made();
}

}  // namespace ductwright::exchange
