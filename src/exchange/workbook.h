#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "archive.h"
#include "quantity/result.h"
#include "spreadsheet_date.h"

namespace ductwright::exchange {

// What the sheets of a workbook share.
struct Workbook {
  struct Sheet {
    std::string name;
    std::string part;  // path in the archive; empty when the workbook does not say where it is
  };
  std::vector<Sheet> sheets;  // worksheets only, in their order
  bool since1904 = false;
  std::vector<NumberStyle> styles;  // by cell style
  std::string sharedText;           // all shared strings, one behind the other
  struct Piece {
    std::uint32_t offset = 0, length = 0;
  };
  std::vector<Piece> shared;
  std::vector<std::string> missing;  // parts that are referred to and not there

  [[nodiscard]] std::string_view sharedString(std::size_t i) const {
    return {sharedText.data() + shared[i].offset, shared[i].length};
  }
};

Result<Workbook> readWorkbook(const Archive&);

}  // namespace ductwright::exchange
