#include "readings_table.h"

#include <algorithm>
#include <cmath>

namespace ductwright::report {
namespace {

using fleet::Procedure;
using fleet::Reading;
using quantity::Dimension;

// What the person wrote, where it has its unit; else the value in the project's.
std::string valueWords(const Reading& reading, quantity::System system) {
  const Dimension dimension = fleet::dimensionOf(reading.quantity);
  if (dimension == Dimension::flag) return reading.value > 0.5 ? "yes" : "no";
  const std::string& typed = reading.typed.text();
  const bool hasUnit = std::any_of(typed.begin(), typed.end(), [](char c) {
    return static_cast<unsigned char>(c) >= 0x80 || std::isalpha(static_cast<unsigned char>(c)) != 0 || c == '%';
  });
  return hasUnit ? typed : quantity::write(reading.value, dimension, system);
}

// A letter for each instrument, in the order of first use: (a), (b) … (z), (27) …
class InstrumentKey {
 public:
  std::string letterOf(const std::string& serial) {
    if (serial.empty()) return "";
    auto at = std::find(m_serials.begin(), m_serials.end(), serial);
    if (at == m_serials.end()) at = m_serials.insert(m_serials.end(), serial);
    return letter(static_cast<std::size_t>(at - m_serials.begin()));
  }
  [[nodiscard]] std::string words() const {
    std::string out;
    for (std::size_t i = 0; i < m_serials.size(); ++i) out += (i == 0 ? "" : ", ") + letter(i) + " " + m_serials[i];
    return out;
  }

 private:
  static std::string letter(std::size_t i) {
    return "(" + (i < 26 ? std::string(1, static_cast<char>('a' + static_cast<int>(i))) : std::to_string(i + 1)) + ")";
  }
  std::vector<std::string> m_serials;
};

// One step of one run.
struct Step {
  Procedure procedure;
  int step = 0;
  std::vector<std::pair<std::string, std::string>> values;  // of what, and all its values
  std::string people;
  std::optional<fleet::Timestamp> first;
  std::optional<float> waited;
};

void addWord(std::string& list, const std::string& word) {
  if (word.empty() || list.find(word) != std::string::npos) return;
  list += (list.empty() ? "" : ", ") + word;
}

void add(Step& step, const Reading& reading, InstrumentKey& key, quantity::System system) {
  std::string what(name(reading.quantity));
  if (!reading.outlet.empty()) what += " " + reading.outlet.text();
  std::string value = valueWords(reading, system);
  if (const std::string letter = key.letterOf(reading.instrument.text()); !letter.empty()) value += " " + letter;
  if (reading.withdrawn) value += " (struck)";
  if (!reading.note.empty()) value += " (" + reading.note.text() + ")";
  const auto same = std::find_if(step.values.begin(), step.values.end(), [&](const auto& v) { return v.first == what; });
  if (same == step.values.end()) step.values.emplace_back(std::move(what), std::move(value));
  else same->second += ", " + value;
  addWord(step.people, reading.takenBy.text());
  if (reading.takenAt && (!step.first || *reading.takenAt < *step.first)) step.first = reading.takenAt;
  if (reading.waited && (!step.waited || *reading.waited < *step.waited)) step.waited = reading.waited;
}

std::string readingWords(const Step& step) {
  std::string words;
  for (const auto& [what, values] : step.values) words += (words.empty() ? "" : "; ") + what + " " + values;
  return words;
}

std::string supersededWords(const fleet::UnitRecord& record) {
  std::string words;
  for (const fleet::Run& run : record.runs) {
    if (run.number == record.currentRun(run.procedure)) continue;
    addWord(words, std::string(name(run.procedure)) + " run " + std::to_string(run.number));
  }
  return words;
}

std::string stepWords(const Step& step) {
  const std::string words = fleet::stepName(step.procedure, step.step);
  return step.procedure == Procedure::reheatLockout ? "lockout " + words : words;
}

// The day on which all of them were taken, or nothing.
std::optional<fleet::Day> commonDay(const std::vector<Step>& steps) {
  std::optional<fleet::Day> day;
  for (const Step& step : steps) {
    if (!step.first) continue;
    const fleet::Day of = fleet::Day::of(*step.first);
    if (day && *day != of) return std::nullopt;
    day = of;
  }
  return day;
}

// "08:06, 240 s", with the day where it is not said elsewhere.
std::string timeWords(const Step& step, bool dayIsKnown, quantity::System system) {
  std::string words = step.first ? step.first->shortText() : "";
  if (dayIsKnown && !words.empty()) words.erase(0, words.find(' ') + 1);
  if (!step.waited) return words;
  return words + (words.empty() ? "" : ", ") + quantity::write(static_cast<double>(*step.waited), Dimension::duration, system);
}

// A person or a day that is the same for all stands once, in the caption.
Table tableOf(const std::vector<Step>& steps, const std::string& superseded, const InstrumentKey& key,
              quantity::System system) {
  std::string people;
  for (const Step& step : steps) addWord(people, step.people);
  const bool several = people.find(", ") != std::string::npos;
  const std::optional<fleet::Day> day = commonDay(steps);
  Table table;
  table.caption = "Readings" + (day ? ", " + day->text() : "") + (several || people.empty() ? "" : ", taken by " + people) +
                  (superseded.empty() ? "" : "; superseded and not shown: " + superseded);
  table.columns = {{"step", 1.1}, {key.words().empty() ? "readings" : "readings, by instrument: " + key.words(), 9.4}};
  if (several) table.columns.push_back({"by", 1.2});
  table.columns.push_back({"at, waited", day ? 1.15 : 2});
  table.empty = "No reading was recorded.";
  for (const Step& step : steps) {
    std::vector<Cell> row{{stepWords(step), {}}, {readingWords(step), {}}};
    if (several) row.push_back({step.people, {}});
    row.push_back({timeWords(step, day.has_value(), system), {}});
    table.rows.push_back(std::move(row));
  }
  return table;
}

}  // namespace

Table readingsTable(const fleet::UnitRecord& record, quantity::System system) {
  std::vector<Step> steps;
  InstrumentKey key;
  for (const Reading& reading : record.readings) {
    if (record.currentRun(reading.procedure) != reading.run) continue;
    auto step = std::find_if(steps.begin(), steps.end(), [&](const Step& s) {
      return s.procedure == reading.procedure && s.step == reading.step;
    });
    if (step == steps.end())
      step = steps.insert(steps.end(), {reading.procedure, reading.step, {}, "", {}, {}});
    add(*step, reading, key, system);
  }
  return tableOf(steps, supersededWords(record), key, system);
}

}  // namespace ductwright::report
