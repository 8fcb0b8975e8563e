#pragma once

#include <string>
#include <vector>

#include "fleet/timestamp.h"
#include "quantity/result.h"

namespace ductwright::report {

// An entry of a PDF's outline.
struct Bookmark {
  std::string title;
  int level = 0;         // 1 stands under the 0 before it
  std::size_t page = 0;  // from 0
};

struct PdfFinish {
  std::vector<Bookmark> bookmarks;
  std::string title, subject;
  fleet::Timestamp created;
};

// Copies a PDF with its outline, title and date of creation, and nothing of the clock's.
Result<void> finishPdf(const std::string& from, const std::string& to, const PdfFinish& finish);

}  // namespace ductwright::report
