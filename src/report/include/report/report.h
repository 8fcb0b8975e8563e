#pragma once

#include <functional>
#include <optional>
#include <stop_token>
#include <string>
#include <string_view>

#include "fleet/record.h"
#include "quantity/result.h"
#include "verdict/judge.h"

namespace ductwright::report {

enum class ReportKind : std::uint8_t { commissioning, unit, deficiencies, turnover };
enum class Format : std::uint8_t { pdf, xlsx, csv };

std::string_view name(ReportKind);  // as on the command line
std::optional<ReportKind> kindNamed(std::string_view name);
std::optional<Format> formatOf(std::string_view path);  // by the file's ending

// What a report says beside the project's own records. No clock is read: the same options and the same project
// give the same file, byte for byte.
struct ReportOptions {
  std::string title;              // empty: the kind's own
  fleet::Timestamp at;            // printed on each page; also the file's creation date
  std::string unit;               // the tag, for ReportKind::unit
  std::string digest;             // hex, of the state reported on: printed on each page; empty: none
  std::string preparedBy;         // who hands the report over; empty: not named
};

// The share done, 0 to 1, from the calling thread.
using Progress = std::function<void(double share)>;

// Writes a report. The file appears whole or not at all: it is made beside its place and then renamed; after a
// failure or a cancel nothing is left. A PDF needs a QApplication (offscreen will do) and its thread; XLSX and
// CSV need none. Fails where the unit is unknown, the file cannot be written, or the work was cancelled.
Result<void> writeReport(ReportKind kind, Format format, const fleet::Snapshot& project,
                         const verdict::FleetVerdict& verdicts, const ReportOptions& options, const std::string& path,
                         const Progress& progress = {}, std::stop_token stop = {});

}  // namespace ductwright::report
