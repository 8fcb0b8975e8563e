#pragma once

#include <array>
#include <limits>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "air/moist_air.h"
#include "fleet/record.h"

namespace ductwright::verdict {

// What one instrument is worth in one quantity: u = share · |reading| + plus, standard (k = 1), SI.
// A share of a temperature is a share of its degrees Celsius.
struct Worth {
  double share = 0, plus = 0;
  double resolution = 0;  // the limit ±resolution, 0 where not given
  bool known = false;
  bool standardBasis = false;
};

// What is to be thought of readings of one quantity.
struct QuantityFacts {
  double least = -std::numeric_limits<double>::infinity(), most = std::numeric_limits<double>::infinity();  // believable
  bool judges = false;  // its uncertainty enters a check
};

struct KnownInstrument {
  std::array<Worth, fleet::kReadingQuantities> worth{};
  // The first local millisecond after the calibration's last day.
  std::int64_t overdueFrom = std::numeric_limits<std::int64_t>::max();
};

// By what every unit of a project is judged, resolved once: criteria, the site's air, instruments by serial
// number, air handlers and profiles by name. It refers to the snapshot, which must outlive it.
class JudgingContext {
 public:
  explicit JudgingContext(const fleet::Snapshot& project);

  [[nodiscard]] const fleet::Criteria& criteria() const { return m_project.criteria; }
  [[nodiscard]] const air::SiteAir& air() const { return m_air; }
  // Null where the project has no such instrument.
  [[nodiscard]] const KnownInstrument* instrument(fleet::Word serial) const;
  // By the project's defaults, for a reading without an instrument.
  [[nodiscard]] const Worth& unnamed(fleet::ReadingQuantity q) const { return m_unnamed[static_cast<std::size_t>(q)]; }
  [[nodiscard]] const QuantityFacts& facts(fleet::ReadingQuantity q) const { return m_facts[static_cast<std::size_t>(q)]; }
  [[nodiscard]] const fleet::AirHandler* airHandler(std::string_view name) const;
  [[nodiscard]] const fleet::ControllerProfile* profile(std::string_view name) const;

 private:
  struct Slot {
    const std::string* serial = nullptr;
    std::size_t instrument = 0;
  };
  void addInstrument(const fleet::Instrument&);
  [[nodiscard]] std::size_t slotOf(const std::string* serial) const;

  const fleet::Snapshot& m_project;
  air::SiteAir m_air;
  std::vector<KnownInstrument> m_instruments;
  std::vector<Slot> m_slots;  // open addressing, by the address of the shared word
  std::array<Worth, fleet::kReadingQuantities> m_unnamed{};
  std::array<QuantityFacts, fleet::kReadingQuantities> m_facts{};
  std::unordered_map<std::string_view, const fleet::AirHandler*> m_airHandlers;
  std::unordered_map<std::string_view, const fleet::ControllerProfile*> m_profiles;
};

}  // namespace ductwright::verdict
