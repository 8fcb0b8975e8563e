#pragma once

#include <functional>
#include <optional>
#include <string_view>

#include "archive.h"
#include "quantity/result.h"

namespace ductwright::exchange {

// The attributes of an element; names without their namespace prefix.
class XmlAttributes {
 public:
  explicit XmlAttributes(const char** list) : m_list(list) {}
  [[nodiscard]] std::optional<std::string_view> find(std::string_view name) const;
  [[nodiscard]] std::string_view text(std::string_view name) const { return find(name).value_or(std::string_view{}); }

 private:
  const char** m_list;
};

// What a reader of XML is told; names without their namespace prefix. Any of them may be empty.
struct XmlEvents {
  std::function<void(std::string_view name, const XmlAttributes&)> start;
  std::function<void(std::string_view name)> end;
  std::function<void(std::string_view text)> text;
  std::function<bool(double share)> goOn;  // asked now and then, with the share that was read; false stops
};

// Reads a part of a workbook as XML; false when there is no such part. Document type declarations, entities and nesting
// deeper than 100 are refused.
Result<bool> readXml(const Archive& archive, std::string_view part, const XmlEvents& events);

}  // namespace ductwright::exchange
