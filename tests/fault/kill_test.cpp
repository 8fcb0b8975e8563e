#include <poll.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <map>
#include <random>

#include "actions.h"
#include "fault_vfs.h"
#include "raw.h"

// A program that is killed while it writes loses nothing that it had acknowledged.
namespace ductwright::store::testing {
namespace {

namespace fs = std::filesystem;

struct Acknowledged {
  std::int64_t number = 0;
  Digest content{};
};

// The child's end: tells the parent of each commit once it returned, and at last that it came to its end.
class Tell {
 public:
  explicit Tell(int pipe) : m_pipe(pipe) {}
  void operator()(const ProjectFile& project) const {
    const auto head = project.head();
    if (!head) ::_exit(3);
    say({head->number, head->content});
  }
  void end() const { say({kEnd, {}}); }
  static constexpr std::int64_t kEnd = -1;

 private:
  void say(const Acknowledged& said) const {
    if (::write(m_pipe, &said, sizeof said) != sizeof said) ::_exit(4);
  }
  int m_pipe;
};

// Starts `child` in another process; `whileItRuns` may kill it. What it acknowledged before it ended.
std::vector<Acknowledged> acknowledgedBy(const std::function<void(const Tell&)>& child,
                                         const std::function<void(pid_t, int pipe)>& whileItRuns = {}) {
  int ends[2];
  EXPECT_EQ(::pipe(ends), 0);
  const pid_t pid = ::fork();
  if (pid == 0) {
    ::close(ends[0]);
    child(Tell(ends[1]));
    ::_exit(0);
  }
  ::close(ends[1]);
  if (whileItRuns) whileItRuns(pid, ends[0]);
  std::vector<Acknowledged> said;
  for (Acknowledged one; ::read(ends[0], &one, sizeof one) == sizeof one;) said.push_back(one);
  ::close(ends[0]);
  int status = 0;
  ::waitpid(pid, &status, 0);
  EXPECT_TRUE(WIFSIGNALED(status) || (WIFEXITED(status) && WEXITSTATUS(status) == 0)) << WEXITSTATUS(status);
  return said;
}

// A reader may not finish what was interrupted: it is told so and leaves the file alone.
void expectReadersAreTold(const fs::path& path) {
  const std::string before = bytesOf(path);
  const Opening opening = ProjectFile::open(path, fixedEnvironment(), Access::read);
  EXPECT_EQ(opening.outcome, Outcome::failed);
  EXPECT_EQ(
      opening.sentence,
      "The last program stopped in the middle of a write. Open the project once for writing to restore it.");
  EXPECT_EQ(bytesOf(path), before);
}

// How often a write was found half done, in all trials of a test.
int interrupted = 0;

// Everything that was acknowledged is in the file, as it was, and the file is sound and goes on.
void expectNothingLost(const fs::path& path, const std::vector<Acknowledged>& said) {
  // A rollback journal with a header is what SQLite calls hot.
  const std::string journal = bytesOf(path.string() + "-journal");
  if (!journal.empty() && journal[0] != 0 &&
      ProjectFile::open(path, fixedEnvironment(), Access::read).project == nullptr) {
    ++interrupted;
    expectReadersAreTold(path);
  }
  const auto project = reopened(path);
  ASSERT_NE(project, nullptr);
  ASSERT_EQ(findingsOf(*project), "");
  std::map<std::int64_t, Digest> kept;
  ASSERT_TRUE(project->history(std::nullopt, [&](const Entry& entry) {
    kept[entry.number] = entry.content;
    return true;
  }));
  for (const Acknowledged& one : said) {
    ASSERT_TRUE(kept.count(one.number) == 1) << "entry " << one.number << " was acknowledged and is lost";
    ASSERT_EQ(hex(kept[one.number]), hex(one.content));
  }
  EXPECT_NE(committed(*project, "Go on",
                      [&](Writer& w) { w.put(inventedUnit(fixedEnvironment("x", 4711), "new")); })
                .number,
            0);
}

Environment writerEnvironment() {
  Environment environment = fixedEnvironment("invented laptop", 55);
  environment.vfs = faultVfs();
  return environment;
}

// A day's work, without end: entries, imports, undo and redo.
void work(const fs::path& path, std::uint32_t seed, const Tell& tell, int steps) {
  const Opening opening = ProjectFile::open(path, writerEnvironment());
  if (opening.project == nullptr) ::_exit(2);
  ProjectFile& project = *opening.project;
  RandomActions actions(project, seed);
  fleet::Snapshot now = *project.load();
  for (int i = 0; i < steps; ++i) {
    const int kind = actions.number(0, 9);
    const auto done = kind == 0   ? project.undo("A. Invented", fleet::Role::agent)
                      : kind == 1 ? project.redo("A. Invented", fleet::Role::agent)
                                  : actions.one(now);
    if (!done) continue;
    tell(project);
    now = *project.refreshed(now, done->changed);
  }
}

void import(const fs::path& path, const Tell& tell) {
  const Opening opening = ProjectFile::open(path, writerEnvironment());
  if (opening.project == nullptr) ::_exit(2);
  const auto now = *opening.project->load();
  const auto done = opening.project->commit(kAct, [&](Writer& w) -> Result<void> {
    const auto batch = w.newBatch("readings.csv");
    for (int i = 0; i < 1000; ++i) w.addReading(batch, now.units[0]->unit.id, inventedReading(400));
    return {};
  });
  if (done) tell(*opening.project);
}

class KillTest : public ::testing::Test {
 protected:
  void SetUp() override {
    const auto project = created(start);
    committed(*project, "Add units", [&](Writer& w) {
      for (int i = 0; i < 20; ++i) w.put(inventedUnit(environment, "1-" + std::to_string(i)));
    });
    committed(*project, "Enter", [&](Writer& w) {
      w.addReading(w.newBatch("typed"), loaded(*project).units[0]->unit.id, inventedReading(400));
    });
  }
  // A fresh copy of the start to be worked on and killed in.
  void begin(const fs::path& from) {
    fs::remove(path.string() + "-journal");
    fs::copy_file(from, path, fs::copy_options::overwrite_existing);
  }

