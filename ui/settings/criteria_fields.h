#pragma once

#include <optional>
#include <span>

#include "fleet/record.h"
#include "quantity/unit.h"

namespace ductwright::ui {

// A number of the acceptance criteria. SI on both sides.
struct CriteriaField {
  const char* group;  // to be translated in the context "criteria", as the label
  const char* label;
  quantity::Dimension dimension;
  double (*read)(const fleet::Criteria&);
  void (*write)(fleet::Criteria&, double);
};
std::span<const CriteriaField> criteriaFields();

}  // namespace ductwright::ui
