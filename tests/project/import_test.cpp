#include "scenario.h"

namespace ductwright::project {
namespace {

using Importing = Scenario;

TEST_F(Importing, showsWhatAScheduleWouldChangeBeforeItDoes) {
  const auto preview = previewImport(*project, {TableKind::schedule, folder.write("new.csv",
      "unit,floor,kind,air handler,inlet diameter,cooling max flow,cooling min flow\n"
      "1-01,1,cooling only,AH-1,8,450,100\n"
      "1-02,1,cooling only,AH-1,8,500,120\n"
      "1-04,1,cooling only,AH-1,8,300,80\n"), {}, {}});
  ASSERT_TRUE(preview) << preview.error().sentence;
  EXPECT_EQ(preview->added, 1U);
  EXPECT_EQ(preview->changed, 1U);
  EXPECT_EQ(preview->unchanged, 1U);
  EXPECT_EQ(preview->dropped, 1U);
  EXPECT_EQ(project->state().snapshot->units.size(), 3U);
  expectOk(project->import(*preview, {}, {}, {}));
  EXPECT_EQ(project->state().snapshot->units.size(), 4U) << "a unit that the file lacks is kept";
}

TEST_F(Importing, neverDropsReadingsWhenTheScheduleComesAgain) {
  provePassing("1-01", "400", "100");
  take(TableKind::schedule, kSchedule);
  EXPECT_EQ(unit("1-01").readings.size(), 2U);
}

TEST_F(Importing, takesNothingWhenARowIsBadUnlessAsked) {
  const std::string csv = "unit,procedure,step,quantity,value\n"
                          "1-01,airflow,cooling max,measured flow,400\n"
                          "9-99,airflow,cooling max,measured flow,400\n";
  auto preview = previewImport(*project, {TableKind::readings, folder.write("r.csv", csv), {}, {}});
  ASSERT_TRUE(preview);
  EXPECT_EQ(preview->good, 1U);
  ASSERT_FALSE(preview->problems.empty());
  EXPECT_EQ(preview->problems[0].row, 3U);
  EXPECT_FALSE(project->import(*preview, {}, {}, {}));
  EXPECT_TRUE(unit("1-01").readings.empty());
  preview->onlyGoodRows = true;
  expectOk(project->import(*preview, {}, {}, {}));
  EXPECT_EQ(unit("1-01").readings.size(), 1U);
}

TEST_F(Importing, theSameReadingsTwiceAddNothing) {
  const std::string csv = "unit,procedure,step,quantity,value,taken at\n"
                          "1-01,airflow,cooling max,measured flow,400,2026-03-04T10:15:00+00:00\n";
  take(TableKind::readings, csv);
  take(TableKind::readings, csv);
  EXPECT_EQ(unit("1-01").readings.size(), 1U);
}

TEST_F(Importing, cancelledLeavesTheProjectAsItWas) {
  std::string csv = "unit,procedure,step,quantity,value\n";
  for (int i = 0; i < 20'000; ++i) csv += "1-01,airflow,cooling max,measured flow," + std::to_string(300 + i % 200) + "\n";
  const auto preview = previewImport(*project, {TableKind::readings, folder.write("r.csv", csv), {}, {}});
  ASSERT_TRUE(preview);
  std::stop_source stop;
  const auto outcome = project->import(*preview, {}, [&](double) { stop.request_stop(); }, stop.get_token());
  EXPECT_FALSE(outcome);
  EXPECT_TRUE(unit("1-01").readings.empty());
  EXPECT_TRUE(project->verify()->sound);
}

TEST_F(Importing, saysWhichColumnIsMissing) {
  const auto preview = previewImport(*project, {TableKind::schedule, folder.write("s.csv", "unit,floor\n1-01,1\n"), {}, {}});
  ASSERT_TRUE(preview);
  EXPECT_NE(std::find(preview->missing.begin(), preview->missing.end(), "kind"), preview->missing.end());
  EXPECT_FALSE(project->import(*preview, {}, {}, {}));
}

TEST_F(Importing, takesNothingWhereTheWholeFileIsAtFault) {
  for (const char* file : {"serial,quantity,percent of reading [furlong]\nINV-9,flow,3\n", "serial,quantity,percent of reading\n"}) {
    auto preview = previewImport(*project, {TableKind::instruments, folder.write("in.csv", file), {}, {}});
    expectOk(preview);
    EXPECT_TRUE(preview->blocked);
    preview->onlyGoodRows = true;
    EXPECT_FALSE(project->import(*preview, {}, {}, {}));
  }
  EXPECT_TRUE(project->state().snapshot->instruments.empty());
}

TEST_F(Importing, saysHowTheFileWasUnderstood) {
  const auto preview = previewImport(*project, {TableKind::schedule, folder.write("in.csv", kSchedule), {}, {}});
  expectOk(preview);
  EXPECT_EQ(preview->recognised, "CSV, UTF-8, comma, decimal point");
}

TEST_F(Importing, comparesSettingsAsFoundWithTheSchedule) {
  const auto preview = previewImport(*project, {TableKind::settings,
      folder.write("f.csv", "unit,setting,value\n1-01,cooling max flow,500\n1-02,cooling max flow,500\n"), {}, {}});
  ASSERT_TRUE(preview);
  ASSERT_EQ(preview->changes.size(), 1U);
  EXPECT_EQ(preview->changes[0].subject, "1-01");
  expectOk(project->import(*preview, {}, {}, {}));
  EXPECT_EQ(unit("1-01").settings.size(), 1U);
}

}  // namespace
}  // namespace ductwright::project
