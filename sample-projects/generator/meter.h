#pragma once

#include <map>
#include <string>
#include <vector>

#include "fleet/building.h"
#include "random.h"

// The instruments that the agents carry, and how each of them really reads.
namespace ductwright::sample {

inline constexpr const char* kCrudeVane = "VA-9001";        // not good enough for a terminal unit
inline constexpr const char* kStandardDisplay = "CS-7001";  // controllers that show standard flow
inline constexpr const char* kDisagreeingHood = "HD-9002";  // reads high by more than it states

// What one agent carries: serial numbers.
struct Kit {
  std::string hood, lowFlow, traverse, enteringThermometer, dischargeThermometer, powerMeter, waterMeter,
      waterThermometerIn, waterThermometerOut;
};

Kit kitOf(int agent);
std::vector<fleet::Instrument> instrumentsFor(int agents);

// An instrument with its own constant error inside what it states, and a little scatter.
class Meter {
 public:
  Meter(const fleet::Instrument& instrument, Random random, double hiddenShare = 0);
  // What it shows for a true value; SI. It must state an accuracy for the quantity.
  [[nodiscard]] double shown(fleet::ReadingQuantity quantity, double truth, Random& scatter) const;

 private:
  fleet::Instrument m_instrument;
  std::map<std::string, double> m_bias;  // by accuracy, in limits; scatter fills the limit up
  double m_hiddenShare;
};

}  // namespace ductwright::sample
