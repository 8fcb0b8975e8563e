#pragma once

#include <cstdint>
#include <memory>
#include <optional>
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

  // The entry of this name, without regard to case and a leading "/"; nothing when there is none.
  [[nodiscard]] Result<std::optional<std::string>> entry(std::string_view name) const;

 private:
  struct Close {
    void operator()(zip* archive) const;
  };
  explicit Archive(zip* archive) : m_zip(archive) {}
  std::unique_ptr<zip, Close> m_zip;
};

}  // namespace ductwright::exchange
