#include "encoding.h"

#include <algorithm>
#include <array>
#include <cstring>
#include <optional>
#include <string_view>
#include <utility>

#include "text.h"

namespace ductwright::exchange {
namespace {

constexpr std::string_view kSaveAs = "save it as CSV UTF-8 or as XLSX";

unsigned char byteAt(std::string_view text, std::size_t i) { return static_cast<unsigned char>(text[i]); }

// The length of the well-formed UTF-8 sequence at `i`, or 0 (RFC 3629, section 4).
std::size_t sequenceLength(std::string_view text, std::size_t i) {
  const auto lead = byteAt(text, i);
  const auto follows = [&](std::size_t k, unsigned char low = 0x80, unsigned char high = 0xBF) {
    return i + k < text.size() && byteAt(text, i + k) >= low && byteAt(text, i + k) <= high;
  };
  if (lead < 0x80) return 1;
  if (lead >= 0xC2 && lead <= 0xDF) return follows(1) ? 2 : 0;
  if (lead >= 0xE0 && lead <= 0xEF) {
    const unsigned char low = lead == 0xE0 ? 0xA0 : 0x80;
    const unsigned char high = lead == 0xED ? 0x9F : 0xBF;
    return follows(1, low, high) && follows(2) ? 3 : 0;
  }
  if (lead >= 0xF0 && lead <= 0xF4) {
    const unsigned char low = lead == 0xF0 ? 0x90 : 0x80;
    const unsigned char high = lead == 0xF4 ? 0x8F : 0xBF;
    return follows(1, low, high) && follows(2) && follows(3) ? 4 : 0;
  }
  return 0;
}

struct Survey {
  std::size_t wellFormed = 0;  // sequences of several bytes
  std::size_t broken = 0;      // bytes
};

Survey survey(std::string_view text) {
  Survey out;
  std::size_t i = 0;
  while (i < text.size()) {
    while (i + 8 <= text.size()) {
      std::uint64_t eight = 0;
      std::memcpy(&eight, text.data() + i, 8);
      if ((eight & 0x8080808080808080U) != 0) break;
      i += 8;
    }
    if (i == text.size()) break;
    const std::size_t length = sequenceLength(text, i);
    out.wellFormed += length > 1 ? 1 : 0;
    out.broken += length == 0 ? 1 : 0;
    i += std::max<std::size_t>(length, 1);
  }
  return out;
}

// Windows-1252 from 0x80 to 0x9F; 0 where it has no character (the WHATWG table leaves five as controls).
constexpr std::array<char16_t, 32> kWindows1252 = {
    0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0,      0x017D, 0,      0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178};

std::optional<std::string> fromWindows1252(std::string_view bytes) {
  std::string out;
  out.reserve(bytes.size() + bytes.size() / 8);
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    const auto b = byteAt(bytes, i);
    char32_t c = b;
    if (b >= 0x80 && b <= 0x9F && (c = kWindows1252[b - 0x80U]) == 0) return std::nullopt;
    appendUtf8(out, c);
  }
  return out;
}

// The row (counting line ends) in which each broken byte stands is told; the byte becomes U+FFFD.
std::string mended(std::string_view text, Problems& problems) {
  std::string out;
  out.reserve(text.size());
  std::uint32_t row = 1;
  std::uint32_t told = 0;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t length = sequenceLength(text, i);
    if (text[i] == '\n') ++row;
    if (length == 0) {
      out += "\xEF\xBF\xBD";
      if (told != row)
        problems.add({Weight::error, row, 0, {}, {}, "the row has bytes that are not UTF-8", std::string(kSaveAs)});
      told = row;
      ++i;
    } else {
      out += text.substr(i, length);
      i += length;
    }
  }
  return out;
}

std::string fromUtf16(std::string_view bytes, bool little, std::size_t& broken) {
  std::string out;
  out.reserve(bytes.size());
  const auto unit = [&](std::size_t i) {
    const char32_t a = byteAt(bytes, i), b = byteAt(bytes, i + 1);
    return little ? (b << 8 | a) : (a << 8 | b);
  };
  std::size_t i = 0;
  for (; i + 1 < bytes.size(); i += 2) {
    char32_t c = unit(i);
    if (c >= 0xD800 && c <= 0xDFFF) {
      const char32_t low = c <= 0xDBFF && i + 3 < bytes.size() ? unit(i + 2) : 0;
      if (low >= 0xDC00 && low <= 0xDFFF) {
        c = 0x10000 + ((c - 0xD800) << 10) + (low - 0xDC00);
        i += 2;
      } else {
        c = 0xFFFD;
        ++broken;
      }
    }
    appendUtf8(out, c);
  }
  broken += bytes.size() % 2;
  return out;
}

