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

// One step of one run.
struct Step {
  Procedure procedure;
  int run = 1, step = 0;
  std::string words, instruments, people;
  std::optional<fleet::Timestamp> first;
  std::optional<float> waited;
};

void addWord(std::string& list, const std::string& word) {
  if (word.empty() || list == word || list.find(word) != std::string::npos) return;
  list += (list.empty() ? "" : ", ") + word;
}

void add(Step& step, const Reading& reading, quantity::System system) {
  step.words += step.words.empty() ? "" : "; ";
  step.words += name(reading.quantity);
  if (!reading.outlet.empty()) step.words += " " + reading.outlet.text();
  step.words += " " + valueWords(reading, system);
  if (reading.withdrawn) step.words += " (struck)";
  if (!reading.note.empty()) step.words += " (" + reading.note.text() + ")";
  addWord(step.instruments, reading.instrument.text());
  addWord(step.people, reading.takenBy.text());
  if (reading.takenAt && (!step.first || *reading.takenAt < *step.first)) step.first = reading.takenAt;
  if (reading.waited && (!step.waited || *reading.waited < *step.waited)) step.waited = reading.waited;
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
Table tableOf(const std::vector<Step>& steps, const std::string& superseded, quantity::System system) {
  std::string people;
  for (const Step& step : steps) addWord(people, step.people);
  const bool several = people.find(", ") != std::string::npos;
  const std::optional<fleet::Day> day = commonDay(steps);
  Table table;
  table.caption = "Readings" + (day ? ", " + day->text() : "") + (several || people.empty() ? "" : ", taken by " + people) +
                  (superseded.empty() ? "" : "; superseded and not shown: " + superseded);
  table.columns = {{"step", 1.1}, {"readings", 8.3}, {"instruments", 1.15}};
  if (several) table.columns.push_back({"by", 1.2});
  table.columns.push_back({"at, waited", day ? 1.15 : 2});
  table.empty = "No reading was recorded.";
  for (const Step& step : steps) {
    std::vector<Cell> row{{stepWords(step), {}}, {step.words, {}}, {step.instruments, {}}};
    if (several) row.push_back({step.people, {}});
    row.push_back({timeWords(step, day.has_value(), system), {}});
    table.rows.push_back(std::move(row));
  }
  return table;
}

}  // namespace

Table readingsTable(const fleet::UnitRecord& record, quantity::System system) {
  std::vector<Step> steps;
  for (const Reading& reading : record.readings) {
    if (record.currentRun(reading.procedure) != reading.run) continue;
    auto step = std::find_if(steps.begin(), steps.end(), [&](const Step& s) {
      return s.procedure == reading.procedure && s.step == reading.step;
    });
    if (step == steps.end())
      step = steps.insert(steps.end(), {reading.procedure, reading.run, reading.step, "", "", "", {}, {}});
    add(*step, reading, system);
  }
  return tableOf(steps, supersededWords(record), system);
}

}  // namespace ductwright::report
