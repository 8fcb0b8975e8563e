#pragma once

#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "store/project_file.h"

// What the store's tests share: a folder of their own, a clock and ids that repeat, and an invented project.
namespace ductwright::store::testing {

inline const Action kAct{"Do it", "A. Invented", fleet::Role::agent, ""};

// The clock goes on by one second a call; the random bytes come from a counter.
inline Environment fixedEnvironment(std::string device = "invented laptop", std::uint64_t seed = 1) {
  Environment out;
  out.now = [t = std::make_shared<std::int64_t>(1'790'000'000'000)] {
    return fleet::Timestamp{*t += 1000, 60};
  };
  out.random = [state = std::make_shared<std::uint64_t>(seed)](std::span<std::uint8_t> bytes) {
    for (std::uint8_t& byte : bytes) {
      *state = *state * 6364136223846793005ULL + 1442695040888963407ULL;
      byte = static_cast<std::uint8_t>(*state >> 56);
    }
  };
  out.device = std::move(device);
  out.patienceMillis = 50;
  return out;
}

class TemporaryFolder {
 public:
  TemporaryFolder() {
    // In memory where the system has it: these tests are not about the disk.
    const std::filesystem::path memory = "/dev/shm";
    const auto root = std::filesystem::is_directory(memory) ? memory : std::filesystem::temp_directory_path();
    std::string pattern = (root / "ductwright-store-XXXXXX").string();
    m_path = ::mkdtemp(pattern.data());
  }
  ~TemporaryFolder() { std::filesystem::remove_all(m_path); }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  [[nodiscard]] std::filesystem::path operator/(const std::string& name) const { return m_path / name; }

 private:
  std::filesystem::path m_path;
};

inline ProjectInfo inventedProject() {
  return {"Invented Tower", quantity::System::ip, quantity::feet(1600)};
}

// A project that must open; the failure's sentence where it does not.
inline std::unique_ptr<ProjectFile> created(const std::filesystem::path& path,
                                            const Environment& environment = fixedEnvironment()) {
  auto made = ProjectFile::create(path, environment, inventedProject(), {"New project", "A. Invented"});
  if (!made) ADD_FAILURE() << made.error().sentence;
  return made ? std::move(*made) : nullptr;
}

inline std::unique_ptr<ProjectFile> reopened(
    const std::filesystem::path& path, Access access = Access::write,
    const Environment& environment = fixedEnvironment("invented laptop", 77)) {
  auto opening = ProjectFile::open(path, environment, access);
  if (opening.project == nullptr) ADD_FAILURE() << opening.sentence;
  return std::move(opening.project);
}

inline Committed committed(ProjectFile& project, const std::string& name,
                           const std::function<void(Writer&)>& write) {
  auto done = project.commit({name, "A. Invented"}, [&](Writer& w) -> Result<void> {
    write(w);
    return {};
  });
  if (!done) ADD_FAILURE() << done.error().sentence;
  return done ? *done : Committed{};
}

inline fleet::Unit inventedUnit(const Environment& environment, std::string tag) {
  fleet::Unit unit;
  unit.id = environment.newId<fleet::Unit>();
  unit.tag = std::move(tag);
  unit.floor = "2";
  unit.airHandler = "AHU-1";
  unit.kind = fleet::UnitKind::reheat;
  unit.heat = fleet::HeatKind::hotWater;
  unit.inletDiameter = quantity::inches(8);
  unit.coolingMax = quantity::cfm(450);
  unit.coolingMin = quantity::cfm(120);
  unit.heaterStages = 2;
  return unit;
}

inline fleet::Reading inventedReading(double cfm, fleet::AirflowStep step = fleet::AirflowStep::coolingMax) {
  fleet::Reading r;
  r.procedure = fleet::Procedure::airflow;
  r.step = fleet::code(step);
  r.quantity = fleet::ReadingQuantity::measuredFlow;
  r.value = quantity::cfm(cfm).si();
  r.takenAt = fleet::Timestamp{1'790'000'123'456, -300};
  r.waited = 90.5F;
  r.typed = fleet::Word(std::to_string(static_cast<int>(cfm)) + " cfm");
  r.instrument = fleet::Word("INV-001");
  r.takenBy = fleet::Word("A. Invented");
  return r;
}

inline fleet::Snapshot loaded(const ProjectFile& project) {
  auto snapshot = project.load();
  if (!snapshot) ADD_FAILURE() << snapshot.error().sentence;
  return snapshot ? *snapshot : fleet::Snapshot{};
}

inline std::string findingsOf(const ProjectFile& project) {
  auto found = project.verify();
  if (!found) return found.error().sentence;
  std::string text;
  for (const Finding& finding : *found) text += finding.where + ": " + finding.sentence + "\n";
  return text;
}

}  // namespace ductwright::store::testing
