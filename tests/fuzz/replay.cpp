#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

// Runs a fuzzer's entry function over every file of the folders or files named, and over the beginnings of each. Fails
// where there is none.
int main(int argc, char** argv) {
  std::size_t inputs = 0;
  const auto run = [&](const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    const std::vector<char> bytes{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    const std::vector<std::uint8_t> data(bytes.begin(), bytes.end());
    for (std::size_t parts = 1; parts <= 16; ++parts) LLVMFuzzerTestOneInput(data.data(), data.size() * parts / 16);
    ++inputs;
  };
  for (int i = 1; i < argc; ++i) {
    if (std::filesystem::is_directory(argv[i]))
      for (const auto& entry : std::filesystem::directory_iterator(argv[i])) run(entry.path());
    else
      run(argv[i]);
  }
  std::printf("%zu inputs\n", inputs);
  return inputs == 0 ? 1 : 0;
}
