#include "verdict/context.h"

#include <bit>
#include <chrono>

#include "metrology/uncertainty.h"

namespace ductwright::verdict {
namespace {

using fleet::ReadingQuantity;
using quantity::Dimension;

// An instrument that states neither a limit nor a certificate for a quantity is worth the project's default in it.
Worth worthOf(const fleet::Accuracy& accuracy, const Worth& otherwise) {
  Worth w = otherwise;
  w.known = accuracy.expanded || accuracy.share > 0 || accuracy.plus > 0;
  w.resolution = accuracy.resolution;
  w.standardBasis = accuracy.flowBasis == fleet::FlowBasis::standard;
  if (!w.known) return w;
  if (accuracy.expanded) {
    w.share = 0;
    w.plus = metrology::fromCertificate(*accuracy.expanded, accuracy.coverage.value_or(metrology::kCoverage));
  } else {
    w.share = metrology::rectangular(accuracy.share);
    w.plus = metrology::rectangular(accuracy.plus);
  }
  return w;
}

Worth defaultWorth(ReadingQuantity quantity, const fleet::Criteria& criteria) {
  Worth w;
  switch (fleet::dimensionOf(quantity)) {
    case Dimension::airflow:
    case Dimension::waterFlow: w.share = metrology::rectangular(criteria.defaultFlowShare); break;
    case Dimension::power: w.share = metrology::rectangular(criteria.defaultPowerShare); break;
    case Dimension::temperature: w.plus = metrology::rectangular(criteria.defaultTemperature.si()); break;
    default: break;
  }
  return w;
}

// Quantities whose uncertainty enters a check. A reported flow is what is judged, not what judges.
bool judges(ReadingQuantity q) {
  switch (q) {
    case ReadingQuantity::measuredFlow:
    case ReadingQuantity::outletFlow:
    case ReadingQuantity::fanFlow:
    case ReadingQuantity::enteringAirTemperature:
    case ReadingQuantity::dischargeAirTemperature:
    case ReadingQuantity::primaryAirTemperature:
    case ReadingQuantity::plenumAirTemperature:
    case ReadingQuantity::enteringWaterTemperature:
    case ReadingQuantity::leavingWaterTemperature:
    case ReadingQuantity::waterFlow:
    case ReadingQuantity::heaterPower: return true;
    default: return false;
  }
}

// The believable range is wider than any air or water in a building: common practice.
QuantityFacts factsOf(ReadingQuantity q) {
  QuantityFacts out;
  out.judges = judges(q);
  switch (fleet::dimensionOf(q)) {
    case Dimension::airflow:
    case Dimension::waterFlow:
    case Dimension::power:
    case Dimension::count: out.least = 0; break;
    case Dimension::flag:
      out.least = 0;
      out.most = 1;
      break;
    case Dimension::ratio:
      out.least = -0.05;
      out.most = 1.05;
      break;
    case Dimension::temperature:
      out.least = quantity::celsius(-40).si();
      out.most = quantity::celsius(120).si();
      break;
    default: break;
  }
  return out;
}

// The first millisecond after a day, on the day's own clock.
std::int64_t endOf(const fleet::Day& day) {
  using namespace std::chrono;
  const sys_days midnight{year(day.year) / month(day.month) / std::chrono::day(day.day)};
  return duration_cast<milliseconds>((midnight + days(1)).time_since_epoch()).count();
}

}  // namespace

JudgingContext::JudgingContext(const fleet::Snapshot& project)
    : m_project(project), m_air(air::siteAir(project.elevation, project.criteria.humidityRatio)) {
  for (std::size_t q = 0; q < fleet::kReadingQuantities; ++q) {
    m_unnamed[q] = defaultWorth(static_cast<ReadingQuantity>(q), project.criteria);
    m_facts[q] = factsOf(static_cast<ReadingQuantity>(q));
  }
  m_slots.resize(std::bit_ceil(2 * project.instruments.size() + 2));
  m_instruments.reserve(project.instruments.size());
  for (const fleet::Instrument& instrument : project.instruments) addInstrument(instrument);
  for (const fleet::AirHandler& handler : project.airHandlers) m_airHandlers.try_emplace(handler.name, &handler);
  for (const fleet::ControllerProfile& profile : project.profiles) m_profiles.try_emplace(profile.name, &profile);
}

void JudgingContext::addInstrument(const fleet::Instrument& instrument) {
  const fleet::Word serial(instrument.serial);
  if (serial.empty() || this->instrument(serial)) return;
  KnownInstrument known;
  for (std::size_t q = 0; q < fleet::kReadingQuantities; ++q) {
    const fleet::Accuracy* accuracy = instrument.accuracyFor(static_cast<ReadingQuantity>(q));
    known.worth[q] = accuracy ? worthOf(*accuracy, m_unnamed[q]) : m_unnamed[q];
  }
  if (instrument.calibrationDue) known.overdueFrom = endOf(*instrument.calibrationDue);
  const std::string* key = &serial.text();
  m_slots[slotOf(key)] = {key, m_instruments.size()};
  m_instruments.push_back(known);
}

std::size_t JudgingContext::slotOf(const std::string* serial) const {
  const std::size_t mask = m_slots.size() - 1;
  std::size_t at = (std::bit_cast<std::uintptr_t>(serial) >> 4) * 0x9E3779B97F4A7C15ULL >> 32 & mask;
  while (m_slots[at].serial && m_slots[at].serial != serial) at = (at + 1) & mask;
  return at;
}

const KnownInstrument* JudgingContext::instrument(fleet::Word serial) const {
  if (serial.empty()) return nullptr;
  const Slot& slot = m_slots[slotOf(&serial.text())];
  return slot.serial ? &m_instruments[slot.instrument] : nullptr;
}

const fleet::AirHandler* JudgingContext::airHandler(std::string_view name) const {
  const auto found = m_airHandlers.find(name);
  return found == m_airHandlers.end() ? nullptr : found->second;
}

const fleet::ControllerProfile* JudgingContext::profile(std::string_view name) const {
  const auto found = m_profiles.find(name);
  return found == m_profiles.end() ? nullptr : found->second;
}

}  // namespace ductwright::verdict
