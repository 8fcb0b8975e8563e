#include <sys/wait.h>

#include <gmock/gmock.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <nlohmann/json.hpp>

#include "exchange/table.h"

// The main job on the kept sample, as a person does it: through the command line alone, from the files to the
// results that `planted.csv` promises.
namespace {

namespace fs = std::filesystem;

const fs::path kSample = fs::path(DUCTWRIGHT_SOURCE_DIR) / "sample-projects/fernhollow";

std::string bytesOf(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

class MainJob : public testing::Test {
 protected:
  void SetUp() override {
    std::string pattern = (fs::temp_directory_path() / "ductwright-job-XXXXXX").string();
    folder = mkdtemp(pattern.data());
  }
  void TearDown() override { fs::remove_all(folder); }

  int run(const std::string& words, const std::string& out = "out.txt") const {
    const std::string command =
        std::string(DUCTWRIGHT_CLI) + ' ' + words + " > '" + (folder / out).string() + "'";
    return WEXITSTATUS(std::system(command.c_str()));
  }
  [[nodiscard]] std::string project() const { return "'" + (folder / "sample.ductwright").string() + "'"; }
  void importAll() const {
    ASSERT_EQ(run("create " + project() + " --building Sample --elevation '" +
                  bytesOf(kSample / "ELEVATION") + "'"),
              0);
    const std::pair<const char*, const char*> tables[] = {
        {"profiles", "profiles.csv"},  {"sensors", "sensors.csv"},
        {"segments", "segments.csv"},  {"air-handlers", "air-handlers.csv"},
        {"schedule", "schedule.xlsx"}, {"instruments", "instruments.csv"},
        {"settings", "settings.csv"},  {"readings", "readings.csv"},
    };
    for (const auto& [kind, file] : tables)
      ASSERT_EQ(run(std::string("import ") + kind + ' ' + project() + " '" + (kSample / file).string() + "'"),
                0)
          << file;
  }
  [[nodiscard]] nlohmann::json json(const std::string& command) const {
    EXPECT_EQ(run(command + ' ' + project() + " --format json", "out.json"), 0);
    return nlohmann::json::parse(bytesOf(folder / "out.json"));
  }

  fs::path folder;
};

TEST_F(MainJob, ComesToTheResultsThatArePlanted) {
  importAll();
  std::map<std::string, nlohmann::json> units;
  const auto score = json("score");
  for (const auto& unit : score.at("units")) units[unit.at("unit")] = unit;
  ASSERT_EQ(units.size(), 90U);
  const auto planted = ductwright::exchange::readTable(kSample / "planted.csv");
  ASSERT_TRUE(planted.has_value());
  ASSERT_GT(planted->rows(), 40U);
  const std::map<std::string_view, const char*> keys{
      {"airflow", "airflow"}, {"reheat lockout", "reheat_lockout"}, {"discharge rise", "discharge_rise"}};
  for (std::size_t row = 1; row < planted->rows(); ++row) {
    const std::string unit(planted->text(row, 0));
    const auto& got = units.at(unit).at("criteria").at(keys.at(planted->text(row, 2))).at("result");
    EXPECT_EQ(got.get<std::string>(), planted->text(row, 3)) << unit << ": " << planted->text(row, 1);
  }
}

TEST_F(MainJob, FindsWhatIsPlantedInTheSchedule) {
  importAll();
  ASSERT_EQ(run("review " + project() + " --format csv", "review.csv"), 0);
  const auto planted = ductwright::exchange::readTable(kSample / "planted-in-schedule.csv");
  ASSERT_TRUE(planted.has_value());
  const std::string review = bytesOf(folder / "review.csv");
  for (std::size_t row = 1; row < planted->rows(); ++row) {
    const std::string found =
        '\n' + std::string(planted->text(row, 0)) + ',' + std::string(planted->text(row, 2)) + ',';
    EXPECT_NE(review.find(found), std::string::npos) << planted->text(row, 1);
  }
}

TEST_F(MainJob, ImportingAFileTwiceAddsNothing) {
  importAll();
  const auto once = json("score");
  EXPECT_EQ(run("import readings " + project() + " '" + (kSample / "readings.csv").string() + "'"), 0);
  EXPECT_EQ(run("import schedule " + project() + " '" + (kSample / "schedule.csv").string() + "'"), 0);
  EXPECT_EQ(json("score"), once);
  EXPECT_EQ(run("verify " + project()), 0);
}

}  // namespace
