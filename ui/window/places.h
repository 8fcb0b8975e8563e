#pragma once

#include <QString>

namespace ductwright::ui {

// Where the window finds what it does not carry itself.
struct Places {
  QString commandLine;  // the program ductwright-cli
  QString samples;      // the folder of sample projects
};

}  // namespace ductwright::ui
