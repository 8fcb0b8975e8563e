#include "exchange/readings.h"

#include <algorithm>
#include <array>
#include <bit>
#include <map>
#include <optional>
#include <utility>

#include "cell.h"
#include "reading_cells.h"
#include "rows.h"
#include "text.h"

namespace ductwright::exchange {
namespace {

using fleet::Procedure;
using fleet::Reading;
using fleet::ReadingQuantity;
using fleet::Word;

enum Column : std::size_t {
  unitColumn, run, procedure, step, outlet, quantityColumn, value, instrument, takenAt, takenBy, waited, note
};

constexpr std::size_t kRowsBetweenChecks = 2048;
constexpr double kMostRuns = 1'000'000;

template <class E>
std::string wordsOf() {
  std::string list;
  for (const E each : fleet::valuesOf<E>()) (list += list.empty() ? "" : ", ") += fleet::name(each);
  return list;
}

std::string stepsOf(Procedure p) {
  switch (p) {
    case Procedure::airflow: return "use one of: " + wordsOf<fleet::AirflowStep>();
    case Procedure::dischargeRise: return "use one of: " + wordsOf<fleet::RiseStep>();
    case Procedure::reheatLockout: break;
  }
  return "use a number that the rows of one point share";
}

// Reads rows one after the other, with what it remembers of the rows before.
class RowReader {
 public:
  RowReader(const Table& table, const Layout& layout, const ReadingContext& context, ReadingImport& out)
      : m_context(context), m_out(out), m_rows(table, layout, out.problems), m_values(layout.system, layout.places[value].unitText) {
    m_out.readings.reserve(m_rows.end() - m_rows.first());
  }

  [[nodiscard]] std::size_t first() const { return m_rows.first(); }
  [[nodiscard]] std::size_t end() const { return m_rows.end(); }

  void read(std::size_t row) {
    m_row = row;
    m_good = !m_rows.isSpoilt(row);
    m_quantityKnown = false;
    PlacedReading out;
    out.row = m_rows.place(row);
    readUnit(out);
    readWhat(out.reading);
    readValue(out.reading);
    readWhen(out.reading);
    readWords(out.reading);
    if (!m_good) {
      ++m_out.rowsWithErrors;
      return;
    }
    out.reading.key.ordinal = static_cast<std::uint32_t>(m_out.readings.size());
    m_out.readings.push_back(out);
  }

  // What can only be said of the whole file.
  void finish() {
    const auto whole = [&](std::string what, std::string todo) {
      m_out.problems.add({Weight::warning, 0, 0, {}, {}, std::move(what), std::move(todo)});
    };
    if (m_bareShares >= 8 && m_bareShares == m_bareRatios)
      whole("all bare percentages are between 0 and 1 and were read as percent", "write the unit, 95 %, if they are shares of one");
    if (m_withOffset > 0 && m_withoutOffset > 0)
      whole(counted(m_withoutOffset, "time") + " without an offset from UTC stand beside others with one and are taken as UTC",
            "write the offset, as in 2026-03-04T10:15+01:00");
    if (m_unknownUnits * 2 > m_rows.end() - m_rows.first()) tellExchangedUnits();
  }

 private:
  void readUnit(PlacedReading& out) {
    const std::string_view tag = m_rows.text(m_row, unitColumn);
    if (tag.empty()) return missing(unitColumn);
    const auto& known = m_units.of(tag, [&](std::string_view t) -> std::optional<fleet::UnitId> {
      const auto found = m_context.units.find(t);
      return found == m_context.units.end() ? std::nullopt : std::optional(found->second);
    });
    if (known) {
      out.unit = *known;
      return;
    }
    ++m_unknownUnits;
    const std::string near = nearestTag(tag);
    bad(unitColumn, "the unit " + cited(tag) + " is not in the project",
        near.empty() ? "correct the tag or import its schedule first" : "write “" + near + "” if that is meant");
  }

