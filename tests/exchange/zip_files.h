#pragma once

#include <zip.h>

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

namespace ductwright::exchange::testing {

using Parts = std::vector<std::pair<std::string, std::string>>;  // name, content

// A zip file in memory, made of parts.
inline std::string zipOf(const Parts& parts) {
  zip_error_t error;
  zip_error_init(&error);
  zip_source_t* target = zip_source_buffer_create(nullptr, 0, 0, &error);
  zip_source_keep(target);
  zip_t* archive = zip_open_from_source(target, ZIP_CREATE | ZIP_TRUNCATE, &error);
  for (const auto& [name, content] : parts)
    zip_file_add(archive, name.c_str(), zip_source_buffer(archive, content.data(), content.size(), 0), ZIP_FL_OVERWRITE);
  zip_close(archive);
  zip_stat_t stat;
  zip_source_stat(target, &stat);
  std::string out(stat.size, '\0');
  zip_source_open(target);
  zip_source_read(target, out.data(), out.size());
  zip_source_close(target);
  zip_source_free(target);
  zip_error_fini(&error);
  return out;
}

// The zip file with another size announced for its last part.
inline std::string announcing(std::string zip, std::uint32_t size) {
  const std::size_t entry = zip.rfind("PK\x01\x02");  // APPNOTE 4.3.12: the uncompressed size is at 24
  for (std::size_t i = 0; i < 4; ++i) zip[entry + 24 + i] = static_cast<char>(size >> 8 * i & 0xFF);
  return zip;
}

// The parts of the smallest workbook around the XML of a sheet's data.
inline Parts workbookParts(const std::string& sheetData, const std::string& strings = {}, const std::string& prolog = {}) {
  const std::string relations = R"(<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">)";
  const auto relation = [](const std::string& id, const std::string& type, const std::string& target) {
    return "<Relationship Id=\"" + id + R"(" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/)" + type +
           "\" Target=\"" + target + "\"/>";
  };
  Parts parts = {
      {"_rels/.rels", relations + relation("r1", "officeDocument", "xl/workbook.xml") + "</Relationships>"},
      {"xl/workbook.xml",
       R"(<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main")"
       R"( xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships">)"
       R"(<sheets><sheet name="One" sheetId="1" r:id="s1"/></sheets></workbook>)"},
      {"xl/_rels/workbook.xml.rels",
       relations + relation("s1", "worksheet", "worksheets/sheet1.xml") +
           (strings.empty() ? "" : relation("s2", "sharedStrings", "/xl/sharedStrings.xml")) + "</Relationships>"},
      {"xl/worksheets/sheet1.xml", prolog + R"(<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>)" +
                                       sheetData + "</sheetData></worksheet>"}};
  if (!strings.empty()) parts.emplace_back("xl/sharedStrings.xml", "<sst>" + strings + "</sst>");
  return parts;
}

inline std::string workbookOf(const std::string& sheetData, const std::string& strings = {}, const std::string& prolog = {}) {
  return zipOf(workbookParts(sheetData, strings, prolog));
}

}  // namespace ductwright::exchange::testing
