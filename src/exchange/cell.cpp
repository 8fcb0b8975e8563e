#include "cell.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "text.h"
#include "written_number.h"

namespace ductwright::exchange {
namespace {

using quantity::Dimension;
using quantity::Unit;

std::string_view example(Dimension dimension) {
  switch (dimension) {
    case Dimension::airflow: return "450 or 450 cfm";
    case Dimension::velocity: return "1500 or 1500 fpm";
    case Dimension::pressure: return "0.5 or 0.5 in. w.g.";
    case Dimension::temperature: return "55 or 55 °F";
    case Dimension::temperatureDifference: return "1 or 1 °F";
    case Dimension::power: return "4.5 or 4.5 kW";
    case Dimension::length: return "8 or 8 in.";
    case Dimension::duration: return "90 or 90 s";
    case Dimension::waterFlow: return "1.5 or 1.5 gpm";
    case Dimension::flowCoefficient: return "910 or 910 cfm/√in. w.g.";
    case Dimension::ratio: return "75 %";
    case Dimension::count: return "a whole number";
    case Dimension::flag: return "yes or no";
    default: return "a number such as 12.5";
  }
}

// "00:02:30" as seconds.
std::optional<double> clockSeconds(std::string_view text) {
  if (text.size() != 8 || text[2] != ':' || text[5] != ':') return std::nullopt;
  double total = 0;
  for (const std::size_t at : {0U, 3U, 6U}) {
    if (text[at] < '0' || text[at] > '9' || text[at + 1] < '0' || text[at + 1] > '9') return std::nullopt;
    total = total * 60 + (text[at] - '0') * 10 + (text[at + 1] - '0');
  }
  return total;
}

std::optional<Fault> notANumber(const CellInput& cell, Dimension dimension) {
  if (cell.kind == CellKind::error) return Fault{Weight::error, "the cell holds the error " + cited(cell.text), "correct its formula"};
  if (cell.kind == CellKind::date)
    return Fault{Weight::error, "the cell is the date or time " + cited(cell.text), "format it as a number and " + howToWrite(dimension)};
  if (cell.text.starts_with('='))
    return Fault{Weight::error, cited(cell.text) + " is a formula, not a value", "save the file with values"};
  return std::nullopt;
}

Fault wrongMark(std::string_view written, const WrittenNumber& number, const CellInput& cell) {
  if (number.mark() == DecimalMark::comma && !cell.decimalComma)
    return {Weight::error, cited(written) + " has a decimal comma where the file has decimal points",
            "write it with a point or choose the decimal comma for the whole file"};
  if (number.mark() == DecimalMark::point && cell.decimalComma)
    return {Weight::error, cited(written) + " has a decimal point where the file has decimal commas",
            "write it with a comma or choose the decimal point for the whole file"};
  return {Weight::error, cited(written) + " is too large to be a number", "correct it"};
}

std::string_view shortForm(std::array<char, 40>& buffer, double value) {
  const int n = std::snprintf(buffer.data(), buffer.size(), "%.6g", value);
  return {buffer.data(), static_cast<std::size_t>(n)};
}

Fault unclear(std::string_view written, const WrittenNumber& number) {
  std::array<char, 40> a{}, b{};
  const auto point = number.value(false), comma = number.value(true);
  return {Weight::error,
          cited(written) + " may be " + std::string(shortForm(a, std::max(*point, *comma))) + " or " +
              std::string(shortForm(b, std::min(*point, *comma))),
          "choose the decimal mark of the file"};
}

struct Number {
  double value = 0;
  int decimals = 0;
  std::string_view rest;
};

Read<Number> readNumber(const CellInput& cell, Dimension dimension) {
  if (auto wrong = notANumber(cell, dimension)) return tl::make_unexpected(std::move(*wrong));
  const auto number = WrittenNumber::leading(cell.text);
  if (!number) return fault(cited(cell.text) + " is not a number", howToWrite(dimension));
  const bool typed = cell.kind == CellKind::number;
  const bool comma = cell.decimalComma && !typed;
  const std::string_view written = cell.text.substr(0, number->length());
  if (!typed && cell.decimalUnclear && number->mark() == DecimalMark::unclear) return tl::make_unexpected(unclear(written, *number));
  const auto value = number->value(comma);
  if (!value) return tl::make_unexpected(wrongMark(written, *number, cell));
  return Number{*value, number->decimals(comma), trimmed(cell.text.substr(number->length()))};
}

}  // namespace

Read<Measured> readMeasured(const CellInput& cell, Dimension dimension) {
  if (dimension == Dimension::flag) {
    const auto yes = readYesNo(cell);
    if (!yes) return tl::make_unexpected(yes.error());
    return Measured{*yes ? 1.0 : 0.0, cell.unit, *yes ? 1.0 : 0.0, 0, false};
  }
  if (dimension == Dimension::duration)
    if (const auto seconds = clockSeconds(cell.text)) return Measured{*seconds, cell.unit, *seconds, 0, true};
  const auto number = readNumber(cell, dimension);
  if (!number) return tl::make_unexpected(number.error());
  const bool bare = number->rest.empty();
  const Unit* unit = bare ? cell.unit : quantity::findUnit(dimension, number->rest);
  if (unit == nullptr)
    return fault(cited(number->rest) + " is not a unit of " + std::string(quantity::name(dimension)), unitsToUse(dimension));
  if (dimension == Dimension::count && (number->value != std::floor(number->value) || std::abs(number->value) > 9e15))
    return fault(cited(cell.text) + " is not a whole number", "write a whole number");
  const double si = quantity::toSi(number->value, *unit);
  if (!std::isfinite(si)) return fault(cited(cell.text) + " is too large to be a number", "correct it");
  return Measured{si, unit, number->value, number->decimals, !bare};
}

Read<double> readBareNumber(const CellInput& cell) {
  const auto number = readNumber(cell, Dimension::number);
  if (!number) return tl::make_unexpected(number.error());
  if (!number->rest.empty()) return fault(cited(number->rest) + " stands behind the number", "write the number alone");
  return number->value;
}

Read<bool> readYesNo(const CellInput& cell) {
  if (auto wrong = notANumber(cell, Dimension::flag)) return tl::make_unexpected(std::move(*wrong));
  const auto read = quantity::readQuantity(cell.text, Dimension::flag, quantity::System::ip);
  if (!read) return fault(cited(cell.text) + " is neither yes nor no", "write yes or no, or 1 or 0");
  return read->si != 0;
}

SaneRange saneRange(Dimension dimension) {
  constexpr double kOpen = 1e300;
  switch (dimension) {
    case Dimension::airflow: return {0, 10};
    case Dimension::velocity: return {0, 50};
    case Dimension::pressure: return {0, 5'000};
    case Dimension::temperature: return {223.15, 403.15};
    case Dimension::temperatureDifference: return {0, 100};
    case Dimension::power: return {0, 500'000};
    case Dimension::length: return {0.05, 1.5};
    case Dimension::elevation: return {-500, 6'000};
    case Dimension::area: return {0, 10};
    case Dimension::duration: return {0, 86'400};
    case Dimension::waterFlow: return {0, 0.05};
    case Dimension::flowCoefficient: return {0, 5};
    case Dimension::ratio: return {0, 1.0000001};
    case Dimension::count: return {0, 1e9};
    case Dimension::flag:
    case Dimension::number: break;
  }
  return {-kOpen, kOpen};
}

std::optional<Fault> doubtOf(double si, const Unit& unit, SaneRange range) {
  if (si >= range.low && si <= range.high) return std::nullopt;
  const std::string value = quantity::write(si, unit);
  if (si < 0 && range.low == 0) return Fault{Weight::warning, value + " is negative and is kept as it is", "check it"};
  return Fault{Weight::warning, value + (si < range.low ? " is unusually small" : " is unusually large") + " and is kept as it is",
               "check the value and its unit"};
}

std::string unitsToUse(Dimension dimension) {
  std::vector<std::string_view> symbols;
  for (const Unit& unit : quantity::unitsOf(dimension))
    if (!unit.symbol.empty() && std::find(symbols.begin(), symbols.end(), unit.symbol) == symbols.end())
      symbols.push_back(unit.symbol);
  if (symbols.empty()) return "write the number alone";
  std::string out = "use ";
  for (std::size_t i = 0; i < symbols.size(); ++i)
    (out += i == 0 ? "" : i + 1 == symbols.size() ? " or " : ", ") += symbols[i];
  return out;
}

std::string howToWrite(Dimension dimension) { return "write it as " + std::string(example(dimension)); }

}  // namespace ductwright::exchange
