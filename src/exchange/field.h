#pragma once

#include <array>
#include <charconv>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "cell.h"
#include "exchange/columns.h"
#include "exchange/sheet.h"
#include "fleet/vocabulary.h"
#include "quantity/unit.h"
#include "text.h"

// A record's columns as data: one line a field says its header, how it is read, shown and written.
namespace ductwright::exchange {

template <class Record>
struct Field {
  Column column;
  // Reads a cell that is not empty. An error leaves the record as it was; a warning goes beside the value.
  std::optional<Fault> (*read)(Record&, const CellInput&);
  void (*clear)(Record&);
  std::string (*show)(const Record&, quantity::System);             // for people; empty: not given
  SheetValue (*write)(const Record&, const quantity::Unit* header);  // for files
  std::optional<double> (*number)(const Record&);                    // SI; nothing also where it holds no number
  void (*copy)(Record& to, const Record& from);
  bool (*same)(const Record&, const Record&);
};

// The fields of a record, in the order of its table.
template <class Record>
std::span<const Field<Record>> fieldsOf();

// A value in a header's unit such that reading it gives the same SI value again, also after a workbook has kept 16 of
// its digits; where no number does, text with a unit. The second is for a number without a unit.
SheetValue fileNumber(double si, const quantity::Unit& header);
SheetValue fileNumber(double value);
std::string exactNumber(double value);

namespace detail {

template <auto member>
struct MemberOf;
template <class R, class V, V R::*member>
struct MemberOf<member> {
  using Record = R;
  using Value = V;
};
template <auto member>
using RecordOf = typename MemberOf<member>::Record;
template <auto member>
using ValueOf = typename MemberOf<member>::Value;

template <auto member>
constexpr Field<RecordOf<member>> fieldWith(Column column, decltype(Field<RecordOf<member>>::read) read,
                                            decltype(Field<RecordOf<member>>::show) show,
                                            decltype(Field<RecordOf<member>>::write) write) {
  using R = RecordOf<member>;
  return {column,
          read,
          [](R& r) { r.*member = R{}.*member; },
          show,
          write,
          [](const R& r) -> std::optional<double> {
            using V = ValueOf<member>;
            if constexpr (requires(const V& v) { v->si(); }) {
              if (r.*member) return (r.*member)->si();
            } else if constexpr (std::is_same_v<V, std::optional<double>>) {
              return r.*member;
            } else if constexpr (std::is_same_v<V, std::optional<int>> || std::is_same_v<V, std::optional<std::int64_t>>) {
              if (r.*member) return static_cast<double>(*(r.*member));
            }
            return std::nullopt;
          },
          [](R& to, const R& from) { to.*member = from.*member; },
          [](const R& a, const R& b) { return a.*member == b.*member; }};
}

}  // namespace detail

// What a column is called; the rest of its description follows from the field's type.
struct Header {
  std::string_view name;
  std::string_view synonyms = {};
  bool required = false;
};

template <auto member>
constexpr auto textField(Header h) {
  using R = detail::RecordOf<member>;
  return detail::fieldWith<member>(
      {h.name, h.synonyms, h.required, std::nullopt, {}},
      [](R& r, const CellInput& cell) -> std::optional<Fault> {
        if (cell.kind == CellKind::error)
          return Fault{Weight::error, "the cell holds the error " + cited(cell.text), "correct its formula"};
        r.*member = std::string(cell.text);
        if (cell.text.starts_with('='))
          return Fault{Weight::warning, cited(cell.text) + " looks like a formula and is kept as text", "check it"};
        return std::nullopt;
      },
      [](const R& r, quantity::System) { return r.*member; },
      [](const R& r, const quantity::Unit*) { return (r.*member).empty() ? SheetValue{} : SheetValue{r.*member}; });
}

// std::optional<quantity::…> in the unit of its dimension; `high` (SI) widens what is sane.
template <auto member, quantity::Dimension dimension>
constexpr auto quantityField(Header h) {
  using R = detail::RecordOf<member>;
  using Q = typename detail::ValueOf<member>::value_type;
  return detail::fieldWith<member>(
      {h.name, h.synonyms, h.required, dimension, {}},
      [](R& r, const CellInput& cell) -> std::optional<Fault> {
        const auto read = readMeasured(cell, dimension);
        if (!read) return read.error();
        r.*member = Q::fromSi(read->si);
        return doubtOf(read->si, *read->unit, saneRange(dimension));
      },
      [](const R& r, quantity::System s) {
        return r.*member ? quantity::write((r.*member)->si(), dimension, s) : std::string();
      },
      [](const R& r, const quantity::Unit* u) { return r.*member ? fileNumber((r.*member)->si(), *u) : SheetValue{}; });
}

// A closed list of words; an empty cell is the list's default.
template <auto member>
constexpr auto wordField(Header h, std::string_view words) {
  using R = detail::RecordOf<member>;
  using E = detail::ValueOf<member>;
  return detail::fieldWith<member>(
      {h.name, h.synonyms, h.required, std::nullopt, words},
      [](R& r, const CellInput& cell) -> std::optional<Fault> {
        const auto value = fleet::read<E>(cell.text);
        if (!value) {
          std::string list;
          for (const E each : fleet::valuesOf<E>()) (list += list.empty() ? "" : ", ") += fleet::name(each);
          return Fault{Weight::error, cited(cell.text) + " is not known here", "use one of: " + list};
        }
        r.*member = *value;
        return std::nullopt;
      },
      [](const R& r, quantity::System) { return std::string(fleet::name(r.*member)); },
      [](const R& r, const quantity::Unit*) { return SheetValue{std::string(fleet::name(r.*member))}; });
}

// std::optional<int> or std::optional<std::int64_t>: a whole number.
template <auto member>
constexpr auto wholeField(Header h) {
  using R = detail::RecordOf<member>;
  using I = typename detail::ValueOf<member>::value_type;
  return detail::fieldWith<member>(
      {h.name, h.synonyms, h.required, quantity::Dimension::count, {}},
      [](R& r, const CellInput& cell) -> std::optional<Fault> {
        const auto read = readMeasured(cell, quantity::Dimension::count);
        if (!read) return read.error();
        if (read->si < -2e9 || read->si > (sizeof(I) > 4 ? 9e15 : 2e9))
          return Fault{Weight::error, cited(cell.text) + " is too large", "correct it"};
        r.*member = static_cast<I>(read->si);
        return doubtOf(read->si, *read->unit, {0, 1e18});
      },
      [](const R& r, quantity::System) { return r.*member ? std::to_string(*(r.*member)) : std::string(); },
      [](const R& r, const quantity::Unit*) { return r.*member ? SheetValue{static_cast<double>(*(r.*member))} : SheetValue{}; });
}

constexpr std::string_view yesNo(std::optional<bool> value) { return value ? (*value ? "yes" : "no") : ""; }

// std::optional<bool>: yes or no.
template <auto member>
constexpr auto yesNoField(Header h) {
  using R = detail::RecordOf<member>;
  return detail::fieldWith<member>(
      {h.name, h.synonyms, h.required, std::nullopt, "yes, no"},
      [](R& r, const CellInput& cell) -> std::optional<Fault> {
        const auto read = readYesNo(cell);
        if (!read) return read.error();
        r.*member = *read;
        return std::nullopt;
      },
      [](const R& r, quantity::System) { return std::string(yesNo(r.*member)); },
      [](const R& r, const quantity::Unit*) { return r.*member ? SheetValue{std::string(yesNo(r.*member))} : SheetValue{}; });
}

// std::optional<double>, read by a function of its own.
template <auto member, Read<double> (*reader)(const CellInput&)>
constexpr auto numberField(Header h) {
  using R = detail::RecordOf<member>;
  return detail::fieldWith<member>(
      {h.name, h.synonyms, h.required, quantity::Dimension::number, {}},
      [](R& r, const CellInput& cell) -> std::optional<Fault> {
        const auto read = reader(cell);
        if (!read) return read.error();
        r.*member = *read;
        return doubtOf(*read, *quantity::unitsOf(quantity::Dimension::number).data(), {0, 1e12});
      },
      [](const R& r, quantity::System) { return r.*member ? exactNumber(*(r.*member)) : std::string(); },
      [](const R& r, const quantity::Unit*) { return r.*member ? fileNumber(*(r.*member)) : SheetValue{}; });
}

}  // namespace ductwright::exchange
