#include "report/commissioning.h"

namespace ductwright::report {

Section signatureSection(const Subject& s) {
  Table table;
  table.columns = {{"unit", 0.9}, {"person", 1.4}, {"role", 1.3}, {"signed at", 1.2}, {"meaning", 2}, {"state", 1.8}, {"digest of what was signed", 2.6}};
  table.empty = "No unit is signed.";
  for (const auto& record : s.project.units) {
    for (const fleet::SignOff& sign : record->signOffs) {
      const std::string state = sign.brokenBecause.empty() ? "stands" : "broken: " + sign.brokenBecause;
      table.rows.push_back({{record->unit.tag, {}}, {sign.person, {}}, {std::string(name(sign.role)), {}}, {sign.at.shortText(), {}},
                            {sign.meaning, {}}, {state, {}}, {sign.digest, {}}});
    }
  }
  Section section{"Signatures", 0, {}};
  section.blocks = {Heading{section.title, Rank::part, {}, ""},
                    Paragraph{"A change to a signed record shows here as broken. Anyone who has the signer's public key "
                              "can detect a change; the times are those of the signer's own clock.", Weight::normal},
                    std::move(table), SignatureLines{{"Commissioning agent", "Reviewer", "Contractor", "Owner's representative"}}};
  return section;
}

}  // namespace ductwright::report
