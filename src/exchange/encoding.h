#pragma once

#include <string>

#include "exchange/problem.h"
#include "exchange/table.h"
#include "quantity/result.h"

namespace ductwright::exchange {

struct Decoded {
  std::string text;  // UTF-8 without a byte-order mark
  Encoding encoding = Encoding::utf8;
  Problems problems;
};

// Text of unknown encoding made UTF-8: UTF-8, UTF-16 (with or without its mark), else Windows-1252, which is told.
// Fails on bytes that are no text in any of them.
Result<Decoded> decode(std::string bytes);

}  // namespace ductwright::exchange
