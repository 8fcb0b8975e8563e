#pragma once

#include <filesystem>
#include <fstream>
#include <memory>
#include <string>

#include <gtest/gtest.h>

#include "project/project.h"

// An invented building of three units, in a folder that goes with the test.
namespace ductwright::project {

class Folder {
 public:
  Folder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "ductwright-test-XXXXXX").string();
    m_path = mkdtemp(pattern.data());
  }
  ~Folder() { std::filesystem::remove_all(m_path); }
  [[nodiscard]] std::string file(const std::string& name) const { return (m_path / name).string(); }
  [[nodiscard]] std::string write(const std::string& name, const std::string& text) const {
    std::ofstream(file(name)) << text;
    return file(name);
  }

 private:
  std::filesystem::path m_path;
};

inline const Author kAgent{"Mara Invented", fleet::Role::agent};
inline const Author kContractor{"Col Invented", fleet::Role::contractor};

inline constexpr const char* kSchedule =
    "unit,floor,kind,air handler,inlet diameter,cooling max flow,cooling min flow\n"
    "1-01,1,cooling only,AH-1,8,400,100\n"
    "1-02,1,cooling only,AH-1,8,500,120\n"
    "1-03,1,cooling only,AH-1,8,450,110\n";

template <class T>
void expectOk(const Result<T>& result) {
  EXPECT_TRUE(result) << (result ? "" : result.error().sentence);
}

class Scenario : public ::testing::Test {
 protected:
  void SetUp() override {
    auto made = OpenProject::create(folder.file("p.ductwright"), {"Invented House", quantity::System::ip, {}}, kAgent);
    ASSERT_TRUE(made) << made.error().sentence;
    project = *std::move(made);
    take(TableKind::schedule, kSchedule);
  }
  Result<ImportOutcome> import(TableKind kind, const std::string& csv, const std::string& reason = {}) {
    const auto preview = previewImport(*project, {kind, folder.write("in.csv", csv), {}, {}});
    if (!preview) return tl::make_unexpected(preview.error());
    return project->import(*preview, reason, {}, {});
  }
  void take(TableKind kind, const std::string& csv) { expectOk(import(kind, csv)); }

  [[nodiscard]] const fleet::UnitRecord& unit(const std::string& tag) {
    held = project->state();
    return *held.snapshot->unit(tag);
  }
  [[nodiscard]] verdict::UnitVerdict verdictOf(const std::string& tag) {
    const State now = project->state();
    for (std::size_t i = 0; i < now.snapshot->units.size(); ++i)
      if (now.snapshot->units[i]->unit.tag == tag) return *now.verdicts->units[i];
    ADD_FAILURE() << tag;
    return {};
  }
  Result<fleet::FactKey> enter(const std::string& tag, fleet::AirflowStep step, const std::string& typed, const std::string& reason = {}) {
    NewReading reading;
    reading.step = fleet::code(step);
    reading.typed = typed;
    reading.waitedSeconds = 600;
    return project->addReading(unit(tag).unit.id, reading, reason);
  }
  void provePassing(const std::string& tag, const std::string& max, const std::string& min) {
    expectOk(enter(tag, fleet::AirflowStep::coolingMax, max));
    expectOk(enter(tag, fleet::AirflowStep::coolingMin, min));
  }
  void reopen() {
    project.reset();
    auto opened = OpenProject::open(folder.file("p.ductwright"), kAgent);
    ASSERT_TRUE(opened) << opened.error().sentence;
    project = *std::move(opened);
  }

  Folder folder;
  std::unique_ptr<OpenProject> project;
  State held;
};

}  // namespace ductwright::project
