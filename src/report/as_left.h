#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fleet/record.h"
#include "quantity/unit.h"

namespace ductwright::report {

// A setting as it is left: what was last read from the controller, else what the schedule says.
struct AsLeft {
  std::string_view setting;  // a schedule column: "cooling max flow"
  quantity::Dimension dimension = quantity::Dimension::airflow;
  std::optional<double> value;  // SI
  bool read = false;            // from the controller
  std::optional<fleet::Timestamp> readAt;
};

// The settings of the turnover table, the same for every unit and in the same order.
std::vector<AsLeft> asLeft(const fleet::UnitRecord& record);

// Settings that were read and differ from the schedule by more than rounding (0.5 %).
std::vector<std::string_view> differing(const fleet::UnitRecord& record);

}  // namespace ductwright::report
