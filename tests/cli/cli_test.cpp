#include <sys/wait.h>

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string>

#include <gtest/gtest.h>

// The command line as another program sees it: words, exit codes, JSON.
namespace {

struct Ran {
  int exit = -1;
  std::string out, err;
};

std::string contents(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

class CommandLine : public ::testing::Test {
 protected:
  void SetUp() override {
    std::string pattern = (std::filesystem::temp_directory_path() / "ductwright-cli-XXXXXX").string();
    folder = mkdtemp(pattern.data());
    project = (folder / "house.ductwright").string();
  }
  void TearDown() override { std::filesystem::remove_all(folder); }

  [[nodiscard]] Ran run(const std::string& words) const {
    const auto out = folder / "out.txt", err = folder / "err.txt";
    const std::string command = std::string(DUCTWRIGHT_CLI) + " " + words + " >" + out.string() + " 2>" + err.string();
    const int status = std::system(command.c_str());
    return {WEXITSTATUS(status), contents(out), contents(err)};
  }
  std::string write(const std::string& name, const std::string& text) const {
    std::ofstream(folder / name, std::ios::binary) << text;
    return (folder / name).string();
  }
  void create() const { ASSERT_EQ(run("create " + project + " --building 'Invented House' --units ip").exit, 0); }
  void createWithUnits() const {
    create();
    const auto file = write("s.csv",
                            "unit,floor,kind,air handler,inlet diameter,cooling max flow,cooling min flow\n"
                            "1-01,1,cooling only,AH-1,8,400,100\n"
                            "1-02,1,cooling only,AH-1,8,500,120\n");
    ASSERT_EQ(run("import schedule " + project + " " + file).exit, 0);
  }

  std::filesystem::path folder;
  std::string project;
};

TEST_F(CommandLine, exitsWithTwoOnWrongUsage) {
  EXPECT_EQ(run("").exit, 2);
  EXPECT_EQ(run("polish " + project).exit, 2);
  EXPECT_EQ(run("create " + project).exit, 2) << "--building is required";
  EXPECT_EQ(run("score " + project + " --format xml").exit, 2);
}

TEST_F(CommandLine, helpsEverywhereWithExamples) {
  for (const auto* words : {"--help", "create --help", "import --help", "import readings --help", "review --help", "score --help",
                            "report --help", "history --help", "verify --help"}) {
    const Ran r = run(words);
    EXPECT_EQ(r.exit, 0) << words;
    EXPECT_FALSE(r.out.empty()) << words;
  }
  EXPECT_NE(run("--help").out.find("Example"), std::string::npos);
}

TEST_F(CommandLine, doesTheMainJob) {
  createWithUnits();
  const auto readings = write("r.csv",
                              "unit,procedure,step,quantity,value,waited\n"
                              "1-01,airflow,cooling max,measured flow,405,300\n"
                              "1-01,airflow,cooling min,measured flow,0.047 m3/s,300\n"
                              "1-02,airflow,cooling max,measured flow,350,300\n"
                              "1-02,airflow,cooling min,measured flow,121,20\n");
  ASSERT_EQ(run("import readings " + project + " " + readings).exit, 0);

  const Ran scored = run("score " + project + " --format json");
  ASSERT_EQ(scored.exit, 0) << scored.err;
  const auto json = nlohmann::json::parse(scored.out);
  EXPECT_EQ(json["schema"], 1);
  EXPECT_EQ(json["fleet"]["units"], 2);
  EXPECT_EQ(json["fleet"]["pass"], 1);
  EXPECT_EQ(json["fleet"]["fail"], 1);
  EXPECT_EQ(json["criteria"]["rule"], "simple");
  const auto& second = json["units"][1];
  EXPECT_EQ(second["unit"], "1-02");
  EXPECT_EQ(second["result"], "fail");
  EXPECT_EQ(second["criteria"]["reheat_lockout"]["result"], "not applicable");
  EXPECT_TRUE(second["criteria"]["reheat_lockout"]["score"].is_null());
  bool early = false;
  for (const auto& check : second["checks"]) {
    for (const auto* key : {"criterion", "check", "step", "result", "measured", "expected", "low", "high", "si_unit", "u", "conformity", "close", "because"})
      EXPECT_TRUE(check.contains(key)) << key;
    early = early || (check["step"] == "cooling min" && check["because"] == "early" && check["result"] == "untested");
  }
  EXPECT_TRUE(early);

  for (const auto* name : {"all.xlsx", "all.csv", "all.pdf"}) {
    const auto file = folder / name;
    EXPECT_EQ(run("report " + project + " --kind commissioning --out " + file.string()).exit, 0);
    EXPECT_GT(std::filesystem::file_size(file), 100U);
  }
  EXPECT_EQ(run("verify " + project).exit, 0);
  const auto history = nlohmann::json::parse(run("history " + project + " --format json").out);
  EXPECT_EQ(history["entries"].size(), 3U);
}

TEST_F(CommandLine, tellsEachBadRowAndWritesNothing) {
  createWithUnits();
  const std::string before = contents(project);
  const auto readings = write("r.csv",
                              "unit,procedure,step,quantity,value\n"
                              "1-01,airflow,cooling max,measured flow,405\n"
                              "9-99,airflow,cooling max,measured flow,405\n"
                              "1-02,airflow,cooling max,measured flow,lots\n");
  const Ran r = run("import readings " + project + " " + readings);
  EXPECT_EQ(r.exit, 1);
  EXPECT_NE(r.err.find("r.csv:3: "), std::string::npos) << r.err;
  EXPECT_NE(r.err.find("r.csv:4: "), std::string::npos) << r.err;
  EXPECT_EQ(contents(project), before);
  EXPECT_EQ(run("import readings " + project + " " + readings + " --good-rows").exit, 0);
}

TEST_F(CommandLine, aDryRunWritesNothing) {
  create();
  const std::string before = contents(project);
  const auto file = write("s.csv", "unit,floor,kind,cooling max flow,cooling min flow\n1-01,1,cooling only,400,100\n");
  const Ran r = run("import schedule " + project + " " + file + " --dry-run");
  EXPECT_EQ(r.exit, 0) << r.err;
  EXPECT_NE(r.out.find("1-01: added"), std::string::npos) << r.out;
  EXPECT_EQ(contents(project), before);
}

TEST_F(CommandLine, refusesWhatIsNotAProjectAndLeavesItAlone) {
  const auto other = write("letter.txt", "Dear Sir, this is not a project.");
  for (const auto* command : {"score ", "verify ", "history ", "review "}) {
    const Ran r = run(command + other);
    EXPECT_EQ(r.exit, 1) << command;
    EXPECT_FALSE(r.err.empty());
  }
  EXPECT_EQ(contents(other), "Dear Sir, this is not a project.");
  EXPECT_EQ(run("score " + (folder / "nowhere.ductwright").string()).exit, 1);
  EXPECT_FALSE(std::filesystem::exists(folder / "nowhere.ductwright"));
  EXPECT_EQ(run("create " + other + " --building X").exit, 1) << "an existing file is never overwritten";
}

TEST_F(CommandLine, findsATamperedProject) {
  createWithUnits();
  std::string bytes = contents(project);
  const auto at = bytes.find("Invented House");
  ASSERT_NE(at, std::string::npos);
  bytes[at] = 'J';
  write("house.ductwright", bytes);
  EXPECT_EQ(run("verify " + project).exit, 1);
}

TEST_F(CommandLine, namesTheReportFormatsItKnows) {
  createWithUnits();
  const Ran r = run("report " + project + " --kind turnover --out " + (folder / "x.doc").string());
  EXPECT_EQ(r.exit, 1);
  EXPECT_NE(r.err.find(".pdf"), std::string::npos);
  EXPECT_EQ(run("report " + project + " --kind unit --unit 7-77 --out " + (folder / "x.pdf").string()).exit, 1);
  EXPECT_FALSE(std::filesystem::exists(folder / "x.pdf"));
}

TEST_F(CommandLine, keepsAndReusesAMapping) {
  create();
  const auto file = write("s.csv", "box,level,type,Vmax,Vmin\n1-01,1,cooling only,400,100\n");
  const auto map = (folder / "map.txt").string();
  const Ran first = run("import schedule " + project + " " + file + " --dry-run --keep-map " + map);
  EXPECT_TRUE(std::filesystem::exists(map)) << first.err;
  EXPECT_EQ(run("import schedule " + project + " " + file + " --dry-run --map " + map).exit, first.exit);
}

}  // namespace
