#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace ductwright::exchange {

enum class NumberStyle : unsigned char { plain, percent, date };

// What a workbook's number format shows (ECMA-376 Part 1, 18.8.30): a percentage, or a date or time where it has
// one of the letters y m d h s outside quotes, brackets and escapes. An elapsed time such as [h]:mm is a time.
NumberStyle styleOfFormat(std::string_view code);
NumberStyle styleOfBuiltIn(int formatId);

// A serial day number as ISO 8601: "2026-03-04", "2026-03-04T10:15:00", below 1 "10:15:00". Nothing for a number that is no
// day: negative, past 9999, or the 29 February 1900 that never was.
std::optional<std::string> dateText(double serial, bool since1904);

}  // namespace ductwright::exchange
