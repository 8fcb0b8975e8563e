#include <map>
#include <optional>

#include "exchange/import.h"
#include "fleet/vocabulary.h"
#include "records.h"

namespace ductwright::exchange {
namespace {

using fleet::Accuracy;
using fleet::Instrument;
using quantity::Dimension;

enum Column : std::size_t { serial, description, quantityColumn, percent, plus, resolution, basis, calibratedOn, due };

// What an accuracy may be for: a reading's quantity, or a dimension's name. A tolerance of a temperature is a difference.
std::optional<Dimension> toleranceDimension(std::string_view word) {
  const auto tolerance = [](Dimension d) { return d == Dimension::temperature ? Dimension::temperatureDifference : d; };
  if (const auto reading = fleet::read<fleet::ReadingQuantity>(word)) return tolerance(fleet::dimensionOf(*reading));
  const std::string folded = fleet::foldedWord(word);
  if (folded == "flow" || folded == "air") return Dimension::airflow;
  for (const Dimension d : {Dimension::airflow, Dimension::velocity, Dimension::pressure, Dimension::temperature, Dimension::power,
                            Dimension::waterFlow, Dimension::ratio})
    if (fleet::foldedWord(quantity::name(d)) == folded) return tolerance(d);
  return std::nullopt;
}

// The word by which a reading finds it: our own for a reading's quantity.
std::string canonical(std::string_view word) {
  if (const auto reading = fleet::read<fleet::ReadingQuantity>(word)) return std::string(fleet::name(*reading));
  return fleet::foldedWord(word) == "air" ? "flow" : std::string(word);
}

// Reads the rows of a table of instruments, each one quantity of one instrument.
class InstrumentReader {
 public:
  InstrumentReader(const Table& table, const Layout& layout) : m_rows(table, layout, m_out.problems) {
    for (std::size_t i = 0; i < layout.places.size(); ++i)
      if (m_rows.has(i)) m_out.given.push_back(i);
  }

  Import<Instrument> all() {
    for (std::size_t row = m_rows.first(); row < m_rows.end(); ++row) readRow(row);
    return std::move(m_out);
  }

 private:
  void readRow(std::size_t row) {
    m_row = row;
    m_good = !m_rows.isSpoilt(row);
    const bool named = m_rows.require(row, serial);
    Accuracy accuracy;
    std::optional<Dimension> dimension;
    if (m_rows.require(row, quantityColumn)) {
      accuracy.quantity = std::string(m_rows.text(row, quantityColumn));
      dimension = toleranceDimension(accuracy.quantity);
      if (dimension)
        accuracy.quantity = canonical(accuracy.quantity);
      else
        bad(quantityColumn, {Weight::error, cited(accuracy.quantity) + " is not a quantity", "use a reading's quantity, or flow, temperature, pressure or power"});
    }
    if (const auto share = number(percent, Dimension::ratio)) accuracy.share = *share;
    if (dimension) {
      if (const auto limit = tolerance(plus, *dimension)) accuracy.plus = *limit;
      if (const auto digit = tolerance(resolution, *dimension)) accuracy.resolution = *digit;
    }
    if (const auto text = m_rows.text(row, basis); !text.empty()) {
      accuracy.flowBasis = fleet::read<fleet::FlowBasis>(text);
      if (!accuracy.flowBasis) bad(basis, {Weight::error, cited(text) + " is not known here", "use actual or standard"});
    }
    const auto calibrated = day(calibratedOn), until = day(due);
    if (calibrated && until && *until < *calibrated)
      m_rows.tell(row, due, {Weight::warning, "the calibration is due before it was made", "check both dates"});
    if (m_good && named && dimension) put(std::move(accuracy), calibrated, until);
  }

