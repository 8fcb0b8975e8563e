#include "store/environment.h"

#include <sodium.h>

#include <chrono>
#include <ctime>

namespace ductwright::store {
namespace {

fleet::Timestamp wallClock() {
  const auto now = std::chrono::system_clock::now();
  const std::time_t seconds = std::chrono::system_clock::to_time_t(now);
  std::tm local{};
  localtime_r(&seconds, &local);
  return {std::chrono::duration_cast<std::chrono::milliseconds>(now.time_since_epoch()).count(),
          static_cast<std::int16_t>(local.tm_gmtoff / 60)};
}

}  // namespace

Environment Environment::ofSystem(std::string device) {
  Environment out;
  out.now = wallClock;
  out.random = [](std::span<std::uint8_t> bytes) { randombytes_buf(bytes.data(), bytes.size()); };
  out.device = std::move(device);
  return out;
}

fleet::Uuid Environment::newUuid() const {
  std::array<std::uint8_t, 10> bytes{};
  random(bytes);
  return fleet::Uuid::version7(now().utcMillis, bytes);
}

}  // namespace ductwright::store
