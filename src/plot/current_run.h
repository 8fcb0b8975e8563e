#pragma once

#include <optional>
#include <vector>

#include "fleet/record.h"

namespace ductwright::plot {

using fleet::Procedure;
using fleet::Reading;
using fleet::ReadingQuantity;
using fleet::UnitRecord;

// The readings of the run that counts, without the struck ones.
class CurrentRun {
 public:
  CurrentRun(const UnitRecord& record, Procedure procedure);

  [[nodiscard]] bool empty() const { return m_readings.empty(); }
  // The last reading of a quantity at a step; null where there is none.
  [[nodiscard]] const Reading* last(int step, ReadingQuantity quantity) const;
  [[nodiscard]] std::optional<double> mean(int step, ReadingQuantity quantity) const;
  [[nodiscard]] std::vector<int> steps() const;

 private:
  std::vector<const Reading*> m_readings;
};

}  // namespace ductwright::plot
