#pragma once

#include <cmath>
#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "fleet/record.h"
#include "verdict/verdict.h"

// The content of a figure: plain data in the units it is shown in. No widget, no colour, no pixel.
namespace ductwright::plot {

using verdict::Outcome;

inline constexpr double kAbsent = std::numeric_limits<double>::quiet_NaN();

struct Place {
  double x = 0, y = 0;
};

struct Tick {
  double at = 0;
  std::string label;  // may have two lines
};

struct Axis {
  std::string title;  // with the unit: "discharge rise, °F"
  double low = 0, high = 1;
  std::vector<Tick> ticks;  // empty: round numbers
};

enum class Shade : std::uint8_t {
  tolerance,  // where a measured value may lie
  forbidden,  // where a point is a failure
  bracket,    // between which two values the truth was seen to lie
};

struct Band {
  Shade shade = Shade::tolerance;
  std::vector<Place> outline;  // a closed polygon
};

enum class Rule : std::uint8_t { design, threshold, parity, limit };

struct Line {
  Rule rule = Rule::design;
  Place from, to;
  std::string label;  // drawn at `to`; may be empty
};

enum class Series : std::uint8_t { measured, reported };

// Where a point comes from, so that a click on it can reach the reading and the check.
struct Source {
  std::optional<fleet::FactKey> reading;
  std::optional<std::size_t> check;  // index into UnitVerdict::checks
};

struct Point {
  Series series = Series::measured;
  Outcome outcome = Outcome::untested;
  Place at;
  double halfX = kAbsent, halfY = kAbsent;  // the expanded uncertainty (k = 2); absent where there is none
  Source source;
  std::string words;  // what it says when asked: "cooling max: 412 cfm ± 20 cfm, pass"
};

// A rectangle from `base` along y (or x where `lying`), one of a stack.
struct Bar {
  Outcome outcome = Outcome::untested;
  Place base;
  double length = 0, width = 0.8;
  bool lying = false;
  std::string label;  // drawn inside where it fits
};

struct Figure {
  std::string title;
  Axis x, y;
  std::vector<Band> bands;
  std::vector<Line> lines;
  std::vector<Bar> bars;
  std::vector<Point> points;
  std::string remark;  // one line under the title; where nothing can be shown, why
  bool stands = true;  // false: nothing to show, only `remark`
};

}  // namespace ductwright::plot
