#include <gmock/gmock.h>

#include <regex>
#include <sstream>

#include "invented_fleet.h"
#include "pdf_reading.h"
#include "qt_fixture.h"
#include "report/report.h"
#include "scratch_folder.h"

namespace ductwright::report {
namespace {

using testing::HasSubstr;
using testing::Not;

struct PdfReport : QtFixture {
  std::string write(ReportKind kind = ReportKind::commissioning, const std::string& name = "report.pdf") {
    const std::string path = folder.file(name);
    const auto done = writeReport(kind, Format::pdf, project, verdicts, options, path);
    EXPECT_TRUE(done) << done.error().sentence;
    return path;
  }
  void take(fleet::Snapshot other) {
    project = std::move(other);
    verdicts = verdict::judgeFleet(project, 1);
  }
  static std::string joined(const std::vector<std::string>& pages) {
    std::string all;
    for (const std::string& page : pages) all += page;
    return all;
  }
  static std::size_t pageOf(const std::vector<std::string>& pages, const std::string& text) {
    for (std::size_t i = 0; i < pages.size(); ++i) {
      if (pages[i].find(text) != std::string::npos) return i;
    }
    return pages.size();
  }

  ScratchFolder folder;
  fleet::Snapshot project = inventedFleet(24);
  verdict::FleetVerdict verdicts = verdict::judgeFleet(project, 1);
  ReportOptions options{.title = "", .at = *fleet::Timestamp::fromText("2026-05-04T16:30:00+02:00"), .unit = "T-1-4",
                        .digest = std::string(32, 'c') + std::string(32, '7'), .preparedBy = "M. Invented, Invented Agents"};
};

TEST_F(PdfReport, PageOneSaysWhetherTheBuildingIsProvenAndWhy) {
  const std::string page = pageTexts(write()).at(0);
  EXPECT_THAT(page, HasSubstr("Do not accept"));
  EXPECT_THAT(page, HasSubstr("1 safety deficiency is open."));
  EXPECT_THAT(page, HasSubstr("fail " + std::to_string(verdicts.counts.fail)));
  EXPECT_THAT(page, HasSubstr("pass " + std::to_string(verdicts.counts.pass)));
  EXPECT_THAT(page, HasSubstr("untested " + std::to_string(verdicts.counts.untested)));
  EXPECT_THAT(page, HasSubstr("Heater on with too little air"));
  EXPECT_THAT(page, HasSubstr("TH-12"));  // the overdue thermometer
  EXPECT_THAT(page, HasSubstr("M. Invented"));
}

TEST_F(PdfReport, EveryPageHasItsNumberProjectDateAndDigest) {
  const auto pages = pageTexts(write());
  ASSERT_GT(pages.size(), 24U);
  for (std::size_t i = 0; i < pages.size(); ++i) {
    EXPECT_THAT(pages[i], HasSubstr("page " + std::to_string(i + 1) + " of " + std::to_string(pages.size())));
    EXPECT_THAT(pages[i], HasSubstr(project.projectName));
    EXPECT_THAT(pages[i], HasSubstr("2026-05-04"));
    EXPECT_THAT(pages[i], HasSubstr(options.digest));
  }
}

TEST_F(PdfReport, EachUnitHasItsPageWithItsResultScoreAndChecks) {
  const auto pages = pageTexts(write());
  const auto outline = outlineOf(folder.file("report.pdf"));
  for (std::size_t i = 0; i < project.units.size(); ++i) {
    const std::string& tag = project.units[i]->unit.tag;
    const auto entry = std::find_if(outline.begin(), outline.end(), [&](const OutlineEntry& e) { return e.title == tag; });
    ASSERT_NE(entry, outline.end()) << tag;
    EXPECT_EQ(entry->level, 1);
    const std::string& page = pages.at(entry->page);
    EXPECT_THAT(page, HasSubstr(tag));
    const verdict::UnitVerdict& judged = *verdicts.units[i];
    EXPECT_THAT(page, HasSubstr(std::string(name(judged.outcome))));
    for (const verdict::Check& check : judged.checks) {
      EXPECT_THAT(page, HasSubstr(std::string(name(check.kind))));
      if (!std::isfinite(check.measured)) continue;
      // A difference is told as what was reported or risen.
      const bool difference = check.kind == verdict::CheckKind::reportedAgainstMeasured || check.kind == verdict::CheckKind::rise;
      const double told = check.measured + (difference ? check.expected : 0);
      EXPECT_THAT(page, HasSubstr(quantity::write(told, check.dimension, project.system)));
      if (check.dimension == quantity::Dimension::temperature) continue;
      EXPECT_THAT(page, HasSubstr(quantity::write(2 * check.u, check.dimension, project.system)));
    }
    EXPECT_THAT(page, HasSubstr("Airflow against design"));
  }
}

TEST_F(PdfReport, OutlineLeadsToEachPart) {
  const auto pages = pageTexts(write());
  const auto outline = outlineOf(folder.file("report.pdf"));
  for (const char* part : {"The fleet at a glance", "Exceptions", "Deficiencies", "Instruments", "Signatures",
                           "Desk review of the schedule", "Method, sources and cautions"}) {
    const auto entry = std::find_if(outline.begin(), outline.end(), [&](const OutlineEntry& e) { return e.title == part; });
    ASSERT_NE(entry, outline.end()) << part;
    EXPECT_EQ(entry->level, 0);
    EXPECT_THAT(pages.at(entry->page), HasSubstr(part));
  }
}

TEST_F(PdfReport, TextComesOutAsItWentIn) {
  const std::string all = joined(pageTexts(write()));
  for (const char* text : {"flow", "specific heat", "°F", "±", "√3", "Φ"}) EXPECT_THAT(all, HasSubstr(text));
  EXPECT_THAT(all, Not(HasSubstr("\xEF\xAC\x82")));  // the ligature fl
  EXPECT_THAT(all, Not(HasSubstr("\xEF\xAC\x81")));  // the ligature fi
}

TEST_F(PdfReport, FontsAreEmbedded) {
  const std::string fonts = fontsOf(write());
  std::istringstream lines(fonts);
  std::string line;
  std::size_t count = 0;
  for (int row = 0; std::getline(lines, line); ++row) {
    if (row < 2) continue;
    ++count;
    EXPECT_TRUE(std::regex_search(line, std::regex("TrueType\\s+Identity-H\\s+yes"))) << line;
  }
  EXPECT_GE(count, 2U);
}

TEST_F(PdfReport, TitleAndDateOfCreationAreThoseGiven) {
  options.title = "Invented title";
  const std::string information = informationOf(write());
  EXPECT_THAT(information, HasSubstr("Invented title"));
  EXPECT_THAT(information, HasSubstr("2026-05-04T16:30:00+02"));
}

TEST_F(PdfReport, IsLetterInInchPoundAndA4InSi) {
  EXPECT_THAT(informationOf(write()), HasSubstr("612 x 792 pts (letter)"));
  take(inventedFleet(8, quantity::System::si));
  EXPECT_THAT(informationOf(write()), HasSubstr("595 x 842 pts (A4)"));
}

TEST_F(PdfReport, AnSiProjectIsWrittenInSi) {
  take(inventedFleet(4, quantity::System::si));
  const auto pages = pageTexts(write());
  EXPECT_THAT(joined(pages), HasSubstr("L/s"));
  EXPECT_THAT(joined(pages), Not(HasSubstr(" cfm")));
}

TEST_F(PdfReport, TheSameProjectGivesTheSameBytes) {
  EXPECT_EQ(bytesOf(write(ReportKind::commissioning, "a.pdf")), bytesOf(write(ReportKind::commissioning, "b.pdf")));
}

TEST_F(PdfReport, OneUnitAloneHasItsOwnReport) {
  const auto pages = pageTexts(write(ReportKind::unit));
  EXPECT_THAT(pages.at(0), HasSubstr("T-1-4"));
  EXPECT_THAT(joined(pages), Not(HasSubstr("T-1-5")));
  EXPECT_THAT(pages.at(0), HasSubstr("page 1 of " + std::to_string(pages.size())));
}

TEST_F(PdfReport, AnUnknownUnitIsASentence) {
  options.unit = "no such unit";
  const auto done = writeReport(ReportKind::unit, Format::pdf, project, verdicts, options, folder.file("x.pdf"));
  ASSERT_FALSE(done);
  EXPECT_THAT(done.error().sentence, HasSubstr("no such unit"));
  EXPECT_EQ(folder.files(), 0U);
}

TEST_F(PdfReport, DeficienciesSayWhatClosesThem) {
  const std::string all = joined(pageTexts(write(ReportKind::deficiencies)));
  EXPECT_THAT(all, HasSubstr("Short of air at cooling max"));
  EXPECT_THAT(all, HasSubstr("what closes it"));
}

TEST_F(PdfReport, TurnoverHasTheSetpoints) {
  const std::string all = joined(pageTexts(write(ReportKind::turnover)));
  EXPECT_THAT(all, HasSubstr(quantity::writeNumber(project.units[0]->unit.coolingMax->si(), quantity::unitFor(quantity::Dimension::airflow, project.system))));
  EXPECT_THAT(all, HasSubstr("T-1-24"));
}

TEST_F(PdfReport, CancellingLeavesNothing) {
  std::stop_source stop;
  std::size_t calls = 0;
  const auto done = writeReport(ReportKind::commissioning, Format::pdf, project, verdicts, options, folder.file("x.pdf"),
                                [&](double share) {
                                  ++calls;
                                  if (share > 0.5) stop.request_stop();
                                }, stop.get_token());
  ASSERT_FALSE(done);
  EXPECT_GT(calls, 10U);
  EXPECT_EQ(folder.files(), 0U);
}

TEST_F(PdfReport, CancellingKeepsTheReportThatWasThere) {
  const std::string before = bytesOf(write());
  std::stop_source stop;
  stop.request_stop();
  EXPECT_FALSE(writeReport(ReportKind::commissioning, Format::pdf, project, verdicts, options, folder.file("report.pdf"), {}, stop.get_token()));
  EXPECT_EQ(bytesOf(folder.file("report.pdf")), before);
}

TEST_F(PdfReport, AFolderThatIsNotThereIsASentence) {
  const auto done = writeReport(ReportKind::commissioning, Format::pdf, project, verdicts, options, folder.file("no/such/x.pdf"));
  ASSERT_FALSE(done);
  EXPECT_THAT(done.error().sentence, HasSubstr("cannot be written"));
}

TEST_F(PdfReport, ProgressOnlyGrowsAndEndsAtOne) {
  double last = 0;
  ASSERT_TRUE(writeReport(ReportKind::commissioning, Format::pdf, project, verdicts, options, folder.file("x.pdf"), [&](double share) {
    EXPECT_GE(share, last);
    last = share;
  }));
  EXPECT_DOUBLE_EQ(last, 1);
}

TEST_F(PdfReport, AnEmptyScheduleStillGivesAReport) {
  take(inventedFleet(0));
  EXPECT_THAT(pageTexts(write()).at(0), HasSubstr("nothing is proven"));
}

}  // namespace
}  // namespace ductwright::report