// Plain text in UTF-16 without a mark has a NUL in nearly every other byte.
std::optional<Encoding> unmarkedUtf16(std::string_view bytes) {
  const std::size_t n = std::min<std::size_t>(bytes.size(), 2000) & ~std::size_t{1};
  std::size_t even = 0, odd = 0;
  for (std::size_t i = 0; i < n; ++i) (i % 2 == 0 ? even : odd) += bytes[i] == 0 ? 1 : 0;
  if (n < 8) return std::nullopt;
  if (odd * 10 >= n * 4 && even * 50 < n) return Encoding::utf16Little;
  if (even * 10 >= n * 4 && odd * 50 < n) return Encoding::utf16Big;
  return std::nullopt;
}

void tellNuls(std::string_view text, Problems& problems) {
  std::uint32_t row = 1;
  std::size_t from = 0;
  for (std::size_t at = text.find('\0'); at != std::string_view::npos;) {
    row += static_cast<std::uint32_t>(std::count(text.begin() + static_cast<std::ptrdiff_t>(from),
                                                 text.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
    problems.add({Weight::error, row, 0, {}, {}, "the row has a NUL character: the file is damaged",
                  "export it again"});
    const std::size_t line = text.find('\n', at);
    if (line == std::string_view::npos) return;
    from = line;
    at = text.find('\0', line);
  }
}

Result<Decoded> decodeUtf16(std::string_view bytes, Encoding encoding) {
  Decoded out;
  std::size_t broken = 0;
  out.encoding = encoding;
  out.text = fromUtf16(bytes, encoding == Encoding::utf16Little, broken);
  if (broken > 0)
    out.problems.add({Weight::warning, 0, 0, {}, {}, "the UTF-16 text has " + counted(broken, "broken character"),
                      "look for the sign � in the preview"});
  tellNuls(out.text, out.problems);
  return out;
}

bool looksBinary(std::string_view bytes) {
  const std::string_view head = bytes.substr(0, 4096);
  const auto controls = std::count_if(head.begin(), head.end(), [](char c) {
    const auto u = static_cast<unsigned char>(c);
    return u < 0x20 && u != '\t' && u != '\n' && u != '\r';
  });
  return controls >= 16 && static_cast<std::size_t>(controls) * 20 > head.size();
}

}  // namespace

Result<Decoded> decode(std::string bytes) {
  const std::string_view view = bytes;
  if (view.starts_with(std::string_view("\xFF\xFE\0\0", 4)) || view.starts_with(std::string_view("\0\0\xFE\xFF", 4)))
    return failure("The file is UTF-32 text: " + std::string(kSaveAs) + ".");
  if (view.starts_with("\xFF\xFE")) return decodeUtf16(view.substr(2), Encoding::utf16Little);
  if (view.starts_with("\xFE\xFF")) return decodeUtf16(view.substr(2), Encoding::utf16Big);
  if (const auto guess = unmarkedUtf16(view)) return decodeUtf16(view, *guess);
  if (looksBinary(view)) return failure("The file is neither text nor a workbook: " + std::string(kSaveAs) + ".");

  Decoded out;
  if (view.starts_with("\xEF\xBB\xBF")) {
    out.encoding = Encoding::utf8Marked;
    bytes.erase(0, 3);
  }
  const Survey found = survey(bytes);
  if (found.broken == 0) {
    out.text = std::move(bytes);
  } else if (found.wellFormed > 0 || out.encoding == Encoding::utf8Marked) {
    out.text = mended(bytes, out.problems);
  } else {
    auto text = fromWindows1252(bytes);
    if (!text) return failure("The file's encoding is not known: " + std::string(kSaveAs) + ".");
    out.text = std::move(*text);
    out.encoding = Encoding::windows1252;
    out.problems.add({Weight::warning, 0, 0, {}, {}, "the file is not UTF-8 and was read as Windows-1252",
                      "check the signs ° ² ³ and accented letters in the preview"});
  }
  tellNuls(out.text, out.problems);
  return out;
}

}  // namespace ductwright::exchange