  void put(Accuracy accuracy, std::optional<fleet::Day> calibrated, std::optional<fleet::Day> until) {
    const std::string name(m_rows.text(m_row, serial)), words(m_rows.text(m_row, description));
    const auto [at, isNew] = m_bySerial.try_emplace(name, m_out.records.size());
    if (isNew) {
      Instrument instrument;
      instrument.serial = name;
      m_out.records.push_back({m_rows.place(m_row), std::move(instrument)});
    }
    Instrument& instrument = m_out.records[at->second].record;
    for (const Accuracy& other : instrument.accuracies)
      if (fleet::foldedWord(other.quantity) == fleet::foldedWord(accuracy.quantity))
        return m_rows.tell(m_row, quantityColumn, {Weight::error, cited(accuracy.quantity) + " of " + cited(name) + " stands in an earlier row already",
                                                   "remove one of the two rows"});
    join(instrument.description, words, description);
    joinDay(instrument.calibratedOn, calibrated, calibratedOn);
    joinDay(instrument.calibrationDue, until, due);
    instrument.accuracies.push_back(std::move(accuracy));
  }

  void join(std::string& have, const std::string& more, std::size_t column) {
    if (have.empty()) have = more;
    if (!more.empty() && have != more) differs(column, have);
  }
  void joinDay(std::optional<fleet::Day>& have, std::optional<fleet::Day> more, std::size_t column) {
    if (!have) have = more;
    if (more && *have != *more) differs(column, have->text());
  }
  void differs(std::size_t column, std::string_view first) {
    m_rows.tell(m_row, column, {Weight::warning, "an earlier row of the same instrument has " + cited(first) + ", which holds", "correct one of the two"});
  }

  std::optional<double> number(std::size_t column, Dimension dimension) {
    const CellInput cell = m_rows.cell(m_row, column);
    if (cell.text.empty()) return std::nullopt;
    const auto read = readMeasured(cell, dimension);
    if (!read) {
      bad(column, read.error());
      return std::nullopt;
    }
    if (auto doubt = doubtOf(read->si, *read->unit, saneRange(dimension))) m_rows.tell(m_row, column, std::move(*doubt));
    return read->si;
  }

  // A tolerance's unit depends on the row's quantity.
  std::optional<double> tolerance(std::size_t column, Dimension dimension) {
    CellInput cell = m_rows.cell(m_row, column);
    if (cell.text.empty()) return std::nullopt;
    const std::string& header = m_rows.layout(column).unitText;
    cell.unit = header.empty() ? &quantity::unitFor(dimension, m_rows.layout().system) : quantity::findUnit(dimension, header);
    const auto read = readMeasured(cell, dimension);
    if (!read) {
      bad(column, cell.unit != nullptr ? read.error()
                                       : Fault{Weight::error, cited(header) + " in the header is not a unit of " + std::string(quantity::name(dimension)),
                                               "write the unit in the cell"});
      return std::nullopt;
    }
    if (auto doubt = doubtOf(read->si, *read->unit, saneRange(dimension))) m_rows.tell(m_row, column, std::move(*doubt));
    return read->si;
  }

  std::optional<fleet::Day> day(std::size_t column) {
    const std::string_view text = m_rows.text(m_row, column);
    if (text.empty()) return std::nullopt;
    // A workbook's date may carry a time of day.
    const auto read = fleet::Day::fromText(text.size() > 10 && text[10] == 'T' ? text.substr(0, 10) : text);
    if (!read) bad(column, {Weight::error, cited(text) + " is not a day of the calendar", "write it as 2026-03-04"});
    return read;
  }

  void bad(std::size_t column, Fault fault) {
    m_good = false;
    m_rows.tell(m_row, column, std::move(fault));
  }

  Import<Instrument> m_out;
  Rows m_rows;
  std::map<std::string, std::size_t> m_bySerial;
  std::size_t m_row = 0;
  bool m_good = true;
};

}  // namespace

Import<Instrument> readInstruments(const Table& table, const Layout& layout) { return InstrumentReader(table, layout).all(); }

}  // namespace ductwright::exchange
