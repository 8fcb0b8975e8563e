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
  Table table;
  const std::string superseded = supersededWords(record);
  table.caption = "Readings" + (superseded.empty() ? "" : "; superseded and not shown: " + superseded);
  table.columns = {{"procedure, step", 1.7}, {"readings", 5.2}, {"instruments", 1.1}, {"taken at", 1.35}, {"by", 1.05}, {"waited", 0.7, Align::right}};
  table.empty = "No reading was recorded.";
  for (const Step& step : steps) {
    const std::string point = step.procedure == Procedure::reheatLockout ? "point " : "";
    table.rows.push_back({{std::string(name(step.procedure)) + ", " + point + fleet::stepName(step.procedure, step.step), {}},
                          {step.words, {}}, {step.instruments, {}}, {step.first ? step.first->shortText() : "", {}},
                          {step.people, {}},
                          {step.waited ? quantity::write(static_cast<double>(*step.waited), Dimension::duration, system) : "", {}}});
  }
  return table;
}

}  // namespace ductwright::report
