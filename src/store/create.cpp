#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>

#include "commit.h"
#include "parts.h"
#include "schema.h"

namespace ductwright::store {
namespace {

namespace fs = std::filesystem;

Result<Committed> makeProject(const fs::path& path, const Environment& environment, const ProjectInfo& info,
                              const Action& action) {
  const Connection db(path.string(), SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, environment.vfs,
                      environment.patienceMillis);
  prepareForWriting(db);
  Transaction transaction(db);
  makeTables(db, kSchemaVersion);
  const CommitRequest request{EntryKind::create, action, {}};
  auto made = commitWithin(db, environment, request, [&](Writer& w) -> Result<void> {
    w.put(info);
    w.put(fleet::Building{environment.newId<fleet::Building>(), info.name, info.elevation});
    w.put(fleet::Criteria{});
    return {};
  });
  if (made) transaction.commit();
  return made;
}

}  // namespace

Result<std::unique_ptr<ProjectFile>> ProjectFile::create(const fs::path& path, const Environment& environment,
                                                         const ProjectInfo& info, const Action& action) {
  using Made = Result<std::unique_ptr<ProjectFile>>;
  return atEdge([&]() -> Made {
    readyForDigests();
    std::error_code ignored;
    if (fs::exists(path, ignored))
      return failure("There is a file of that name already. Choose another name.");
    const fs::path beside = besideOf(path, environment);
    try {
      if (const auto made = makeProject(beside, environment, info, action); !made) {
        discard(beside);
        return tl::make_unexpected(made.error());
      }
    } catch (...) {
      discard(beside);
      throw;
    }
    // Fails, instead of replacing, where someone made a file of that name meanwhile.
    if (::renameat2(AT_FDCWD, beside.c_str(), AT_FDCWD, path.c_str(), RENAME_NOREPLACE) != 0) {
      const bool exists = errno == EEXIST;
      discard(beside);
      return failure(exists ? "There is a file of that name already. Choose another name."
                            : "The project could not be given its name. Choose another folder.");
    }
    syncFolderOf(path);
    Opening opening = open(path, environment, Access::write, FirstCheck::later);
    if (opening.project == nullptr) return failure(opening.sentence);
    return std::move(opening.project);
  });
}

}  // namespace ductwright::store
