#include "accuracy_words.h"
#include "report/commissioning.h"

namespace ductwright::report {

Section instrumentSection(const Subject& s) {
  Table table;
  table.columns = {{"serial", 1.2}, {"description", 2}, {"accuracy (rectangular limits, or U and k of the certificate)", 3.4},
                   {"calibrated on", 1}, {"due", 1}, {"on this report's date", 1.2}, {"readings", 0.8, Align::right}};
  table.empty = "No instrument is recorded; the criteria's default accuracies hold.";
  const fleet::Day today = fleet::Day::of(s.options.at);
  const auto uses = readingsByInstrument(s.project);
  for (std::size_t i = 0; i < s.project.instruments.size(); ++i) {
    const fleet::Instrument& instrument = s.project.instruments[i];
    table.rows.push_back({{instrument.serial, {}}, {instrument.description, {}}, {accuracyWords(instrument, s.project.system), {}},
                          {instrument.calibratedOn ? instrument.calibratedOn->text() : "–", {}},
                          {instrument.calibrationDue ? instrument.calibrationDue->text() : "–", {}},
                          {calibrationWords(instrument, today), {}}, {std::to_string(uses[i]), {}}});
  }
  Section section{"Instruments", 0, {}};
  section.blocks = {Heading{section.title, Rank::part, {}, ""}, std::move(table)};
  return section;
}

}  // namespace ductwright::report
