#include <unistd.h>

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

#include "store/project_file.h"

// Any bytes as a project: opened for reading they change nothing; whatever opens can be loaded, checked, shown and
// worked on, or says in a sentence why not.
namespace {

using namespace ductwright;
using namespace ductwright::store;
namespace fs = std::filesystem;

const fs::path& file() {
  static const fs::path path = [] {
    const fs::path memory = "/dev/shm";
    const fs::path root = fs::is_directory(memory) ? memory : fs::temp_directory_path();
    return root / ("ductwright-fuzz-" + std::to_string(::getpid()) + ".ductwright");
  }();
  return path;
}

std::string bytesOf(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

template <class T>
bool answered(const Result<T>& result) {
  if (!result.has_value() && result.error().sentence.empty()) std::abort();
  return result.has_value();
}

void useIt(ProjectFile& project) {
  const auto snapshot = project.load();
  answered(snapshot);
  answered(project.verify());
  answered(project.batches());
  answered(project.mappings());
  answered(project.undoState());
  answered(project.history(std::nullopt, [](const Entry&) { return true; }));
  if (!project.writable()) return;
  answered(project.undo("A. Invented", fleet::Role::agent));
  answered(project.commit({"Enter", "A. Invented"}, [&](Writer& w) -> Result<void> {
    fleet::Unit unit;
    unit.id = project.environment().newId<fleet::Unit>();
    unit.tag = "new";
    w.put(unit);
    w.addReading(w.newBatch("typed"), unit.id, {});
    return {};
  }));
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size > 1'000'000) return 0;
  const std::string bytes(reinterpret_cast<const char*>(data), size);
  std::ofstream(file(), std::ios::binary) << bytes;
  for (const Access access : {Access::read, Access::write}) {
    const Opening opening = ProjectFile::open(file(), Environment::ofSystem("fuzzer"), access);
    if (opening.project == nullptr && opening.sentence.empty()) std::abort();
    if (opening.project != nullptr) useIt(*opening.project);
    if (access == Access::read && bytesOf(file()) != bytes) std::abort();
  }
  fs::remove(file());
  fs::remove(file().string() + "-journal");
  return 0;
}
