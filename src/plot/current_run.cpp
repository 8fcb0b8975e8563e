#include "current_run.h"

#include <algorithm>

namespace ductwright::plot {

CurrentRun::CurrentRun(const UnitRecord& record, Procedure procedure) {
  const std::optional<int> run = record.currentRun(procedure);
  for (const Reading& reading : record.readings) {
    if (reading.procedure == procedure && run == reading.run && !reading.withdrawn) m_readings.push_back(&reading);
  }
}

const Reading* CurrentRun::last(int step, ReadingQuantity quantity) const {
  for (auto it = m_readings.rbegin(); it != m_readings.rend(); ++it) {
    if ((*it)->step == step && (*it)->quantity == quantity) return *it;
  }
  return nullptr;
}

std::optional<double> CurrentRun::mean(int step, ReadingQuantity quantity) const {
  double sum = 0;
  int count = 0;
  for (const Reading* reading : m_readings) {
    if (reading->step != step || reading->quantity != quantity) continue;
    sum += reading->value;
    ++count;
  }
  return count == 0 ? std::nullopt : std::optional(sum / count);
}

std::vector<int> CurrentRun::steps() const {
  std::vector<int> steps;
  for (const Reading* reading : m_readings) {
    if (std::find(steps.begin(), steps.end(), reading->step) == steps.end()) steps.push_back(reading->step);
  }
  std::sort(steps.begin(), steps.end());
  return steps;
}

}  // namespace ductwright::plot
