#pragma once

#include <cmath>
#include <functional>
#include <random>
#include <string>
#include <vector>

#include "fleet_for_tests.h"

// A larger invented building, tested for airflow: what its boxes do, what its controllers show, and what
// several people read with several instruments. Tests plant one thing in it.
namespace ductwright::verdict {

struct BoxForTests {
  fleet::Unit unit;
  double reportedFactor = 1;  // reported ÷ true flow: the error of its flow coefficient
  double supply = 1;          // the share of its greatest flow that the duct can give
  std::string instrument, takenBy;
};

struct SiteForTests {
  std::mt19937_64 random;
  std::vector<BoxForTests> boxes;
  std::vector<std::pair<std::string, double>> instruments;  // serial, reads ÷ true
  double accuracy = 0.03;                                   // of every instrument, of reading
  double unitScatter = 0.03, readingScatter = 0.01;         // standard deviations, relative

  double normal(double sd) { return std::normal_distribution<double>(0, sd)(random); }
  double between(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  }
  template <class T>
  const T& oneOf(const std::vector<T>& all) {
    return all[std::uniform_int_distribution<std::size_t>(0, all.size() - 1)(random)];
  }
};

// So many units on `floors` floors and three air handlers, sizes mixed, four instruments within ±3 %.
inline SiteForTests siteForTests(std::uint64_t seed, std::size_t units, int floors = 4) {
  SiteForTests site;
  site.random.seed(seed);
  for (int i = 0; i < 4; ++i)
    site.instruments.emplace_back("H-" + std::to_string(i + 1), 1 + site.between(-0.03, 0.03));
  const std::vector<double> sizes{6, 8, 10, 12};
  const std::vector<std::string> airHandlers{"AH-1", "AH-2", "AH-3"};
  for (std::size_t i = 0; i < units; ++i) {
    BoxForTests box;
    const int floor = 1 + static_cast<int>(i * static_cast<std::size_t>(floors) / units);
    box.unit =
        unitForTests(static_cast<std::uint32_t>(i + 1), std::to_string(floor) + "-" + std::to_string(i + 1));
    box.unit.floor = std::to_string(floor);
    box.unit.airHandler = site.oneOf(airHandlers);
    const double size = site.oneOf(sizes);
    const double area = quantity::circle(quantity::inches(size)).si();
    const auto flow = [&](double fpm) {
      const double cfm = fpm * quantity::kFpm * area / quantity::kCfm;
      return quantity::cfm(std::max(20.0, std::round(cfm / 5) * 5));
    };
    box.unit.inletDiameter = quantity::inches(size);
    box.unit.coolingMax = flow(site.between(1000, 1800));
    box.unit.coolingMin = flow(site.between(420, 500));
    box.unit.heatingMax = box.unit.reheat = flow(site.between(600, 900));
    box.unit.heatingMin = box.unit.coolingMin;
    box.reportedFactor = std::exp(site.normal(site.unitScatter));
    box.instrument = site.oneOf(site.instruments).first;
    box.takenBy = site.between(0, 1) < 0.5 ? "A. Marsh" : "B. Field";
    site.boxes.push_back(std::move(box));
  }
  return site;
}

inline double readsOf(const SiteForTests& site, const std::string& serial) {
  for (const auto& [name, reads] : site.instruments)
    if (name == serial) return reads;
  return 1;
}

inline fleet::Reading readingForTests(int step, fleet::ReadingQuantity q, double value,
                                      const BoxForTests& box) {
  fleet::Reading r;
  r.value = value;
  r.waited = 300.0F;
  r.step = step;
  r.takenBy = fleet::Word(box.takenBy);
  r.quantity = q;
  if (q == fleet::ReadingQuantity::measuredFlow) r.instrument = fleet::Word(box.instrument);
  return r;
}

// One step: the controller drives its own reported flow to the setpoint as far as the duct gives air.
inline void readStep(SiteForTests& site, const BoxForTests& box, fleet::AirflowStep step,
                     quantity::Airflow design, fleet::UnitRecord& record) {
  using enum fleet::ReadingQuantity;
  const double wanted = design.si() / box.reportedFactor;
  const double available = box.supply * box.unit.coolingMax->si() * 1.15;
  const bool starved = wanted > available;
  const double flow = (starved ? available : wanted) * std::exp(site.normal(site.readingScatter));
  const auto rounded = [](double si) { return std::round(si / quantity::kCfm) * quantity::kCfm; };
  record.readings.push_back(readingForTests(code(step), damperPosition, starved ? 1.0 : 0.6, box));
  record.readings.push_back(readingForTests(
      code(step), measuredFlow,
      rounded(flow * readsOf(site, box.instrument) * std::exp(site.normal(site.readingScatter))), box));
  record.readings.push_back(
      readingForTests(code(step), reportedFlow, rounded(flow * box.reportedFactor), box));
}

inline fleet::Snapshot testedSite(SiteForTests& site) {
  fleet::Snapshot project;
  project.projectName = "Office (invented)";
  for (const auto& [serial, reads] : site.instruments) {
    fleet::Instrument instrument;
    instrument.serial = serial;
    instrument.accuracies.push_back({.quantity = "flow",
                                     .share = site.accuracy,
                                     .plus = 0,
                                     .resolution = 0,
                                     .expanded = {},
                                     .coverage = {},
                                     .flowBasis = {}});
    project.instruments.push_back(std::move(instrument));
  }
  for (const BoxForTests& box : site.boxes) {
    auto record = std::make_shared<fleet::UnitRecord>();
    record->unit = box.unit;
    record->runs.push_back({});
    readStep(site, box, fleet::AirflowStep::coolingMax, *box.unit.coolingMax, *record);
    readStep(site, box, fleet::AirflowStep::coolingMin, *box.unit.coolingMin, *record);
    readStep(site, box, fleet::AirflowStep::heatingMax, *box.unit.heatingMax, *record);
    project.units.push_back(std::move(record));
  }
  return project;
}

}  // namespace ductwright::verdict
