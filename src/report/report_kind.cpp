#include <algorithm>
#include <array>

#include "report/report.h"

namespace ductwright::report {
namespace {

constexpr std::array<std::string_view, 4> kKinds{"commissioning", "unit", "deficiencies", "turnover"};

bool endsWith(std::string_view path, std::string_view ending) {
  return path.size() > ending.size() && fleet::foldedWord(path.substr(path.size() - ending.size())) == ending;
}

}  // namespace

std::string_view name(ReportKind kind) { return kKinds[static_cast<std::size_t>(kind)]; }

std::optional<ReportKind> kindNamed(std::string_view word) {
  const auto at = std::find(kKinds.begin(), kKinds.end(), word);
  if (at == kKinds.end()) return std::nullopt;
  return static_cast<ReportKind>(at - kKinds.begin());
}

std::optional<Format> formatOf(std::string_view path) {
  if (endsWith(path, ".pdf")) return Format::pdf;
  if (endsWith(path, ".xlsx")) return Format::xlsx;
  if (endsWith(path, ".csv")) return Format::csv;
  return std::nullopt;
}

}  // namespace ductwright::report
