#pragma once

#include <array>
#include <compare>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace ductwright::fleet {

// A UUID (RFC 9562). Every record has one, so that copies of a project can be merged.
struct Uuid {
  std::array<std::uint8_t, 16> bytes{};

  friend auto operator<=>(const Uuid&, const Uuid&) = default;
  [[nodiscard]] bool isNull() const { return *this == Uuid{}; }
  [[nodiscard]] std::string text() const;  // 8-4-4-4-12, lower case
  static std::optional<Uuid> fromText(std::string_view text);
  // Version 7: the time in milliseconds, then the caller's random bits.
  static Uuid version7(std::int64_t utcMillis, const std::array<std::uint8_t, 10>& random);
};

// The identity of one kind of record.
template <class Record>
struct Id {
  Uuid uuid;
  friend auto operator<=>(const Id&, const Id&) = default;
  [[nodiscard]] bool isNull() const { return uuid.isNull(); }
};

struct IdHash {
  std::size_t operator()(const Uuid& id) const {
    std::uint64_t low = 0;
    for (int i = 8; i < 16; ++i) low = low << 8 | id.bytes[static_cast<std::size_t>(i)];
    return low;
  }
  template <class Record>
  std::size_t operator()(const Id<Record>& id) const {
    return (*this)(id.uuid);
  }
};

using BuildingId = Id<struct Building>;
using AirHandlerId = Id<struct AirHandler>;
using UnitId = Id<struct Unit>;
using ProfileId = Id<struct ControllerProfile>;
using RoomSensorId = Id<struct RoomSensor>;
using SegmentId = Id<struct NetworkSegment>;
using InstrumentId = Id<struct Instrument>;
using RunId = Id<struct Run>;
using BatchId = Id<struct Batch>;
using DeficiencyId = Id<struct Deficiency>;
using SignOffId = Id<struct SignOff>;

}  // namespace ductwright::fleet
