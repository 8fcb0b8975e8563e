#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <string_view>

#include "quantity/result.h"

struct zip;

namespace ductwright::exchange {

// A zip file from a stranger, in memory. Sizes are looked at before anything is inflated: 200 MiB together and 100 times
// an entry's packed size at most (above 1 MiB), and no entry gives more than it announced.
class Archive {
 public:
  static constexpr std::uint64_t kMostInflated = std::uint64_t{200} << 20;
  static constexpr std::uint64_t kMostRatio = 100;
  static constexpr std::uint64_t kRatioFrom = std::uint64_t{1} << 20;
  static constexpr std::int64_t kMostEntries = 10'000;

  // `bytes` must outlive the archive.
  static Result<Archive> open(std::string_view bytes);

  // Takes pieces of an entry, in order; a failure ends the reading.
  using Take = std::function<Result<void>(std::string_view piece, bool last)>;

  // Reads the entry of this name, without regard to case and a leading "/"; false when there is none.
  Result<bool> read(std::string_view name, const Take& take) const;
  // The size of an entry, unpacked; 0 when there is none.
  [[nodiscard]] std::uint64_t sizeOf(std::string_view name) const;

 private:
  struct Close {
    void operator()(zip* archive) const;
  };
  explicit Archive(zip* archive) : m_zip(archive) {}
  std::unique_ptr<zip, Close> m_zip;
};

}  // namespace ductwright::exchange
