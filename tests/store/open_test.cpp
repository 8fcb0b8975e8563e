#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>
#include <csignal>

#include "file_lock.h"
#include "raw.h"
#include "support.h"

// One test an outcome. Whatever the outcome, a refused file is left byte for byte as it was.
namespace ductwright::store::testing {
namespace {

namespace fs = std::filesystem;

class OpenTest : public ::testing::Test {
 protected:
  Opening open(Access access = Access::write) {
    return ProjectFile::open(path, fixedEnvironment("invented laptop", 3), access);
  }
  void make() {
    const auto project = created(path, environment);
    committed(*project, "Add a unit", [&](Writer& w) {
      const auto unit = inventedUnit(environment, "2-14");
      w.put(unit);
      w.addReading(w.newBatch("typed"), unit.id, inventedReading(400));
    });
  }
  // Opens for writing and for reading; both are refused in the same way and leave the file alone.
  void expectRefused(Outcome outcome, const std::string& part) {
    const std::string before = bytesOf(path);
    for (const Access access : {Access::write, Access::read}) {
      const Opening opening = open(access);
      EXPECT_EQ(opening.outcome, outcome) << opening.sentence;
      EXPECT_EQ(opening.project, nullptr);
      EXPECT_NE(opening.sentence.find(part), std::string::npos) << opening.sentence;
    }
    EXPECT_EQ(bytesOf(path), before);
    EXPECT_FALSE(fs::exists(path.string() + "-journal"));
    EXPECT_FALSE(fs::exists(path.string() + "-wal"));
  }

  TemporaryFolder folder;
  fs::path path = folder / "tower.ductwright";
  Environment environment = fixedEnvironment();
};

TEST_F(OpenTest, current) {
  make();
  const Opening opening = open();
  EXPECT_EQ(opening.outcome, Outcome::current);
  ASSERT_NE(opening.project, nullptr);
  EXPECT_EQ(opening.sentence, "");
  EXPECT_TRUE(opening.project->writable());
}

TEST_F(OpenTest, openingAndReadingNeverChangesAByte) {
  make();
  const std::string before = bytesOf(path);
  const auto written = fs::last_write_time(path);
  for (const Access access : {Access::write, Access::read}) {
    const Opening opening = open(access);
    ASSERT_NE(opening.project, nullptr);
    EXPECT_EQ(loaded(*opening.project).units.size(), 1U);
    EXPECT_EQ(findingsOf(*opening.project), "");
  }
  EXPECT_EQ(bytesOf(path), before);
  EXPECT_EQ(fs::last_write_time(path), written);
}

TEST_F(OpenTest, missing) {
  expectRefused(Outcome::missing, "no such file");
}

TEST_F(OpenTest, empty) {
  writeBytes(path, "");
  expectRefused(Outcome::empty, "empty");
}

TEST_F(OpenTest, notOursWhenItIsText) {
  writeBytes(path, "unit,floor,kind\n2-14,2,reheat\n");
  expectRefused(Outcome::notOurs, "not a Ductwright project");
}

TEST_F(OpenTest, notOursWhenItIsAFolder) {
  fs::create_directory(path);
  EXPECT_EQ(open().outcome, Outcome::notOurs);
}

TEST_F(OpenTest, notOursWhenItIsAnotherProgramsDatabase) {
  Raw(path).execute("CREATE TABLE songs (name TEXT); INSERT INTO songs VALUES ('x')");
  expectRefused(Outcome::notOurs, "not a Ductwright project");
}

TEST_F(OpenTest, tooNew) {
  make();
  Raw(path).execute("PRAGMA user_version=99");
  expectRefused(Outcome::tooNew, "later version");
}

TEST_F(OpenTest, damagedWhenATableIsMissing) {
  make();
  Raw(path).execute("DROP TABLE reading");
  expectRefused(Outcome::damaged, "table reading is missing");
}

TEST_F(OpenTest, damagedWhenSomethingWasAdded) {
  make();
  Raw(path).execute("CREATE TRIGGER t AFTER INSERT ON unit BEGIN DELETE FROM unit; END");
  expectRefused(Outcome::damaged, "trigger t is not as this program makes it");
}

TEST_F(OpenTest, damagedWhenAColumnIsOfAnotherKind) {
  make();
  Raw(path).execute("ALTER TABLE unit ADD COLUMN more TEXT");
  expectRefused(Outcome::damaged, "table unit is not as this program makes it");
}

TEST_F(OpenTest, damagedWhenItHasNoVersion) {
  make();
  Raw(path).execute("PRAGMA user_version=0");
  expectRefused(Outcome::damaged, "version");
}

TEST_F(OpenTest, damagedWhenItIsCutShort) {
  make();
  fs::resize_file(path, fs::file_size(path) / 2);
  expectRefused(Outcome::damaged, "breaks off");
}

TEST_F(OpenTest, damagedWhenThePagesAreOverwritten) {
  make();
  std::string bytes = bytesOf(path);
  bytes.replace(2 * 4096, 4096, std::string(4096, '\xA5'));
  writeBytes(path, bytes);
  expectRefused(Outcome::damaged, "damaged");
}

TEST_F(OpenTest, damagedWhenAnotherProgramTurnedOnTheWriteAheadLog) {
  make();
  Raw(path).execute("PRAGMA journal_mode=WAL");
  expectRefused(Outcome::damaged, "write-ahead log");
}

TEST_F(OpenTest, damagedWhenTheJournalDoesNotFitTheContent) {
  make();
  Raw(path).execute("UPDATE content_sum SET sum = zeroblob(2048)");
  expectRefused(Outcome::damaged, "does not fit");
}

// Steps down to a user without rights where the tests run with all of them.
class WithoutRights {
 public:
  WithoutRights() {
    if (::geteuid() == 0) m_down = ::seteuid(65534) == 0;
  }
  ~WithoutRights() {
    if (m_down && ::seteuid(0) != 0) ADD_FAILURE() << "the rights did not come back";
  }

