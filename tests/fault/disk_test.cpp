#include <map>
#include <random>
#include <set>

#include "actions.h"
#include "dump.h"
#include "fault_vfs.h"
#include "raw.h"

// A disk that fails, is full, loses its power, or a file that breaks off: a clear sentence, and nothing lost.
namespace ductwright::store::testing {
namespace {

namespace fs = std::filesystem;

class DiskTest : public ::testing::Test {
 protected:
  void SetUp() override {
    environment.vfs = faultVfs();
    const auto project = created(start);
    committed(*project, "Add units", [&](Writer& w) {
      for (int i = 0; i < 30; ++i) w.put(inventedUnit(ids, "1-" + std::to_string(i)));
    });
    committed(*project, "Import", [&](Writer& w) {
      const auto batch = w.newBatch("readings.csv");
      for (int i = 0; i < 300; ++i) w.addReading(batch, unitOf(*project), inventedReading(100 + i));
    });
    before = dumped(loaded(*project));
  }
  void TearDown() override { arm({}); }

  static fleet::UnitId unitOf(const ProjectFile& project) { return loaded(project).units.at(0)->unit.id; }

  void begin() {
    arm({});
    fs::remove(path.string() + "-journal");
    fs::copy_file(start, path, fs::copy_options::overwrite_existing);
  }

  // One thing that a person does to an open project; the failure where there is one.
  using Deed = std::function<Result<Committed>(ProjectFile&)>;
  static Result<Committed> enter(ProjectFile& project) {
    const auto snapshot = project.load();
    if (!snapshot) return tl::make_unexpected(snapshot.error());
    return project.commit(kAct, [&](Writer& w) -> Result<void> {
      w.addReading(w.newBatch("typed"), snapshot->units.at(0)->unit.id, inventedReading(412));
      return {};
    });
  }
  static Result<Committed> import(ProjectFile& project) {
    const auto snapshot = project.load();
    if (!snapshot) return tl::make_unexpected(snapshot.error());
    return project.commit(kAct, [&](Writer& w) -> Result<void> {
      const auto batch = w.newBatch("more.csv");
      for (int i = 0; i < 500; ++i) w.addReading(batch, snapshot->units.at(1)->unit.id, inventedReading(412));
      return {};
    });
  }
  static Result<Committed> undo(ProjectFile& project) {
    return project.undo("A. Invented", fleet::Role::agent);
  }

  static void expectAClearSentence(const std::string& sentence) {
    EXPECT_GT(sentence.size(), 20U);
    EXPECT_TRUE(sentence.find("disk") != std::string::npos || sentence.find("file") != std::string::npos)
        << sentence;
  }

  // What is in the file now is `before` or, where the deed came through, something later; and it is sound.
  void expectSound(const ProjectFile& project, bool done) {
    EXPECT_EQ(findingsOf(project), "");
    const auto number = project.head()->number;
    EXPECT_TRUE(number == 4 || (number == 3 && !done));
    if (number == 3) {
      EXPECT_EQ(dumped(loaded(project)), before);
    }
  }

  // Does the deed with the `at`th call of the disk failing, for at = 1, 2 … until nothing fails. The project
  // goes on once the disk answers again, and so it does when it is opened anew.
  int failedAtEveryCall(Fault::Kind kind, const Deed& deed) {
    for (std::uint64_t at = 1;; ++at) {
      begin();
      auto opening = ProjectFile::open(path, environment);
      EXPECT_EQ(opening.outcome, Outcome::current) << opening.sentence;
      if (opening.project == nullptr) return 0;
      arm({kind, at});
      const auto done = deed(*opening.project);
      const bool failed = tripped();
      arm({});
      if (!done) expectAClearSentence(done.error().sentence);
      EXPECT_TRUE(failed || done.has_value());
      expectSound(*opening.project, done.has_value());
      const auto number = opening.project->head()->number;
      EXPECT_TRUE(enter(*opening.project).has_value()) << "the project does not go on after call " << at;
      opening.project.reset();
      const auto again = reopened(path, Access::read);
      EXPECT_EQ(findingsOf(*again), "");
      EXPECT_EQ(again->head()->number, number + 1);
      if (!failed || HasFailure()) return static_cast<int>(at) - 1;
    }
  }

