#pragma once

#include <string>
#include <string_view>

namespace ductwright::exchange {

// Without blanks at either end; the no-break space is a blank.
std::string_view trimmed(std::string_view text);

// “text”, shortened to what a sentence can hold, without control characters.
std::string cited(std::string_view text);

// A, B, …, Z, AA: a column as a spreadsheet names it, from 0.
std::string columnLetters(std::size_t column);

// "1 row", "3 rows".
std::string counted(std::size_t n, std::string_view thing);

// Appends the UTF-8 form of a code point.
void appendUtf8(std::string& out, char32_t codePoint);

}  // namespace ductwright::exchange