  void readWhat(Reading& out) {
    if (const auto text = m_rows.text(m_row, run); !text.empty()) readRun(text, out);
    const std::string_view p = m_rows.text(m_row, procedure), s = m_rows.text(m_row, step), q = m_rows.text(m_row, quantityColumn);
    if (q.empty()) {
      missing(quantityColumn);
    } else if (const auto& known = m_quantities.of(q, fleet::read<ReadingQuantity>)) {
      m_quantityKnown = true;
      out.quantity = *known;
    } else {
      bad(quantityColumn, cited(q) + " is not a quantity",
          fleet::read<Procedure>(q) ? "see whether this column and the procedure are exchanged" : "use one of: " + wordsOf<ReadingQuantity>());
    }
    if (p.empty()) return missing(procedure);
    const auto& known = m_procedures.of(p, fleet::read<Procedure>);
    if (!known)
      return bad(procedure, cited(p) + " is not a procedure",
                 fleet::read<ReadingQuantity>(p) ? "see whether this column and the quantity are exchanged" : "use one of: " + wordsOf<Procedure>());
    out.procedure = *known;
    if (s.empty()) return missing(step);
    const auto& stepKnown = m_steps[static_cast<std::size_t>(*known)].of(s, [&](std::string_view t) { return fleet::readStep(*known, t); });
    if (!stepKnown) return bad(step, cited(s) + " is not a step of " + std::string(fleet::name(*known)), stepsOf(*known));
    out.step = *stepKnown;
  }

  void readRun(std::string_view text, Reading& out) {
    const auto& known = m_runs.of(text, [&](std::string_view) { return readMeasured(m_rows.cell(m_row, run), quantity::Dimension::count); });
    if (!known) return bad(run, known.error().what, known.error().todo);
    if (known->si < 1 || known->si > kMostRuns) return bad(run, cited(text) + " is not the number of a run", "count runs from 1");
    out.run = static_cast<int>(known->si);
  }

  void readValue(Reading& out) {
    const CellInput cell = m_rows.cell(m_row, value);
    if (cell.text.empty()) return missing(value);
    if (!m_quantityKnown) return;  // without its quantity a value means nothing
    const auto read = m_values.read(cell, out.quantity);
    if (!read) return bad(value, read.error().what, read.error().todo);
    out.value = read->si;
    const auto dimension = fleet::dimensionOf(out.quantity);
    if (dimension == quantity::Dimension::ratio && !read->unitInCell) {
      ++m_bareRatios;
      m_bareShares += read->number >= 0 && read->number <= 1 ? 1 : 0;
    }
    if (auto doubt = doubtOf(read->si, *read->unit, quantity::Dimension::number == dimension ? SaneRange{-1e9, 1e9} : saneRange(dimension)))
      m_rows.tell(m_row, value, std::move(*doubt));
    if (read->unitInCell || read->unit->symbol.empty()) {
      out.typed = Word(cell.text);
    } else {
      m_typed.assign(cell.text).append(" ").append(read->unit->symbol);
      out.typed = Word(m_typed);
    }
  }

  void readWhen(Reading& out) {
    if (const auto text = m_rows.text(m_row, takenAt); !text.empty()) {
      out.takenAt = fleet::Timestamp::fromText(text);
      if (!out.takenAt)
        bad(takenAt, cited(text) + (fleet::Day::fromText(text) ? " has no time of day" : " is not a day and time"), "write it as 2026-03-04T10:15:00+01:00");
      else
        ++(text.size() > 16 && (text.find_first_of("zZ+", 16) != std::string_view::npos || text.find('-', 16) != std::string_view::npos)
               ? m_withOffset
               : m_withoutOffset);
    }
    const CellInput cell = m_rows.cell(m_row, waited);
    if (cell.text.empty()) return;
    const auto& read = m_waits.of(cell.text, [&](std::string_view) { return readMeasured(cell, quantity::Dimension::duration); });
    if (!read) return bad(waited, read.error().what, read.error().todo);
    out.waited = static_cast<float>(read->si);
    if (auto doubt = doubtOf(read->si, *read->unit, saneRange(quantity::Dimension::duration))) m_rows.tell(m_row, waited, std::move(*doubt));
  }