  TemporaryFolder folder;
  Environment environment = fixedEnvironment();
  Environment ids = fixedEnvironment("ids", 9);
  fs::path start = folder / "start.ductwright";
  fs::path path = folder / "work.ductwright";
  std::string before;
};

TEST_F(DiskTest, everyCallFailingOnceWhileAReadingIsEntered) {
  EXPECT_GT(failedAtEveryCall(Fault::Kind::failOnce, enter), 30);
}
TEST_F(DiskTest, everyCallFailingForGoodWhileAReadingIsEntered) {
  EXPECT_GT(failedAtEveryCall(Fault::Kind::failForGood, enter), 30);
}
TEST_F(DiskTest, everyCallFailingOnceWhileReadingsAreImported) {
  EXPECT_GT(failedAtEveryCall(Fault::Kind::failOnce, import), 40);
}
TEST_F(DiskTest, everyCallFailingForGoodWhileReadingsAreImported) {
  EXPECT_GT(failedAtEveryCall(Fault::Kind::failForGood, import), 40);
}
TEST_F(DiskTest, everyCallFailingOnceWhileAnImportIsUndone) {
  EXPECT_GT(failedAtEveryCall(Fault::Kind::failOnce, undo), 20);
}
TEST_F(DiskTest, everyCallFailingForGoodWhileAnImportIsUndone) {
  EXPECT_GT(failedAtEveryCall(Fault::Kind::failForGood, undo), 20);
}

TEST_F(DiskTest, everyCallFailingWhileAProjectIsOpenedLeavesItAlone) {
  begin();
  const std::string bytes = bytesOf(path);
  for (const Fault::Kind kind : {Fault::Kind::failOnce, Fault::Kind::failForGood}) {
    int failures = 0;
    for (std::uint64_t at = 1;; ++at) {
      arm({kind, at});
      const Opening opening = ProjectFile::open(path, environment);
      const bool failed = tripped();
      arm({});
      if (opening.project == nullptr) {
        EXPECT_NE(opening.sentence, "");
        ++failures;
      }
      EXPECT_EQ(bytesOf(path), bytes);
      if (!failed) {
        EXPECT_EQ(opening.outcome, Outcome::current);
        break;
      }
    }
    EXPECT_GT(failures, 5);
  }
}

TEST_F(DiskTest, everyCallFailingWhileAnOldProjectIsMigrated) {
  const fs::path kept = fs::path(DUCTWRIGHT_SOURCE_DIR) / "tests/store/data/version-1.ductwright";
  int failures = 0;
  for (std::uint64_t at = 1;; ++at) {
    fs::remove(path.string() + "-journal");
    fs::copy_file(kept, path, fs::copy_options::overwrite_existing);
    arm({Fault::Kind::failOnce, at});
    const Opening opening = ProjectFile::open(path, environment);
    const bool failed = tripped();
    arm({});
    if (opening.project == nullptr) {
      ++failures;
      EXPECT_NE(opening.sentence, "");
      const auto again = reopened(path);
      ASSERT_NE(again, nullptr);
      EXPECT_EQ(findingsOf(*again), "");
      EXPECT_EQ(loaded(*again).units.size(), 13U);
    }
    if (!failed) break;
  }
  EXPECT_GT(failures, 20);
}

TEST_F(DiskTest, everyCallFailingWhileACopyIsMadeLeavesNoHalfCopy) {
  begin();
  const fs::path copy = folder / "copy.ductwright";
  const std::string older = "what was there before";
  int failures = 0;
  for (std::uint64_t at = 1;; ++at) {
    writeBytes(copy, older);
    auto opening = ProjectFile::open(path, environment);
    ASSERT_NE(opening.project, nullptr);
    arm({Fault::Kind::failOnce, at});
    const auto done = opening.project->saveCopy(copy);
    const bool failed = tripped();
    arm({});
    if (done) {
      EXPECT_EQ(findingsOf(*reopened(copy, Access::read)), "");
    } else {
      EXPECT_EQ(bytesOf(copy), older);
    }
    failures += done ? 0 : 1;
    std::set<std::string> names;
    for (const auto& entry : fs::directory_iterator(path.parent_path()))
      names.insert(entry.path().filename());
    EXPECT_EQ(names, (std::set<std::string>{"copy.ductwright", "start.ductwright", "work.ductwright"}));
    if (!failed || HasFailure()) break;
  }
  EXPECT_GT(failures, 20);
}

TEST_F(DiskTest, aDiskThatIsFullAtEveryStepOfAnImport) {
  const auto size = fs::file_size(start);
  int refusals = 0;
  for (std::uint64_t room = 4096;; room += 4096) {
    begin();
    auto opening = ProjectFile::open(path, environment);
    ASSERT_NE(opening.project, nullptr);
    arm({Fault::Kind::full, room});
    const auto done = import(*opening.project);
    arm({});
    expectSound(*opening.project, done.has_value());
    EXPECT_TRUE(enter(*opening.project).has_value());
    if (done) {
      EXPECT_GT(room, size);
      break;
    }
    ++refusals;
    ASSERT_EQ(done.error().sentence, "The disk is full: nothing was saved. Free some space and try again.");
  }
  EXPECT_GT(refusals, 20);
}

TEST_F(DiskTest, aFileThatBreaksOffAnywhereIsToldAndNeverTakenForWhole) {
  const std::string whole = bytesOf(start);
  std::mt19937 random(3);
  std::map<Outcome, int> outcomes;
  for (int i = 0; i < 1000; ++i) {
    // All short lengths, all page boundaries, and anywhere.
    const std::size_t length = i < 120 ? static_cast<std::size_t>(i)
                               : static_cast<std::size_t>(i - 120) * 4096 < whole.size()
                                   ? static_cast<std::size_t>(i - 120) * 4096
                                   : random() % whole.size();
    writeBytes(path, whole.substr(0, length));
    const Opening opening = ProjectFile::open(path, environment);
    ++outcomes[opening.outcome];
    EXPECT_EQ(opening.project, nullptr) << "cut at " << length;
    EXPECT_NE(opening.sentence, "");
    ASSERT_EQ(fs::file_size(path), length) << "the file was changed";
  }
  EXPECT_EQ(outcomes[Outcome::empty], 2);
  EXPECT_EQ(outcomes[Outcome::notOurs], 15);
  EXPECT_EQ(outcomes[Outcome::damaged], 1000 - 17);
}

// The power goes after any step: of the writes to a file since its last sync any part may be on the disk.
class PowerTest : public DiskTest {
 protected:
  // The files as they would be found after `upTo` steps, with unsynced writes kept by `keep`.
  std::map<std::string, std::string> left(const std::vector<DiskStep>& steps, std::size_t upTo,
                                          const std::function<bool()>& keep) {
    std::map<std::string, std::string> safe = {{path.string(), bytesOf(start)}};
    std::map<std::string, std::vector<const DiskStep*>> loose;
    const auto apply = [&](const DiskStep& step) {
      std::string& file = safe[step.file];
      const auto at = static_cast<std::size_t>(step.offset);
      if (step.call == Call::truncate) return file.resize(at);
      if (file.size() < at + step.bytes.size()) file.resize(at + step.bytes.size());
      file.replace(at, step.bytes.size(), step.bytes);
    };
    for (std::size_t i = 0; i < upTo; ++i) {
      const DiskStep& step = steps[i];
      if (step.call == Call::remove) {
        // With the folder synced, as is asked for: gone for good.
        safe.erase(step.file);
        loose.erase(step.file);
      } else if (step.call == Call::sync) {
        for (const DiskStep* write : loose[step.file]) apply(*write);
        loose.erase(step.file);
        safe.try_emplace(step.file);
      } else {
        loose[step.file].push_back(&step);
      }
    }
    for (const auto& [file, writes] : loose)
      for (const DiskStep* write : writes)
        if (keep()) apply(*write);
    return safe;
  }
};

TEST_F(PowerTest, lossAfterEveryStepLosesNothingAcknowledged) {
  begin();
  std::vector<DiskStep> steps;
  std::vector<std::pair<std::size_t, std::int64_t>> acknowledged;  // steps done when the entry was
  {
    auto opening = ProjectFile::open(path, environment);
    ASSERT_NE(opening.project, nullptr);
    record(&steps);
    for (const Deed& deed : {Deed(enter), Deed(import), Deed(undo), Deed(enter)}) {
      const auto done = deed(*opening.project);
      ASSERT_TRUE(done.has_value());
      acknowledged.emplace_back(steps.size(), done->number);
    }
    record(nullptr);
  }
  ASSERT_GT(steps.size(), 100U);
  std::mt19937 random(11);
  std::set<std::int64_t> heads;
  for (std::size_t upTo = 0; upTo <= steps.size() && !HasFailure(); ++upTo) {
    const std::size_t mode = upTo % 3;  // of the loose writes none, all, or any
    const auto files = left(steps, upTo, [&] {
      return mode == 0 ? false : mode == 1 ? true : random() % 2 == 0;
    });
    fs::remove(path.string() + "-journal");
    for (const auto& [name, bytes] : files) writeBytes(name, bytes);
    const auto project = reopened(path);
    ASSERT_NE(project, nullptr) << "after step " << upTo;
    ASSERT_EQ(findingsOf(*project), "") << "after step " << upTo;
    const auto number = project->head()->number;
    heads.insert(number);
    for (const auto& [done, entry] : acknowledged)
      EXPECT_TRUE(upTo < done || number >= entry) << "entry " << entry << " is lost after step " << upTo;
  }
  EXPECT_EQ(heads, (std::set<std::int64_t>{3, 4, 5, 6, 7}));
}

}  // namespace
}  // namespace ductwright::store::testing
