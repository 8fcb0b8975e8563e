#include <charconv>
#include <cstdio>
#include <cstdlib>
#include <string_view>

#include "sample/sample_files.h"

namespace {

constexpr const char* kUsage =
    "Usage: ductwright-make-sample FOLDER [--seed N] [--units N] [--days N] [--no-faults]\n"
    "Writes the tables of an invented building into FOLDER.\n";

int usage() {
  std::fputs(kUsage, stderr);
  return 2;
}

template <class Number>
bool readInto(Number& out, std::string_view text) {
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), out);
  return error == std::errc{} && end == text.data() + text.size() && out > 0;
}

}  // namespace

int main(int argc, char** argv) {
  using namespace ductwright;
  std::uint64_t seed = 1;
  sample::Options options;
  std::string_view folder;
  for (int i = 1; i < argc; ++i) {
    const std::string_view word = argv[i];
    const std::string_view next = i + 1 < argc ? argv[i + 1] : "";
    bool understood = true;
    if (word == "--help") return std::fputs(kUsage, stdout), EXIT_SUCCESS;
    if (word == "--no-faults")
      options.faults = false;
    else if (word == "--seed")
      understood = readInto(seed, next), ++i;
    else if (word == "--units")
      understood = readInto(options.units, next), ++i;
    else if (word == "--days")
      understood = readInto(options.days, next), ++i;
    else if (folder.empty() && !word.starts_with('-'))
      folder = word;
    else
      understood = false;
    if (!understood) return usage();
  }
  if (folder.empty()) return usage();
  if (const auto done = sample::writeFiles(sample::makeBuilding(seed, options), folder); !done) {
    std::fprintf(stderr, "%s\n", done.error().sentence.c_str());
    return EXIT_FAILURE;
  }
  return EXIT_SUCCESS;
}
