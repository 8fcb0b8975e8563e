#include "meter.h"

#include <cassert>
#include <cmath>

namespace ductwright::sample {
namespace {

using namespace fleet;

Accuracy accuracy(std::string quantity, double share, double plus, double resolution) {
  Accuracy out;
  out.quantity = std::move(quantity);
  out.share = share;
  out.plus = plus;
  out.resolution = resolution;
  return out;
}

Accuracy flow(double share, double plusCfm) {
  return accuracy("flow", share, plusCfm * quantity::kCfm, quantity::kCfm);
}

Accuracy temperature(double plusFahrenheit) {
  return accuracy("temperature", 0, plusFahrenheit * quantity::kFahrenheitDegree,
                  0.1 * quantity::kFahrenheitDegree);
}

Instrument instrument(std::string serial, const std::string& description, std::vector<Accuracy> accuracies) {
  Instrument out;
  out.serial = std::move(serial);
  out.description = description + " (invented)";
  out.accuracies = std::move(accuracies);
  out.calibratedOn = Day{2026, 3, 16};
  out.calibrationDue = Day{2027, 3, 16};
  return out;
}

std::string numbered(const char* prefix, int number) {
  return prefix + std::to_string(1000 + number);
}

void addKit(std::vector<Instrument>& out, const Kit& kit) {
  const double hundredthKilowatt = 10;
  const double gallon = quantity::kGpm;
  const double column = quantity::kInchOfWater;
  out.push_back(instrument(kit.hood, "capture hood", {flow(0.03, 3)}));
  out.push_back(instrument(kit.lowFlow, "measuring tube for low flows", {flow(0.025, 2)}));
  out.push_back(instrument(kit.traverse, "micromanometer with traverse probe",
                           {flow(0.035, 0), accuracy("pressure", 0.01, 0.0005 * column, 0.0001 * column)}));
  out.push_back(instrument(kit.enteringThermometer, "thermometer with probe", {temperature(0.5)}));
  out.push_back(instrument(kit.dischargeThermometer, "thermometer with probe", {temperature(0.5)}));
  out.push_back(instrument(kit.powerMeter, "clamp-on power meter",
                           {accuracy("heater power", 0.015, hundredthKilowatt, hundredthKilowatt)}));
  out.push_back(instrument(kit.waterMeter, "clamp-on water meter",
                           {accuracy("water flow", 0.03, 0.02 * gallon, 0.01 * gallon)}));
  out.push_back(instrument(kit.waterThermometerIn, "pipe thermometer", {temperature(0.5)}));
  out.push_back(instrument(kit.waterThermometerOut, "pipe thermometer", {temperature(0.5)}));
}

}  // namespace

Kit kitOf(int agent) {
  const int n = agent + 1;
  return {numbered("HD-", n), numbered("LT-", n), numbered("MM-", n), numbered("TE-", n), numbered("TD-", n),
          numbered("PM-", n), numbered("WM-", n), numbered("WI-", n), numbered("WO-", n)};
}

std::vector<Instrument> instrumentsFor(int agents) {
  std::vector<Instrument> out;
  for (int i = 0; i < agents; ++i) addKit(out, kitOf(i));
  Accuracy standard = flow(0.10, 0);
  standard.flowBasis = FlowBasis::standard;
  out.push_back(
      instrument(kStandardDisplay, "flow display of the controllers that show standard air", {standard}));
  out.push_back(instrument(kCrudeVane, "hand-held vane", {flow(0.115, 0)}));
  out.push_back(instrument(kDisagreeingHood, "borrowed capture hood", {flow(0.03, 3)}));
  return out;
}

Meter::Meter(const Instrument& instrument, Random random, double hiddenShare)
    : m_instrument(instrument), m_hiddenShare(hiddenShare) {
  for (const Accuracy& a : instrument.accuracies) m_bias[a.quantity] = random.uniform(-0.9, 0.9);
}

double Meter::shown(ReadingQuantity quantity, double truth, Random& scatter) const {
  const Accuracy* stated = m_instrument.accuracyFor(quantity);
  assert(stated != nullptr);
  const double limit = stated->share * std::abs(truth) + stated->plus;
  const double inLimits = m_bias.at(stated->quantity) + 0.08 * scatter.normal();
  return truth * (1 + m_hiddenShare) + inLimits * limit;
}

}  // namespace ductwright::sample