  // Kills `child` at each of its changes of the disk, one trial each, until it comes to its end. How many
  // trials.
  int killedAtEveryChange(const fs::path& from, Fault::Kind kind,
                          const std::function<void(const Tell&)>& child) {
    faultVfs();
    interrupted = 0;
    for (int trial = 1;; ++trial) {
      begin(from);
      auto said = acknowledgedBy([&](const Tell& tell) {
        arm({kind, static_cast<std::uint64_t>(trial), true});
        child(tell);
        arm({});
        tell.end();
      });
      const bool ended = !said.empty() && said.back().number == Tell::kEnd;
      if (ended) said.pop_back();
      expectNothingLost(path, said);
      if (ended || HasFailure()) {
        EXPECT_GT(interrupted, 0) << "no trial left anything to restore";
        RecordProperty("trials", trial - 1);
        RecordProperty("interrupted", interrupted);
        return trial - 1;
      }
    }
  }

  TemporaryFolder folder;
  Environment environment = fixedEnvironment();
  fs::path start = folder / "start.ductwright";
  fs::path path = folder / "work.ductwright";
};

TEST_F(KillTest, atAnyInstantOfADaysWork) {
  std::mt19937 random(2026);
  const auto pick = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(random); };
  faultVfs();
  std::size_t acknowledged = 0;
  for (std::uint32_t trial = 0; trial < 120 && !HasFailure(); ++trial) {
    begin(start);
    const int lines = pick(0, 6);
    const timespec later{0, pick(0, 3'000'000)};
    const auto said = acknowledgedBy([&](const Tell& tell) { work(path, trial, tell, 1000); },
                                     [&](pid_t child, int pipe) {
                                       // After some acknowledged commits and a random moment more.
                                       pollfd ready{pipe, POLLIN, 0};
                                       ::poll(&ready, 1, -1);
                                       for (int i = 0; i < lines; ++i) {
                                         Acknowledged one;
                                         if (::read(pipe, &one, sizeof one) != sizeof one) break;
                                       }
                                       ::ppoll(nullptr, 0, &later, nullptr);
                                       ::kill(child, SIGKILL);
                                     });
    acknowledged += said.size();
    expectNothingLost(path, said);
  }
  EXPECT_GT(acknowledged, 0U);
}

TEST_F(KillTest, atEveryChangeOfTheDiskWhileReadingsAreEntered) {
  EXPECT_GT(killedAtEveryChange(start, Fault::Kind::kill, [&](const Tell& tell) { work(path, 7, tell, 3); }),
            20);
}

TEST_F(KillTest, inTheMiddleOfEveryWriteWhileReadingsAreEntered) {
  EXPECT_GT(
      killedAtEveryChange(start, Fault::Kind::killTorn, [&](const Tell& tell) { work(path, 8, tell, 3); }),
      20);
}

TEST_F(KillTest, atEveryChangeOfTheDiskWhileReadingsAreImported) {
  EXPECT_GT(killedAtEveryChange(start, Fault::Kind::kill, [&](const Tell& tell) { import(path, tell); }), 50);
}

TEST_F(KillTest, atEveryChangeOfTheDiskWhileAnImportIsUndoneAndDoneAgain) {
  begin(start);
  {
    const auto project = reopened(path);
    const auto unit = loaded(*project).units[0]->unit.id;
    committed(*project, "Import", [&](Writer& w) {
      const auto batch = w.newBatch("readings.csv");
      for (int i = 0; i < 500; ++i) w.addReading(batch, unit, inventedReading(400));
    });
  }
  const fs::path imported = folder / "imported.ductwright";
  fs::copy_file(path, imported);
  EXPECT_GT(killedAtEveryChange(imported, Fault::Kind::kill,
                                [&](const Tell& tell) {
                                  const Opening opening = ProjectFile::open(path, writerEnvironment());
                                  if (opening.project == nullptr) ::_exit(2);
                                  if (opening.project->undo("A. Invented", fleet::Role::agent))
                                    tell(*opening.project);
                                  if (opening.project->redo("A. Invented", fleet::Role::agent))
                                    tell(*opening.project);
                                }),
            15);
}

TEST_F(KillTest, atEveryChangeOfTheDiskWhileAnOldProjectIsMigrated) {
  const fs::path kept = fs::path(DUCTWRIGHT_SOURCE_DIR) / "tests/store/data/version-1.ductwright";
  EXPECT_GT(killedAtEveryChange(kept, Fault::Kind::kill,
                                [&](const Tell& tell) {
                                  const Opening opening = ProjectFile::open(path, writerEnvironment());
                                  if (opening.outcome != Outcome::migrated) ::_exit(2);
                                  tell(*opening.project);
                                }),
            10);
}

TEST_F(KillTest, aProjectThatWasKilledWhileItWasMadeIsWholeOrNotThere) {
  faultVfs();
  int trials = 0;
  for (bool ended = false; !ended && !HasFailure(); ++trials) {
    fs::remove(path);
    const auto said = acknowledgedBy([&](const Tell& tell) {
      arm({Fault::Kind::kill, static_cast<std::uint64_t>(trials) + 1, true});
      const auto project = ProjectFile::create(path, writerEnvironment(), inventedProject(), kAct);
      arm({});
      if (project) tell(**project);
    });
    ended = !said.empty();
    if (fs::exists(path)) expectNothingLost(path, said);
    EXPECT_TRUE(fs::exists(path) || !ended);
  }
  EXPECT_GT(trials, 10);
}

}  // namespace
}  // namespace ductwright::store::testing