  void readWords(Reading& out) {
    const auto word = [&](Column column) {
      const std::string_view text = m_rows.text(m_row, column);
      return text.empty() ? Word() : m_words[column].of(text, [](std::string_view t) { return Word(t); });
    };
    out.outlet = word(outlet);
    out.instrument = word(instrument);
    out.takenBy = word(takenBy);
    out.note = word(note);
    if (out.quantity == ReadingQuantity::outletFlow && out.outlet.empty() && m_good)
      doubt(outlet, "an outlet flow has no outlet and counts as the same outlet as the others without", "name the outlet");
    if (out.instrument.empty()) return;
    const bool known = m_instruments.of(out.instrument.text(), [&](std::string_view t) { return m_context.instruments.contains(t); });
    if (!known)
      doubt(instrument, "the instrument " + cited(out.instrument.text()) + " is not in the project, the default doubt holds", "import the instruments");
  }

  // A tag of the project that differs only by case, blanks and hyphens; empty where there is none or are several.
  std::string nearestTag(std::string_view tag) {
    if (m_foldedTags.empty())
      for (const auto& [known, id] : m_context.units) {
        auto [at, isNew] = m_foldedTags.try_emplace(fleet::foldedWord(known), known);
        if (!isNew) at->second.clear();
      }
    const auto found = m_foldedTags.find(fleet::foldedWord(tag));
    return found == m_foldedTags.end() ? std::string() : found->second;
  }

  void tellExchangedUnits() {
    const std::size_t last = std::min(m_rows.end(), m_rows.first() + 200);
    for (const std::size_t column : {outlet, instrument, takenBy, note, step, procedure, quantityColumn}) {
      std::size_t tags = 0;
      for (std::size_t row = m_rows.first(); row < last; ++row) tags += m_context.units.contains(m_rows.text(row, column)) ? 1 : 0;
      if (tags * 2 <= last - m_rows.first()) continue;
      m_out.problems.add({Weight::warning, 0, 0, m_rows.layout(column).header, {}, "this column holds the tags of units",
                          "see whether it and “" + m_rows.layout(unitColumn).header + "” are exchanged"});
      return;
    }
  }

  void missing(std::size_t column) {
    m_good = false;
    m_rows.require(m_row, column);
  }
  void bad(std::size_t column, std::string what, std::string todo) {
    m_good = false;
    m_rows.tell(m_row, column, {Weight::error, std::move(what), std::move(todo)});
  }
  void doubt(std::size_t column, std::string what, std::string todo) {
    m_rows.tell(m_row, column, {Weight::warning, std::move(what), std::move(todo)});
  }

