#pragma once

#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "plot/figure.h"
#include "verdict/verdict.h"

// The content of a report as plain data: what is said, in which order, in which form. No page, no font.
namespace ductwright::report {

using verdict::Outcome;

enum class Rank : std::uint8_t { title, part, heading };

struct Heading {
  std::string text;
  Rank rank = Rank::heading;
  std::optional<Outcome> mark;
  std::string aside;  // at the right end of the line
};

enum class Weight : std::uint8_t { normal, strong, small };

struct Paragraph {
  std::string text;
  Weight weight = Weight::normal;
};

// Names and values, in as many columns as fit well.
struct Facts {
  struct Fact {
    std::string name, value;
  };
  std::vector<Fact> facts;
  int columns = 2;
  bool lead = false;  // larger, for a page that is read first
};

enum class Align : std::uint8_t { left, right };

struct Cell {
  std::string text;
  std::optional<Outcome> mark;
};

struct Table {
  struct Column {
    std::string title;
    double share = 1;  // of the width
    Align align = Align::left;
  };
  std::string caption;
  std::vector<Column> columns;
  std::vector<std::vector<Cell>> rows;
  std::string empty;  // said in place of a table without rows
};

struct Figures {
  std::vector<plot::Figure> figures;  // side by side
  std::vector<double> shares;         // of the width
  double height = 150;                // points
};

// One bar, as wide as the page: how many units have which result.
struct CountBar {
  struct Part {
    Outcome outcome;
    std::size_t count = 0;
  };
  std::vector<Part> parts;
};

// Marks with their units' tags, as the building stands: a group a floor.
struct MarkGrid {
  struct Group {
    std::string name;
    std::vector<Cell> units;
  };
  std::vector<Group> groups;
};

// What the signs mean: the marks', or the figures'.
struct Key {
  bool figures = false;
};

// Lines to sign on paper, one a person.
struct SignatureLines {
  std::vector<std::string> people;
};

using Block = std::variant<Heading, Paragraph, Facts, Table, Figures, CountBar, MarkGrid, Key, SignatureLines>;

// A part of a report that begins on a page of its own.
struct Section {
  std::string title;     // in the outline and at the head of each of its pages
  int level = 0;         // in the outline: 1 stands under the 0 before it
  std::vector<Block> blocks;
};

// A report: its sections are made when they are needed, so that thousands of pages need no room.
struct Document {
  std::string title, project, date, digest;
  std::vector<std::function<Section()>> sections;
};

}  // namespace ductwright::report
