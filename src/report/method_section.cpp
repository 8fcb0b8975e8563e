#include "report/commissioning.h"
#include "words.h"

namespace ductwright::report {
namespace {

using fleet::Criteria;
using quantity::Dimension;

std::string percent(double share) { return quantity::write(share, Dimension::ratio, quantity::System::ip); }

Table criteriaTable(const Criteria& c, quantity::System system) {
  const auto words = [&](auto quantity, Dimension dimension) { return quantity::write(quantity.si(), dimension, system); };
  const auto flow = [&](auto q) { return words(q, Dimension::airflow); };
  const auto degrees = [&](auto q) { return words(q, Dimension::temperatureDifference); };
  const auto wait = [&](auto q) { return words(q, Dimension::duration); };
  Table table;
  table.caption = "Acceptance criteria, version " + std::to_string(c.version);
  table.columns = {{"criterion", 3}, {"value", 3}, {"source", 4}};
  const auto row = [&](const std::string& what, const std::string& value, const std::string& source) {
    table.rows.push_back({{what, {}}, {value, {}}, {source, {}}});
  };
  const std::string practice = "common practice, no source";
  row("measured flow against design", "−" + percent(c.flowLow) + " / +" + percent(c.flowHigh) + ", at least ± " + flow(c.flowFloor), practice);
  row("reported flow against measured", "± " + percent(c.reportedShare) + ", at least ± " + flow(c.reportedFloor), practice);
  row("heat enable ratio, where the schedule gives none", percent(c.heatEnableRatio), practice);
  row("full flow for the lockout", "at least " + percent(1 - c.lockoutFlowTolerance) + " of the reference flow", practice);
  row("discharge rise against expected", "± " + percent(c.riseShare) + ", at least ± " + degrees(c.riseFloor), practice);
  row("discharge limit, where the schedule gives none", degrees(c.limitAboveSetpoint) + " above the zone's heating setpoint", "ASHRAE Guideline 36");
  row("ventilation effectiveness noted above", degrees(c.ventilationNote) + " above the zone's heating setpoint", "ASHRAE Standard 62.1");
  row("rise with the heat off", "± " + degrees(c.coldWhenOff), practice);
  row("decision rule", c.rule == fleet::DecisionRule::guarded ? "guarded acceptance: conformity " + percent(c.guardHigh) + " or more passes, " + percent(c.guardLow) + " or less fails"
                                                              : "simple acceptance; cannot tell where U exceeds " + quantity::writeNumber(c.capabilityRatio, {Dimension::number, "", "", 1, 0, 1}) + " × the half-width and the conformity is between " + percent(c.capabilityLow) + " and " + percent(c.capabilityHigh),
      "JCGM 106:2012, clauses 7 and 8");
  row("accuracy of a reading without an instrument", "flow ± " + percent(c.defaultFlowShare) + ", temperature ± " + degrees(c.defaultTemperature) + ", power ± " + percent(c.defaultPowerShare), practice);
  row("limits of accuracy", "rectangular, u = limit / √3", "JCGM 100:2008 (GUM), 4.3.7");
  row("waits", "flow: stroke time (" + wait(c.strokeUnknown) + " where unknown) + " + wait(c.settle) + "; lockout " + wait(c.lockoutWait) +
                   "; heat on " + wait(c.heatOnWait) + "; heat off " + wait(c.heatOffWaterWait) + " with hot water, " + wait(c.heatOffElectricWait) + " with electric heat",
      practice);
  row("humidity ratio of the air, unless measured", quantity::writeNumber(c.humidityRatio, {Dimension::number, "", "", 1, 0, 3}), practice);
  return table;
}

void addLines(Section& section, const std::string& heading, const std::vector<std::string>& lines) {
  section.blocks.push_back(Heading{heading, Rank::heading, {}, ""});
  for (const std::string& line : lines) section.blocks.push_back(Paragraph{line, Weight::normal});
}

}  // namespace

Section methodSection(const Subject& s) {
  Section section{"Method, sources and cautions", 0, {}};
  section.blocks.push_back(Heading{section.title, Rank::part, {}, ""});
  addLines(section, "How a unit is judged",
           {"Three criteria are judged at each unit: airflow (measured against design, reported against measured), reheat "
            "lockout (heat only with a call and enough air), and discharge-temperature rise (against what the heater or "
            "coil should give, against the discharge limit, and cold when off). A criterion that does not apply counts for nothing.",
            "Every check has a number y, its standard uncertainty u and an interval. Its conformity is the probability that "
            "the true value lies in the interval, p = Φ((H − y)/u) − Φ((L − y)/u). A criterion's score is 100 × the least "
            "conformity of its checks, a unit's score the least of its criteria's: an upper bound on the chance that the unit "
            "conforms. 50 is a coin flip. The uncertainty shown is expanded, U = 2u.",
            "Close: passed or failed with a conformity between " + percent(s.project.criteria.closeLow) + " and " + percent(s.project.criteria.closeHigh) +
            ". Cannot tell: the readings' uncertainty is too large to decide; the remark says what would settle it. Untested: something needed was not recorded, was taken too early, or was voided by a later balance.",
            "A measured flow is compared on the basis of its design (actual, or standard air of 1.204 kg/m³). Air density is that "
            "of the standard atmosphere at the site's elevation and of the air's own temperature."});
  section.blocks.push_back(criteriaTable(s.project.criteria, s.project.system));
  addLines(section, "Sources",
           {"JCGM 106:2012, Evaluation of measurement data: the role of measurement uncertainty in conformity assessment. "
            "JCGM 100:2008, Guide to the expression of uncertainty in measurement (GUM).",
            "ASHRAE Handbook of Fundamentals, psychrometrics (moist-air density and specific heat). ASHRAE Guideline 36 (discharge "
            "limit of terminal units). ASHRAE Standard 62.1 (ventilation effectiveness of warm supply air).",
            "What is marked common practice has no published source and is the project's own choice, printed above."});
  addLines(section, "Cautions",
           {"Electric heaters: never energise one whose airflow is not proven; never prove a high limit by blocking the air unattended.",
            "Live panels: only a qualified person opens a heater's or fan's cabinet, with the permit, protection and lock-out that the site asks for.",
            "Hot water: at 60 to 80 °C (140 to 180 °F) it scalds; look for drips before setting a ladder beneath a coil.",
            "Ladders: on level floor, without over-reaching, with a second person where it is high or over furniture; nobody stands on pipe or duct.",
            "Occupied rooms: warn the people in them, keep excursions of temperature small and short; no test in a patient, laboratory or pressure-critical room without the owner's permission.",
            "Local codes and licensed practice govern. This report states what was read and how it was judged; it does not replace the "
            "judgement of the engineer of record."});
  return section;
}

}  // namespace ductwright::report