 private:
  bool m_down = false;
};

TEST_F(OpenTest, readOnlyWhenTheFileMayNotBeWritten) {
  make();
  ::chmod(path.c_str(), 0444);
  ::chmod(path.parent_path().c_str(), 0777);
  const WithoutRights less;
  const Opening opening = open();
  EXPECT_EQ(opening.outcome, Outcome::readOnly);
  EXPECT_NE(opening.sentence.find("cannot be written"), std::string::npos);
  ASSERT_NE(opening.project, nullptr);
  EXPECT_FALSE(opening.project->writable());
  EXPECT_EQ(loaded(*opening.project).units.size(), 1U);
  const auto done = opening.project->commit(kAct, [](Writer&) -> Result<void> { return {}; });
  ASSERT_FALSE(done.has_value());
  EXPECT_EQ(done.error().sentence, "The project is open for reading only. Save a copy to work on it.");
  EXPECT_FALSE(opening.project->undo("A. Invented", fleet::Role::agent).has_value());
}

TEST_F(OpenTest, readOnlyWhenTheFolderMayNotBeWritten) {
  make();
  ::chmod(path.c_str(), 0666);
  ::chmod(path.parent_path().c_str(), 0555);
  {
    const WithoutRights less;
    EXPECT_EQ(open().outcome, Outcome::readOnly);
  }
  ::chmod(path.parent_path().c_str(), 0755);
}

TEST_F(OpenTest, failedWhenTheFileMayNotBeRead) {
  make();
  ::chmod(path.c_str(), 0000);
  ::chmod(path.parent_path().c_str(), 0755);
  const WithoutRights less;
  const Opening opening = open();
  EXPECT_EQ(opening.outcome, Outcome::failed);
  EXPECT_EQ(opening.sentence, "The file cannot be read. Ask for the right to read it.");
}

TEST_F(OpenTest, lockedForASecondWriterInThisProgramAndReadableStill) {
  make();
  const Opening first = open();
  const Opening second = open();
  EXPECT_EQ(second.outcome, Outcome::locked);
  EXPECT_EQ(second.project, nullptr);
  EXPECT_NE(second.sentence.find("another window or program"), std::string::npos);
  const Opening reader = open(Access::read);
  ASSERT_NE(reader.project, nullptr);
  committed(*first.project, "Add", [&](Writer& w) { w.put(inventedUnit(environment, "2-15")); });
  EXPECT_EQ(loaded(*reader.project).units.size(), 2U);
}

// Runs `child` in another process; its answer is the exit code.
int inAnotherProgram(const std::function<int()>& child) {
  const pid_t pid = ::fork();
  if (pid == 0) ::_exit(child());
  int status = 0;
  EXPECT_EQ(::waitpid(pid, &status, 0), pid);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

TEST_F(OpenTest, lockedForASecondProgramUntilTheFirstCloses) {
  make();
  Opening first = open();
  ASSERT_NE(first.project, nullptr);
  const auto tryThere = [&] { return static_cast<int>(open().outcome); };
  EXPECT_EQ(inAnotherProgram(tryThere), static_cast<int>(Outcome::locked));
  EXPECT_EQ(inAnotherProgram([&] { return static_cast<int>(open(Access::read).outcome); }),
            static_cast<int>(Outcome::current));
  // The other programs' opening and closing took nothing from the first.
  committed(*first.project, "Add", [&](Writer& w) { w.put(inventedUnit(environment, "2-15")); });
  first.project.reset();
  EXPECT_EQ(inAnotherProgram(tryThere), static_cast<int>(Outcome::current));
}

TEST_F(OpenTest, aProgramThatWasKilledLeavesNoLock) {
  make();
  int ready[2];
  ASSERT_EQ(::pipe(ready), 0);
  const pid_t pid = ::fork();
  if (pid == 0) {
    const Opening opening = open();
    const char answer = opening.outcome == Outcome::current ? 'y' : 'n';
    if (::write(ready[1], &answer, 1) != 1) ::_exit(1);
    for (;;) ::pause();
  }
  char answer = 0;
  ASSERT_EQ(::read(ready[0], &answer, 1), 1);
  EXPECT_EQ(answer, 'y');
  EXPECT_EQ(open().outcome, Outcome::locked);
  ::kill(pid, SIGKILL);
  ::waitpid(pid, nullptr, 0);
  EXPECT_EQ(open().outcome, Outcome::current);
  ::close(ready[0]);
  ::close(ready[1]);
}

TEST_F(OpenTest, lockedWhileAnotherProgramWritesWithItsOwnTools) {
  make();
  Raw other(path);
  ASSERT_TRUE(other.execute("BEGIN EXCLUSIVE"));
  const Opening opening = open(Access::read);
  EXPECT_EQ(opening.outcome, Outcome::locked);
  EXPECT_NE(opening.sentence.find("Another program is using"), std::string::npos);
}

TEST_F(OpenTest, aCommitWhileAnotherProgramReadsIsToldAndLosesNothing) {
  make();
  const Opening opening = open();
  Raw other(path);
  ASSERT_TRUE(other.execute("BEGIN"));
  EXPECT_EQ(other.rows("SELECT count(*) FROM unit")[0][0], "1");
  const auto add = [&](Writer& w) -> Result<void> {
    w.put(inventedUnit(environment, "2-15"));
    return {};
  };
  const auto refused = opening.project->commit(kAct, add);
  ASSERT_FALSE(refused.has_value());
  EXPECT_NE(refused.error().sentence.find("Another program is using"), std::string::npos);
  ASSERT_TRUE(other.execute("COMMIT"));
  EXPECT_TRUE(opening.project->commit(kAct, add).has_value());
  EXPECT_EQ(findingsOf(*opening.project), "");
}

TEST_F(OpenTest, aNetworkDriveIsKnownByTheNumberOfItsFileSystem) {
  EXPECT_TRUE(isNetworkFileSystem(0x6969));   // NFS_SUPER_MAGIC, statfs(2)
  EXPECT_FALSE(isNetworkFileSystem(0xEF53));  // EXT4_SUPER_MAGIC
  make();
  EXPECT_EQ(open().project->caution(), "");
}

TEST_F(OpenTest, aFileThatIsThereIsNeverMadeAnew) {
  make();
  const std::string before = bytesOf(path);
  const auto again = ProjectFile::create(path, environment, inventedProject(), kAct);
  ASSERT_FALSE(again.has_value());
  EXPECT_EQ(again.error().sentence, "There is a file of that name already. Choose another name.");
  EXPECT_EQ(bytesOf(path), before);
}

TEST_F(OpenTest, aProjectInAFolderThatIsNotThereIsNotMade) {
  const auto made =
      ProjectFile::create(folder / "nowhere" / "a.ductwright", environment, inventedProject(), kAct);
  ASSERT_FALSE(made.has_value());
  EXPECT_NE(made.error().sentence.find("cannot be opened"), std::string::npos);
}

}  // namespace
}  // namespace ductwright::store::testing
