#include "open_deficiencies.h"
#include "report/commissioning.h"

namespace ductwright::report {
namespace {

std::string evidenceWords(const fleet::Deficiency& d) {
  return d.title + (d.evidence.empty() ? "" : ". " + d.evidence);
}

std::string stateWords(const fleet::Deficiency& d) {
  std::string words(name(d.state()));
  if (d.moves.empty()) return words;
  const fleet::DeficiencyMove& last = d.moves.back();
  words += ", " + last.at.shortText();
  if (!last.by.empty()) words += ", " + last.by;
  if (!last.note.empty()) words += ": " + last.note;
  return words;
}

Table deficiencyTable(const Subject& s, bool open) {
  Table table;
  table.caption = open ? "Open" : "Closed: proven by a retest, or withdrawn";
  table.columns = {{"No.", 0.5, Align::right}, {"where", 1.4}, {"severity", 0.8}, {"what is wrong; what should be, what is", 3.4},
                   {"what closes it", 1.9}, {"who mends it", 1.2}, {"state", 1.6}};
  table.empty = open ? "No deficiency is open." : "No deficiency is closed.";
  std::vector<const fleet::Deficiency*> list;
  if (open) {
    list = openDeficiencies(s.project);
  } else {
    for (const auto& d : s.project.deficiencies) {
      if (!isOpen(d)) list.push_back(&d);
    }
  }
  for (const fleet::Deficiency* d : list) {
    table.rows.push_back({{std::to_string(d->number), {}}, {placeOf(*d, s.project), {}}, {std::string(name(d->severity)), {}},
                          {evidenceWords(*d), {}}, {d->closes, {}}, {std::string(name(d->party)), {}}, {stateWords(*d), {}}});
  }
  return table;
}

}  // namespace

Section deficiencySection(const Subject& s) {
  Section section{"Deficiencies", 0, {}};
  section.blocks = {Heading{section.title, Rank::part, {}, ""},
                    Paragraph{"A deficiency is closed by the reading that proves it mended, never by a reply alone.", Weight::normal},
                    deficiencyTable(s, true), deficiencyTable(s, false)};
  return section;
}

}  // namespace ductwright::report
