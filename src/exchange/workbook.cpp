#include "workbook.h"

#include <charconv>
#include <map>
#include <optional>
#include <utility>

#include "xml.h"

namespace ductwright::exchange {
namespace {

struct Relation {
  std::string type, target;
};
using Relations = std::map<std::string, Relation, std::less<>>;

int whole(std::string_view text, int otherwise) {
  int value = otherwise;
  std::from_chars(text.data(), text.data() + text.size(), value);
  return value;
}

// A relation's target, which may climb with "../", as a path from the top of the archive.
std::string resolved(std::string_view folder, std::string_view target) {
  if (target.starts_with('/')) return std::string(target.substr(1));
  std::string base(folder);
  while (target.starts_with("../")) {
    target.remove_prefix(3);
    if (!base.empty()) base.pop_back();
    base.erase(base.rfind('/') == std::string::npos ? 0 : base.rfind('/') + 1);
  }
  return base + std::string(target);
}

std::string folderOf(std::string_view part) {
  const std::size_t slash = part.rfind('/');
  return slash == std::string_view::npos ? std::string() : std::string(part.substr(0, slash + 1));
}

Result<Relations> relationsOf(const Archive& archive, std::string_view part) {
  const std::string folder = folderOf(part);
  const std::string name = folder + "_rels/" + std::string(part.substr(folder.size())) + ".rels";
  Relations out;
  XmlEvents events;
  events.start = [&](std::string_view element, const XmlAttributes& a) {
    if (element != "Relationship" || a.text("TargetMode") == "External") return;
    const std::string_view type = a.text("Type");
    out[std::string(a.text("Id"))] = {std::string(type.substr(type.rfind('/') + 1)), resolved(folder, a.text("Target"))};
  };
  if (const auto read = readXml(archive, name, events); !read) return tl::make_unexpected(read.error());
  return out;
}

std::optional<std::string> targetOfType(const Relations& relations, std::string_view type) {
  for (const auto& [id, relation] : relations)
    if (relation.type == type) return relation.target;
  return std::nullopt;
}

Result<bool> readSheets(const Archive& archive, std::string_view part, const Relations& relations, Workbook& workbook) {
  XmlEvents events;
  events.start = [&](std::string_view element, const XmlAttributes& a) {
    if (element == "workbookPr") {
      const std::string_view flag = a.text("date1904");
      workbook.since1904 = flag == "1" || flag == "true";
    }
    if (element != "sheet") return;
    const auto relation = relations.find(a.text("id"));
    if (relation == relations.end())
      workbook.sheets.push_back({std::string(a.text("name")), {}});
    else if (relation->second.type == "worksheet")
      workbook.sheets.push_back({std::string(a.text("name")), relation->second.target});
  };
  return readXml(archive, part, events);
}

Result<bool> readStyles(const Archive& archive, std::string_view part, Workbook& workbook) {
  std::map<int, NumberStyle> formats;
  bool inCellStyles = false;
  XmlEvents events;
  events.start = [&](std::string_view element, const XmlAttributes& a) {
    if (element == "numFmt") formats[whole(a.text("numFmtId"), -1)] = styleOfFormat(a.text("formatCode"));
    if (element == "cellXfs") inCellStyles = true;
    if (element != "xf" || !inCellStyles) return;
    const int id = whole(a.text("numFmtId"), 0);
    const auto own = formats.find(id);
    workbook.styles.push_back(own != formats.end() ? own->second : styleOfBuiltIn(id));
  };
  events.end = [&](std::string_view element) {
    if (element == "cellXfs") inCellStyles = false;
  };
  return readXml(archive, part, events);
}

// Rich text is joined; phonetic readings (rPh) are left out.
Result<bool> readSharedStrings(const Archive& archive, std::string_view part, Workbook& workbook) {
  bool inText = false;
  int phonetic = 0;
  XmlEvents events;
  events.start = [&](std::string_view element, const XmlAttributes&) {
    if (element == "si") workbook.shared.push_back({static_cast<std::uint32_t>(workbook.sharedText.size()), 0});
    if (element == "rPh") ++phonetic;
    inText = element == "t" && phonetic == 0 && !workbook.shared.empty();
  };
  events.text = [&](std::string_view text) {
    if (!inText) return;
    workbook.sharedText += text;
    workbook.shared.back().length += static_cast<std::uint32_t>(text.size());
  };
  events.end = [&](std::string_view element) {
    if (element == "rPh") --phonetic;
    inText = false;
  };
  return readXml(archive, part, events);
}

using PartReader = Result<bool> (*)(const Archive&, std::string_view, Workbook&);

Result<void> readPart(const Archive& archive, const Relations& relations, std::string_view type, PartReader read,
                      Workbook& workbook) {
  const auto name = targetOfType(relations, type);
  if (!name) return {};
  const auto found = read(archive, *name, workbook);
  if (!found) return tl::make_unexpected(found.error());
  if (!*found) workbook.missing.push_back(*name);
  return {};
}

}  // namespace

Result<Workbook> readWorkbook(const Archive& archive) {
  const auto top = relationsOf(archive, "");
  if (!top) return tl::make_unexpected(top.error());
  const std::string part = targetOfType(*top, "officeDocument").value_or("xl/workbook.xml");
  const auto relations = relationsOf(archive, part);
  if (!relations) return tl::make_unexpected(relations.error());
  Workbook workbook;
  const auto found = readSheets(archive, part, *relations, workbook);
  if (!found) return tl::make_unexpected(found.error());
  if (!*found) return failure("The file is a zip archive without a workbook in it: save it as XLSX or CSV.");
  if (const auto r = readPart(archive, *relations, "styles", readStyles, workbook); !r) return tl::make_unexpected(r.error());
  if (const auto r = readPart(archive, *relations, "sharedStrings", readSharedStrings, workbook); !r)
    return tl::make_unexpected(r.error());
  if (workbook.sheets.empty()) return failure("The workbook has no worksheet: save the table as a worksheet or as CSV.");
  return workbook;
}

}  // namespace ductwright::exchange
