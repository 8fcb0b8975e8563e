#include "dump.h"
#include "raw.h"
#include "support.h"

namespace ductwright::store::testing {
namespace {

namespace fs = std::filesystem;

class CopyTest : public ::testing::Test {
 protected:
  void SetUp() override {
    committed(*project, "Add", [&](Writer& w) {
      const auto unit = inventedUnit(environment, "2-14");
      w.put(unit);
      w.addReading(w.newBatch("typed"), unit.id, inventedReading(400));
    });
  }
  std::size_t filesBeside() {
    std::size_t count = 0;
    for (const auto& entry : fs::directory_iterator(path.parent_path())) count += entry.exists() ? 1 : 0;
    return count;
  }

  TemporaryFolder folder;
  fs::path path = folder / "tower.ductwright";
  Environment environment = fixedEnvironment();
  std::unique_ptr<ProjectFile> project = created(path, environment);
};

TEST_F(CopyTest, aCopyIsAWholeProject) {
  const fs::path target = folder / "copy.ductwright";
  const auto done = project->saveCopy(target);
  ASSERT_TRUE(done.has_value()) << done.error().sentence;
  const auto copy = reopened(target);
  EXPECT_EQ(dumped(loaded(*copy)), dumped(loaded(*project)));
  EXPECT_EQ(copy->head()->hash, project->head()->hash);
  EXPECT_EQ(findingsOf(*copy), "");
  EXPECT_EQ(filesBeside(), 2U);
}

TEST_F(CopyTest, aCopyReplacesWhatIsThereOnlyAsAWhole) {
  const fs::path target = folder / "copy.ductwright";
  writeBytes(target, "something older");
  ASSERT_TRUE(project->saveCopy(target).has_value());
  EXPECT_NE(reopened(target), nullptr);
}

TEST_F(CopyTest, theOpenProjectIsNeverReplaced) {
  const auto done = project->saveCopy(path);
  ASSERT_FALSE(done.has_value());
  EXPECT_EQ(done.error().sentence, "A copy cannot replace the project that is open. Choose another name.");
  EXPECT_EQ(findingsOf(*project), "");
}

TEST_F(CopyTest, aCopyToAFolderThatIsNotThereIsTold) {
  const auto done = project->saveCopy(folder / "nowhere" / "copy.ductwright");
  ASSERT_FALSE(done.has_value());
  EXPECT_EQ(filesBeside(), 1U);
}

TEST_F(CopyTest, aReaderCanCopyToo) {
  const auto reader = reopened(path, Access::read);
  ASSERT_TRUE(reader->saveCopy(folder / "copy.ductwright").has_value());
  EXPECT_EQ(findingsOf(*reopened(folder / "copy.ductwright")), "");
}

}  // namespace
}  // namespace ductwright::store::testing
