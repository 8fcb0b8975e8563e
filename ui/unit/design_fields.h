#pragma once

#include <optional>
#include <span>

#include "fleet/building.h"
#include "quantity/unit.h"

namespace ductwright::ui {

// A number of the schedule that can be seen and changed. SI on both sides.
struct DesignNumber {
  const char* label;  // to be translated in the context "design"
  quantity::Dimension dimension;
  std::optional<double> (*read)(const fleet::Unit&);
  void (*write)(fleet::Unit&, std::optional<double>);
};
std::span<const DesignNumber> designNumbers();

// A word or name of the schedule.
struct DesignText {
  const char* label;
  std::string fleet::Unit::*member;
};
std::span<const DesignText> designTexts();

}  // namespace ductwright::ui
