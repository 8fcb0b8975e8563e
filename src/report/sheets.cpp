#include "report/sheets.h"

#include <cmath>

#include "accuracy_words.h"
#include "as_left.h"
#include "words.h"

namespace ductwright::report {
namespace {

using exchange::ColumnKind;
using exchange::Sheet;
using exchange::SheetColumn;
using exchange::SheetRow;
using exchange::SheetValue;
using verdict::Check;
using verdict::Criterion;

SheetValue text(std::string_view words) { return words.empty() ? SheetValue{} : SheetValue{std::string(words)}; }

SheetValue number(const std::optional<double>& value) { return value ? SheetValue{*value} : SheetValue{}; }

// A quantity in a unit; nothing where there is none.
SheetValue number(double si, const quantity::Unit& unit) {
  return std::isfinite(si) ? SheetValue{quantity::fromSi(si, unit)} : SheetValue{};
}

SheetValue moment(const std::optional<fleet::Timestamp>& at) { return at ? SheetValue{*at} : SheetValue{}; }

SheetValue day(const std::optional<fleet::Day>& at) { return at ? SheetValue{*at} : SheetValue{}; }

SheetColumn words(std::string header) { return {std::move(header)}; }

SheetColumn numbers(std::string header, std::string unit = {}, int decimals = -1) {
  return {std::move(header), std::move(unit), ColumnKind::number, decimals};
}

std::string headerOf(Criterion criterion) { return std::string(name(criterion)); }

std::string placeOf(const fleet::Snapshot& project, fleet::UnitId id, std::string fleet::Unit::*member) {
  const fleet::UnitRecord* record = project.unit(id);
  return record ? record->unit.*member : "";
}

}  // namespace

Sheet resultSheet(const fleet::Snapshot& project, const verdict::FleetVerdict& verdicts) {
  Sheet sheet{"Results",
              {words("unit"), words("building"), words("floor"), words("zone"), words("air handler"), words("kind"),
               words("result"), numbers("score", "", 1)},
              {}};
  for (const Criterion criterion : {Criterion::airflow, Criterion::reheatLockout, Criterion::dischargeRise}) {
    sheet.columns.push_back(words(headerOf(criterion)));
    sheet.columns.push_back(numbers(headerOf(criterion) + " score", "", 1));
  }
  sheet.columns.push_back(words("because"));
  for (std::size_t i = 0; i < project.units.size(); ++i) {
    const fleet::Unit& unit = project.units[i]->unit;
    const verdict::UnitVerdict& judged = *verdicts.units[i];
    SheetRow row{text(unit.tag), text(unit.building), text(unit.floor), text(unit.zone), text(unit.airHandler),
                 text(name(unit.kind)), text(name(judged.outcome)), number(judged.score)};
    for (const verdict::CriterionVerdict& of : judged.criteria) {
      row.push_back(text(name(of.outcome)));
      row.push_back(number(of.score));
    }
    row.push_back(text(reasonOf(judged, project.system)));
    sheet.rows.push_back(std::move(row));
  }
  return sheet;
}

Sheet checkSheet(const fleet::Snapshot& project, const verdict::FleetVerdict& verdicts) {
  Sheet sheet{"Checks",
              {words("unit"), words("criterion"), words("check"), words("step"), words("result"), words("close"),
               numbers("measured"), numbers("expected"), numbers("low"), numbers("high"),
               numbers("expanded uncertainty"), words("unit of measure"), numbers("conformity", "%", 1),
               words("because"), words("in words")},
              {}};
  for (std::size_t i = 0; i < project.units.size(); ++i) {
    for (const Check& check : verdicts.units[i]->checks) {
      const quantity::Unit& unit = quantity::unitFor(check.dimension, project.system);
      // An uncertainty is a difference: of a temperature in kelvins, not from absolute zero.
      const quantity::Unit& wide = check.dimension == quantity::Dimension::temperature
                                       ? quantity::unitFor(quantity::Dimension::temperatureDifference, project.system)
                                       : unit;
      sheet.rows.push_back({text(project.units[i]->unit.tag), text(name(check.criterion)), text(name(check.kind)),
                            text(fleet::stepName(check.procedure, check.step)), text(name(check.outcome)),
                            text(check.close ? "close" : ""), number(check.measured, unit),
                            number(check.expected, unit), number(check.low, unit), number(check.high, unit),
                            number(2 * check.u, wide), text(unit.symbol),
                            std::isfinite(check.conformity) ? SheetValue{100 * check.conformity} : SheetValue{},
                            text(because(check)), text(sentence(check, project.system))});
    }
  }
  return sheet;
}

Sheet deficiencySheet(const fleet::Snapshot& project) {
  Sheet sheet{"Deficiencies",
              {numbers("number", "", 0), words("unit"), words("floor"), words("zone"), words("air handler"),
               words("severity"), words("who mends it"), words("state"), words("what is wrong"),
               words("what should be, what is"), words("what closes it"),
               {.header = "raised at", .unit = {}, .kind = ColumnKind::time, .decimals = -1},
               {.header = "last change", .unit = {}, .kind = ColumnKind::time, .decimals = -1},
               words("by"), words("last note"), words("reply"), words("date of reply")},
              {}};
  for (const fleet::Deficiency& d : project.deficiencies) {
    const fleet::UnitRecord* record = project.unit(d.unit);
    const bool moved = !d.moves.empty();
    sheet.rows.push_back({static_cast<double>(d.number), text(record ? record->unit.tag : ""),
                          text(placeOf(project, d.unit, &fleet::Unit::floor)),
                          text(placeOf(project, d.unit, &fleet::Unit::zone)),
                          text(placeOf(project, d.unit, &fleet::Unit::airHandler)), text(name(d.severity)),
                          text(name(d.party)), text(name(d.state())), text(d.title), text(d.evidence), text(d.closes),
                          moved ? SheetValue{d.moves.front().at} : SheetValue{},
                          moved ? SheetValue{d.moves.back().at} : SheetValue{}, text(moved ? d.moves.back().by : ""),
                          text(moved ? d.moves.back().note : ""), SheetValue{}, SheetValue{}});
  }
  return sheet;
}

Sheet turnoverSheet(const fleet::Snapshot& project, const verdict::FleetVerdict& verdicts) {
  Sheet sheet{"As left", {words("unit"), words("floor"), words("zone"), words("air handler"), words("kind"),
                          words("result"), words("controller profile"), words("network segment"),
                          numbers("mac address", "", 0), numbers("device instance", "", 0)}, {}};
  for (const AsLeft& left : asLeft({})) {
    const quantity::Unit& unit = quantity::unitFor(left.dimension, project.system);
    sheet.columns.push_back(numbers(std::string(left.setting), std::string(unit.symbol), unit.decimals));
  }
  sheet.columns.push_back(words("read from the controller"));
  sheet.columns.push_back(words("differs from the schedule"));
  for (std::size_t i = 0; i < project.units.size(); ++i) {
    const fleet::UnitRecord& record = *project.units[i];
    const fleet::Unit& unit = record.unit;
    SheetRow row{text(unit.tag), text(unit.floor), text(unit.zone), text(unit.airHandler), text(name(unit.kind)),
                 text(name(verdicts.units[i]->outcome)), text(unit.profile), text(unit.segment),
                 unit.macAddress ? SheetValue{static_cast<double>(*unit.macAddress)} : SheetValue{},
                 unit.deviceInstance ? SheetValue{static_cast<double>(*unit.deviceInstance)} : SheetValue{}};
    std::string read, differs;
    for (const AsLeft& left : asLeft(record)) {
      row.push_back(left.value ? number(*left.value, quantity::unitFor(left.dimension, project.system)) : SheetValue{});
      if (left.read) read += (read.empty() ? "" : ", ") + std::string(left.setting);
    }
    for (const std::string_view setting : differing(record)) differs += (differs.empty() ? "" : ", ") + std::string(setting);
    row.push_back(text(read));
    row.push_back(text(differs));
    sheet.rows.push_back(std::move(row));
  }
  return sheet;
}

Sheet instrumentSheet(const fleet::Snapshot& project, fleet::Day today) {
  Sheet sheet{"Instruments",
              {words("serial"), words("description"), words("accuracy"),
               {.header = "calibrated on", .unit = {}, .kind = ColumnKind::date, .decimals = -1},
               {.header = "calibration due", .unit = {}, .kind = ColumnKind::date, .decimals = -1}, words("state"),
               numbers("readings", "", 0)},
              {}};
  const std::vector<std::size_t> uses = readingsByInstrument(project);
  for (std::size_t i = 0; i < project.instruments.size(); ++i) {
    const fleet::Instrument& instrument = project.instruments[i];
    sheet.rows.push_back({text(instrument.serial), text(instrument.description),
                          text(accuracyWords(instrument, project.system)), day(instrument.calibratedOn),
                          day(instrument.calibrationDue), text(calibrationWords(instrument, today)),
                          static_cast<double>(uses[i])});
  }
  return sheet;
}

Sheet signatureSheet(const fleet::Snapshot& project) {
  Sheet sheet{"Signatures",
              {words("unit"), words("person"), words("role"), words("meaning"),
               {.header = "signed at", .unit = {}, .kind = ColumnKind::time, .decimals = -1}, words("digest"),
               words("broken because"),
               {.header = "broken at", .unit = {}, .kind = ColumnKind::time, .decimals = -1}},
              {}};
  for (const auto& record : project.units) {
    for (const fleet::SignOff& s : record->signOffs) {
      sheet.rows.push_back({text(record->unit.tag), text(s.person), text(name(s.role)), text(s.meaning), s.at,
                            text(s.digest), text(s.brokenBecause), moment(s.brokenAt)});
    }
  }
  return sheet;
}

Sheet reviewSheet(const std::vector<verdict::Finding>& findings) {
  Sheet sheet{"Desk review",
              {words("unit"), words("rule"), words("severity"), words("finding"), words("evidence"), words("who mends it")},
              {}};
  for (const verdict::Finding& f : findings) {
    sheet.rows.push_back(
        {text(f.unit), text(f.rule), text(name(f.severity)), text(f.finding), text(f.evidence), text(name(f.party))});
  }
  return sheet;
}

}  // namespace ductwright::report