  const ReadingContext& m_context;
  ReadingImport& m_out;
  Rows m_rows;
  ValueReader m_values;
  Remembered<std::optional<fleet::UnitId>> m_units;
  Remembered<std::optional<Procedure>> m_procedures;
  Remembered<std::optional<ReadingQuantity>> m_quantities;
  std::array<Remembered<std::optional<int>>, 3> m_steps;
  struct Unread : Read<Measured> {
    Unread() : Read<Measured>(Measured{}) {}
    Unread& operator=(Read<Measured> r) {
      Read<Measured>::operator=(std::move(r));
      return *this;
    }
  };
  Remembered<Unread> m_runs, m_waits;
  std::map<std::size_t, Remembered<Word>> m_words;
  Remembered<bool> m_instruments;
  std::unordered_map<std::string, std::string> m_foldedTags;
  std::string m_typed;
  std::size_t m_row = 0, m_unknownUnits = 0, m_bareRatios = 0, m_bareShares = 0, m_withOffset = 0, m_withoutOffset = 0;
  bool m_good = true, m_quantityKnown = false;
};

// Everything that was recorded, but for how the value was written.
bool isSame(const PlacedReading& a, const PlacedReading& b) {
  const Reading &x = a.reading, &y = b.reading;
  return a.unit == b.unit && x.value == y.value && x.takenAt == y.takenAt && x.waited == y.waited && x.run == y.run && x.step == y.step &&
         x.outlet == y.outlet && x.instrument == y.instrument && x.takenBy == y.takenBy && x.note == y.note &&
         x.procedure == y.procedure && x.quantity == y.quantity;
}

std::size_t hashOf(const PlacedReading& placed) {
  const Reading& r = placed.reading;
  std::uint64_t h = fleet::IdHash{}(placed.unit);
  const auto mix = [&h](std::uint64_t v) {
    h ^= v + 0x9E3779B97F4A7C15U + (h << 12) + (h >> 4);
    h *= 0xFF51AFD7ED558CCDU;
    h ^= h >> 32;
  };
  mix(std::bit_cast<std::uint64_t>(r.value == 0 ? 0.0 : r.value));
  mix(r.takenAt ? static_cast<std::uint64_t>(r.takenAt->utcMillis) : 1);
  mix(static_cast<std::uint64_t>(r.run) << 32 | static_cast<std::uint32_t>(r.step));
  mix(static_cast<std::uint64_t>(r.procedure) << 8 | static_cast<std::uint64_t>(r.quantity));
  mix(std::bit_cast<std::uintptr_t>(&r.outlet.text()));  // equal words share their text
  mix(std::bit_cast<std::uintptr_t>(&r.instrument.text()));
  return h;
}

// Rows that are the same reading at the same moment are kept and told.
void tellRepeated(ReadingImport& import) {
  std::vector<std::pair<std::size_t, std::uint32_t>> order;
  order.reserve(import.readings.size());
  for (std::uint32_t i = 0; i < import.readings.size(); ++i)
    if (import.readings[i].reading.takenAt) order.emplace_back(hashOf(import.readings[i]), i);
  std::sort(order.begin(), order.end());
  for (std::size_t i = 1; i < order.size(); ++i) {
    if (order[i].first != order[i - 1].first) continue;
    const PlacedReading &a = import.readings[order[i - 1].second], &b = import.readings[order[i].second];
    if (isSame(a, b))
      import.problems.add({Weight::warning, b.row, 0, {}, {}, "the row is the same as row " + std::to_string(a.row) + ", also in its time, and is kept",
                           "remove one if it was taken once"});
  }
}

}  // namespace

ReadingContext ReadingContext::of(const fleet::Snapshot& project) {
  ReadingContext out;
  out.units.reserve(project.units.size());
  for (const auto& record : project.units) out.units.emplace(record->unit.tag, record->unit.id);
  for (const fleet::Instrument& each : project.instruments) out.instruments.insert(each.serial);
  return out;
}

Result<ReadingImport> readReadings(const Table& table, const Layout& layout, const ReadingContext& context, const Job& job) {
  ReadingImport out;
  RowReader reader(table, layout, context, out);
  const std::size_t rows = reader.end() - reader.first();
  for (std::size_t i = 0; i < rows; ++i) {
    if (i % kRowsBetweenChecks == 0) {
      if (job.stop.stop_requested()) return failure("Stopped: nothing was imported.");
      if (job.progress) job.progress(static_cast<double>(i) / static_cast<double>(rows));
    }
    reader.read(reader.first() + i);
  }
  reader.finish();
  tellRepeated(out);
  out.problems.sortByRow();
  return out;
}

std::size_t leaveOutKnown(ReadingImport& import, const fleet::Snapshot& project) {
  const auto hash = [](const PlacedReading* r) { return hashOf(*r); };
  const auto same = [](const PlacedReading* a, const PlacedReading* b) { return isSame(*a, *b); };
  std::unordered_map<const PlacedReading*, std::size_t, decltype(hash), decltype(same)> known(0, hash, same);
  std::unordered_set<fleet::UnitId, fleet::IdHash> concerned;
  for (const PlacedReading& placed : import.readings) concerned.insert(placed.unit);
  std::vector<PlacedReading> have;
  for (const auto& record : project.units)
    if (concerned.contains(record->unit.id))
      for (const Reading& reading : record->readings) have.push_back({record->unit.id, 0, reading});
  known.reserve(have.size());
  for (const PlacedReading& placed : have) known[&placed] += 1;
  const std::size_t left = std::erase_if(import.readings, [&](const PlacedReading& placed) {
    const auto found = known.find(&placed);
    if (found == known.end() || found->second == 0) return false;
    --found->second;
    return true;
  });
  for (std::uint32_t i = 0; i < import.readings.size(); ++i) import.readings[i].reading.key.ordinal = i;
  import.known += left;
  return left;
}

}  // namespace ductwright::exchange
