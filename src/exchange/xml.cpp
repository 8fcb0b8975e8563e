#include "xml.h"

#include <expat.h>

#include <memory>
#include <string>
#include <type_traits>

namespace ductwright::exchange {
namespace {

constexpr int kDeepest = 100;

std::string_view local(const char* name) {
  const std::string_view whole(name);
  const std::size_t colon = whole.rfind(':');
  return colon == std::string_view::npos ? whole : whole.substr(colon + 1);
}

struct Reading {
  const XmlEvents& events;
  XML_Parser parser = nullptr;
  int depth = 0;
  const char* refused = nullptr;

  void refuse(const char* why) {
    refused = why;
    XML_StopParser(parser, XML_FALSE);
  }
};

Reading& self(void* user) { return *static_cast<Reading*>(user); }

void onStart(void* user, const char* name, const char** attributes) {
  Reading& reading = self(user);
  if (++reading.depth > kDeepest) return reading.refuse("is nested too deep");
  if (reading.events.start) reading.events.start(local(name), XmlAttributes(attributes));
}

void onEnd(void* user, const char* name) {
  Reading& reading = self(user);
  --reading.depth;
  if (reading.events.end) reading.events.end(local(name));
}

void onText(void* user, const char* text, int length) {
  const Reading& reading = self(user);
  if (reading.events.text) reading.events.text({text, static_cast<std::size_t>(length)});
}

void onDoctype(void* user, const char*, const char*, const char*, int) {
  self(user).refuse("has a document type declaration, which workbooks never have");
}

}  // namespace

std::optional<std::string_view> XmlAttributes::find(std::string_view name) const {
  for (const char** at = m_list; *at != nullptr; at += 2)
    if (local(at[0]) == name) return at[1];
  return std::nullopt;
}

Result<bool> readXml(const Archive& archive, std::string_view part, const XmlEvents& events) {
  const std::unique_ptr<std::remove_pointer_t<XML_Parser>, decltype(&XML_ParserFree)> parser(XML_ParserCreate(nullptr),
                                                                                            &XML_ParserFree);
  if (!parser) return failure("There is not enough memory to read the workbook.");
  Reading reading{events, parser.get()};
  XML_SetUserData(parser.get(), &reading);
  XML_SetElementHandler(parser.get(), onStart, onEnd);
  XML_SetCharacterDataHandler(parser.get(), onText);
  XML_SetStartDoctypeDeclHandler(parser.get(), onDoctype);
  const double size = static_cast<double>(archive.sizeOf(part)) + 1;
  double done = 0;
  return archive.read(part, [&](std::string_view piece, bool last) -> Result<void> {
    if (events.goOn && !events.goOn(done / size)) return failure("Stopped: nothing was imported.");
    done += static_cast<double>(piece.size());
    if (XML_Parse(parser.get(), piece.data(), static_cast<int>(piece.size()), last ? 1 : 0) == XML_STATUS_OK) return {};
    const std::string what = reading.refused ? reading.refused : "is damaged";
    return failure("The part “" + std::string(part) + "” of the workbook " + what + ": export it again.");
  });
}

}  // namespace ductwright::exchange
