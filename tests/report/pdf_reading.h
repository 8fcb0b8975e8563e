#pragma once

#include <string>
#include <vector>

namespace ductwright::report {

// What other programs read in a PDF: text by poppler's pdftotext, fonts by pdffonts, outline by libqpdf.
std::vector<std::string> pageTexts(const std::string& path);  // with the layout kept
std::string fontsOf(const std::string& path);
std::string informationOf(const std::string& path);

struct OutlineEntry {
  std::string title;
  int level = 0;
  std::size_t page = 0;  // from 0
};
std::vector<OutlineEntry> outlineOf(const std::string& path);

std::string bytesOf(const std::string& path);

}  // namespace ductwright::report
