#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <stop_token>
#include <string>
#include <vector>

#include "exchange/columns.h"
#include "fleet/record.h"
#include "quantity/result.h"

namespace ductwright::project {

// Called now and then during long work, from the thread that works: the share done, 0 to 1.
using Progress = std::function<void(double share)>;

using exchange::TableKind;
using exchange::name;  // of a table, as on the command line: "air-handlers"

struct ImportRequest {
  TableKind kind = TableKind::schedule;
  std::string path;
  std::string sheet;        // of a workbook; the first where empty
  std::string mapping;      // exchange::Mapping::text(), kept or changed by hand; empty: by synonyms
};

// One column of the file and what it was taken for.
struct MappedColumn {
  std::string header;
  std::string meaning;      // our column's name; empty: not used
  std::string unit;         // that holds where a cell has none
  double confidence = 0;    // 0 to 1
};

struct ImportProblem {
  std::size_t row = 0;      // 1 is the header
  std::string column;
  bool stops = false;       // the row cannot go in
  std::string sentence;     // what was found, what to do
};

// One row's fate, for the preview.
struct ImportChange {
  enum class What : std::uint8_t { added, changed, unchanged, dropped } what = What::added;
  std::size_t row = 0;      // 0 for a dropped record
  std::string subject;      // the unit's tag
  std::vector<std::string> details;  // "cooling max flow: 450 cfm → 500 cfm"
};

// What an import would do. Nothing is written before OpenProject::import takes it.
struct ImportPreview {
  ImportRequest request;
  std::vector<std::string> sheets;
  std::vector<MappedColumn> columns;
  std::vector<std::vector<std::string>> sampleRows;  // the first rows, as text, header first
  std::vector<std::string> missing;                  // required columns that no header matched
  std::vector<ImportProblem> problems;
  std::vector<ImportChange> changes;
  std::size_t rows = 0, good = 0, added = 0, changed = 0, unchanged = 0, dropped = 0;
  std::string recognised;     // how the file was understood: "CSV, UTF-8, semicolon, decimal comma"
  bool blocked = false;       // a problem of the whole file keeps every row out
  bool onlyGoodRows = false;  // set by the person: bad rows stay out, else import refuses
  std::string mapping;        // the mapping in use, exchange::Mapping::text()
  std::shared_ptr<const void> parsed;  // the typed rows
};

struct ImportOutcome {
  std::size_t added = 0, changed = 0, unchanged = 0, skipped = 0;
};

class OpenProject;
// Reads the file and compares it with the project. A file that cannot be read at all is a failure.
Result<ImportPreview> previewImport(const OpenProject&, const ImportRequest&, const Progress& = {}, std::stop_token = {});

}  // namespace ductwright::project
