#include "report/report.h"

#include "exchange/sheet.h"
#include "paper.h"
#include "pdf_report.h"
#include "report/commissioning.h"
#include "report/sheets.h"
#include "scratch_file.h"

namespace ductwright::report {
namespace {

bool hasUnit(const fleet::Snapshot& project, const std::string& tag) { return project.unit(tag) != nullptr; }

// Only the rows of one unit, by the sheet's first column.
void keepUnit(exchange::Sheet& sheet, const std::string& tag) {
  std::erase_if(sheet.rows, [&](const exchange::SheetRow& row) {
    const auto* text = std::get_if<std::string>(&row[0]);
    return !text || *text != tag;
  });
}

// A workbook's sheets; a CSV file is the first of them.
std::vector<exchange::Sheet> sheetsOf(ReportKind kind, const Subject& s) {
  const fleet::Snapshot& project = s.project;
  const fleet::Day today = fleet::Day::of(s.options.at);
  std::vector<exchange::Sheet> sheets;
  switch (kind) {
    case ReportKind::commissioning:
      sheets = {resultSheet(project, s.verdicts), checkSheet(project, s.verdicts), deficiencySheet(project),
                turnoverSheet(project, s.verdicts), instrumentSheet(project, today), signatureSheet(project),
                reviewSheet(verdict::deskReview(project))};
      break;
    case ReportKind::unit:
      sheets = {checkSheet(project, s.verdicts), resultSheet(project, s.verdicts), turnoverSheet(project, s.verdicts)};
      for (exchange::Sheet& sheet : sheets) keepUnit(sheet, s.options.unit);
      break;
    case ReportKind::deficiencies: sheets = {deficiencySheet(project)}; break;
    case ReportKind::turnover:
      sheets = {turnoverSheet(project, s.verdicts), instrumentSheet(project, today)};
      break;
  }
  return sheets;
}

Result<void> write(ReportKind kind, Format format, const Subject& s, const std::string& path, const Progress& progress,
                   const std::stop_token& stop) {
  switch (format) {
    case Format::pdf:
      return writePdf(documentOf(kind, s), Paper::of(s.project.system), s.options.at, path, progress, stop);
    case Format::xlsx: return exchange::writeXlsx(path, sheetsOf(kind, s));
    case Format::csv: return exchange::writeCsv(path, sheetsOf(kind, s).front());
  }
  return failure("The report's format is not known.");
}

}  // namespace

Result<void> writeReport(ReportKind kind, Format format, const fleet::Snapshot& project,
                         const verdict::FleetVerdict& verdicts, const ReportOptions& options, const std::string& path,
                         const Progress& progress, std::stop_token stop) {
  if (kind == ReportKind::unit && !hasUnit(project, options.unit))
    return failure("The project has no unit “" + options.unit + "”. Give a tag from the schedule.");
  const Subject subject{project, verdicts, options};
  const ScratchFile made(path, ".part");
  if (auto done = write(kind, format, subject, made.path(), progress, stop); !done) return done;
  if (stop.stop_requested()) return failure("The report was cancelled; nothing was written.");
  std::error_code error;
  std::filesystem::rename(made.path(), path, error);
  if (error) return failure("The report cannot be put at “" + path + "”: " + error.message() + ". Choose another folder or name.");
  return {};
}

}  // namespace ductwright::report
