#pragma once

#include "report/content.h"
#include "report/report.h"
#include "verdict/patterns.h"

// What the reports say. Each function makes one section from the project and its verdicts.
namespace ductwright::report {

// What a section speaks about.
struct Subject {
  const fleet::Snapshot& project;
  const verdict::FleetVerdict& verdicts;
  const ReportOptions& options;
};

// What page one recommends, with the one reason that decides it.
struct Recommendation {
  enum class Advice : std::uint8_t { accept, acceptWithConditions, doNotAccept } advice = Advice::doNotAccept;
  std::string reason;
};
std::string_view name(Recommendation::Advice);

// Do not accept while a safety deficiency is open or a unit fails; accept with conditions while a unit is
// undecided or untested, or a deficiency is open; else accept.
Recommendation recommend(const fleet::Snapshot& project, const verdict::FleetVerdict& verdicts);

// What the judged units prove of the whole fleet: with 95 % confidence at most so many are non-conforming, by the
// hypergeometric distribution. Holds for a sample drawn at random.
std::string sampleWords(const verdict::FleetCounts& counts);

Section ownerSection(const Subject& subject);
Section fleetSection(const Subject& subject);
Section exceptionSection(const Subject& subject);
Section unitSection(const Subject& subject, std::size_t unit);
Section deficiencySection(const Subject& subject);
Section instrumentSection(const Subject& subject);
Section signatureSection(const Subject& subject);
Section reviewSection(const Subject& subject);
Section methodSection(const Subject& subject);
Section turnoverSection(const Subject& subject);

// The whole report of a kind. `subject` must outlive it.
Document documentOf(ReportKind kind, const Subject& subject);

}  // namespace ductwright::report
