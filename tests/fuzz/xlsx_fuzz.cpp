#include <zip.h>

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <utility>
#include <vector>

#include "exchange/mapping.h"
#include "exchange/table.h"

namespace {

// A zip file around the parts of a workbook, so that the fuzzer reaches the XML behind the checksums.
std::string packed(const std::vector<std::pair<const char*, std::string>>& parts) {
  zip_error_t error;
  zip_error_init(&error);
  zip_source_t* target = zip_source_buffer_create(nullptr, 0, 0, &error);
  zip_source_keep(target);
  zip_t* archive = zip_open_from_source(target, ZIP_CREATE | ZIP_TRUNCATE, &error);
  for (const auto& [name, content] : parts) {
    const zip_int64_t i = zip_file_add(archive, name, zip_source_buffer(archive, content.data(), content.size(), 0), 0);
    zip_set_file_compression(archive, static_cast<zip_uint64_t>(i), ZIP_CM_STORE, 0);
  }
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

void readWhole(std::string bytes) {
  using namespace ductwright::exchange;
  const auto table = readTable(std::move(bytes));
  if (!table) {
    if (table.error().sentence.empty()) std::abort();
    return;
  }
  std::size_t length = 0;
  for (std::size_t r = 0; r < table->rows(); ++r)
    for (std::size_t c = 0; c < table->width(r); ++c) length += table->text(r, c).size();
  if (table->columns() > 1024 || length > (std::size_t{1} << 30)) std::abort();
  const auto layout = layoutOf(suggestMapping(TableKind::schedule, *table), *table, ductwright::quantity::System::ip);
  if (layout.places.size() != columnsOf(TableKind::schedule).size()) std::abort();
}

}  // namespace

// Bytes that begin with "PK" are a workbook as it is; of others the first says which part of one they are.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  std::string text(size, '\0');
  for (std::size_t i = 0; i < size; ++i) text[i] = static_cast<char>(data[i]);
  if (text.empty()) return 0;
  if (text.starts_with("PK")) {
    readWhole(std::move(text));
    return 0;
  }
  const std::string relation = R"(<Relationship Type="x/)";
  std::vector<std::pair<const char*, std::string>> parts = {
      {"_rels/.rels", "<r>" + relation + R"(officeDocument" Id="a" Target="xl/w.xml"/></r>)"},
      {"xl/w.xml", R"(<w><sheets><sheet name="S" id="a"/></sheets></w>)"},
      {"xl/_rels/w.xml.rels", "<r>" + relation + R"(worksheet" Id="a" Target="s.xml"/>)" + relation + R"(sharedStrings" Id="b" Target="t.xml"/>)" +
                                  relation + R"(styles" Id="c" Target="y.xml"/></r>)"},
      {"xl/s.xml", R"(<w><row><c t="s"><v>0</v></c><c s="1"><v>46085.5</v></c></row></w>)"},
      {"xl/t.xml", "<s><si><t>unit</t></si></s>"},
      {"xl/y.xml", R"(<s><numFmts><numFmt numFmtId="164" formatCode="yyyy"/></numFmts><cellXfs><xf numFmtId="0"/><xf numFmtId="164"/></cellXfs></s>)"}};
  parts[data[0] % parts.size()].second = text.substr(1);
  readWhole(packed(parts));
  return 0;
}
