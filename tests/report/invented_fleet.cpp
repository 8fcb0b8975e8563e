#include "invented_fleet.h"

#include <array>
#include <cmath>
#include <memory>

namespace ductwright::report {
namespace {

using fleet::AirflowStep;
using fleet::code;
using fleet::HeatKind;
using fleet::Procedure;
using fleet::ReadingQuantity;
using fleet::RiseStep;
using fleet::UnitKind;
using fleet::UnitRecord;
using fleet::Word;
using quantity::cfm;
using quantity::fahrenheit;

constexpr std::size_t kStarved = 3, kHeatsTooSoon = 5, kUnmeasured = 7;
constexpr std::int64_t kMorning = 1'777'363'200'000;  // 2026-04-28T08:00:00Z

// Pseudo-random numbers that are the same everywhere (splitmix64).
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : m_state(seed) {}
  double between(double low, double high) { return low + (high - low) * static_cast<double>(next() >> 11) * 0x1.0p-53; }

 private:
  std::uint64_t next() {
    std::uint64_t z = (m_state += 0x9e3779b97f4a7c15);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9;
    z = (z ^ (z >> 27)) * 0x94d049bb133111eb;
    return z ^ (z >> 31);
  }
  std::uint64_t m_state;
};

template <class Record>
fleet::Id<Record> idOf(std::uint8_t kind, std::size_t number) {
  fleet::Id<Record> id;
  id.uuid.bytes[0] = kind;
  for (std::size_t i = 0; i < 8; ++i) id.uuid.bytes[15 - i] = static_cast<std::uint8_t>(number >> (8 * i));
  return id;
}

class Scribe {
 public:
  Scribe(UnitRecord& record, std::size_t number) : m_record(record), m_number(number) {}

  void run(Procedure procedure) {
    m_record.runs.push_back({idOf<fleet::Run>(7, m_number * 3 + m_record.runs.size()), procedure, 1, fleet::Timestamp{m_at, 0}, "M. Invented", ""});
    m_procedure = procedure;
  }
  void step(int step, float waited) {
    m_step = step;
    m_waited = waited;
    m_at += 6 * 60'000;
  }
  void read(ReadingQuantity quantity, double si, const char* instrument = "") {
    fleet::Reading reading;
    reading.key = {idOf<fleet::Batch>(8, m_number), static_cast<std::uint32_t>(m_record.readings.size())};
    reading.value = si;
    reading.takenAt = fleet::Timestamp{m_at, 0};
    reading.waited = m_waited;
    reading.step = m_step;
    reading.procedure = m_procedure;
    reading.quantity = quantity;
    reading.instrument = Word(instrument);
    reading.takenBy = Word("M. Invented");
    m_record.readings.push_back(reading);
  }

 private:
  UnitRecord& m_record;
  std::size_t m_number;
  Procedure m_procedure = Procedure::airflow;
  int m_step = 0;
  float m_waited = 0;
  std::int64_t m_at = kMorning;
};

constexpr double kTracer = 0.02;  // spread of a measured flow about the true one

void readAirflow(UnitRecord& record, std::size_t number, Dice& dice) {
  const fleet::Unit& unit = record.unit;
  Scribe scribe(record, number);
  scribe.run(Procedure::airflow);
  const double truth = number == kStarved ? 0.62 : dice.between(0.97, 1.03);
  for (const auto& [step, design] : {std::pair{AirflowStep::coolingMax, unit.coolingMax}, {AirflowStep::coolingMin, unit.coolingMin},
                                     {AirflowStep::heatingMax, unit.heatingMax}, {AirflowStep::reheat, unit.reheat}}) {
    if (!design) continue;
    const double share = step == AirflowStep::coolingMax || number != kStarved ? truth : 1.0;
    scribe.step(code(step), 240);
    scribe.read(ReadingQuantity::measuredFlow, design->si() * share * dice.between(1 - kTracer, 1 + kTracer), "FL-31");
    scribe.read(ReadingQuantity::reportedFlow, design->si() * share);
    scribe.read(ReadingQuantity::damperPosition, step == AirflowStep::coolingMax && number == kStarved ? 1.0 : dice.between(0.3, 0.8));
    scribe.read(ReadingQuantity::inletPressureDifference, 40 * share * share, "PR-07");
  }
}

void readLockout(UnitRecord& record, std::size_t number) {
  Scribe scribe(record, number);
  scribe.run(Procedure::reheatLockout);
  struct Seen { double share; bool called, on; };
  const bool tooSoon = number == kHeatsTooSoon;
  const std::array seen{Seen{1.0, true, true}, Seen{0.83, true, true}, Seen{0.68, true, tooSoon}, Seen{0.5, true, false}, Seen{1.0, false, false}};
  const double reheat = record.unit.reheat->si();
  for (std::size_t i = 0; i < seen.size(); ++i) {
    scribe.step(static_cast<int>(i) + 1, 180);
    scribe.read(ReadingQuantity::measuredFlow, reheat * seen[i].share, "FL-31");
    scribe.read(ReadingQuantity::flowSetpoint, reheat);
    scribe.read(ReadingQuantity::heatCall, seen[i].called ? 1 : 0);
    scribe.read(ReadingQuantity::heatOn, seen[i].on ? 1 : 0);
  }
}

void readRise(UnitRecord& record, std::size_t number, Dice& dice) {
  Scribe scribe(record, number);
  scribe.run(Procedure::dischargeRise);
  const double flow = record.unit.reheat->si(), entering = fahrenheit(58).si();
  const double power = record.unit.heaterPower ? record.unit.heaterPower->si() : 0;
  for (const RiseStep step : {RiseStep::heatForced, RiseStep::heatOn, RiseStep::heatOff}) {
    scribe.step(code(step), step == RiseStep::heatOff ? 960 : 360);
    const double share = step == RiseStep::heatForced ? 1.0 : step == RiseStep::heatOn ? 0.9 : 0.0;
    const double rise = power > 0 ? share * power / (1.2 * 1006 * flow) : share * 14;
    scribe.read(ReadingQuantity::measuredFlow, flow, "FL-31");
    scribe.read(ReadingQuantity::enteringAirTemperature, entering, "TH-12");
    scribe.read(ReadingQuantity::dischargeAirTemperature, entering + rise * dice.between(0.98, 1.02), "TH-12");
    if (power > 0) scribe.read(ReadingQuantity::heaterPower, power * share, "PW-02");
    if (power == 0) {
      scribe.read(ReadingQuantity::enteringWaterTemperature, fahrenheit(160).si(), "TH-12");
      scribe.read(ReadingQuantity::leavingWaterTemperature, fahrenheit(160).si() - rise * 1.2 * 1012 * flow / (4.115e6 * 6.3e-5), "TH-12");
      scribe.read(ReadingQuantity::waterFlow, share > 0 ? 6.3e-5 : 0, "WF-01");
    }
  }
}

fleet::Unit designOf(std::size_t number, Dice& dice) {
  fleet::Unit unit;
  unit.id = idOf<fleet::Unit>(1, number);
  const std::size_t floor = number / 24 + 1;
  unit.tag = "T-" + std::to_string(floor) + "-" + std::to_string(number % 24 + 1);
  unit.building = "Invented Hall";
  unit.floor = "Level " + std::to_string(floor);
  unit.zone = "Room " + std::to_string(floor * 100 + number % 24 + 1);
  unit.airHandler = number % 24 < 14 ? "AH-1" : "AH-2";
  unit.inletDiameter = quantity::inches(8);
  const double most = 50 * std::round(dice.between(8, 16));
  unit.coolingMax = cfm(most);
  unit.coolingMin = cfm(0.2 * most);
  unit.ventilationMin = cfm(0.15 * most);
  unit.flowCoefficient = quantity::FlowCoefficient::fromSi(0.028);
  unit.profile = "P-2";
  unit.segment = "Trunk " + std::to_string(floor);
  unit.macAddress = static_cast<int>(number % 24) + 4;
  unit.deviceInstance = 100000 + static_cast<std::int64_t>(number);
  if (number % 4 == 2) return unit;  // cooling only
  unit.kind = UnitKind::reheat;
  unit.heatingMax = unit.reheat = cfm(0.5 * most);
  unit.heat = number % 2 == 0 ? HeatKind::hotWater : HeatKind::electricStaged;
  if (unit.heat == HeatKind::electricStaged) {
    unit.heaterPower = quantity::kilowatts(std::round(0.5 * most / 80 * 2) / 2);
    unit.heaterStages = 2;
  } else {
    unit.coilWaterFlow = quantity::gallonsPerMinute(1);
    unit.coilEnteringWater = fahrenheit(160);
    unit.designEnteringAir = fahrenheit(58);
    unit.designDischarge = fahrenheit(85);
  }
  unit.dischargeLimit = fahrenheit(95);
  unit.zoneHeatingSetpoint = fahrenheit(70);
  unit.zoneCoolingSetpoint = fahrenheit(75);
  return unit;
}

void addInstruments(fleet::Snapshot& project) {
  const auto add = [&](const char* serial, const char* what, const char* quantity, double share, double plus, fleet::Day due) {
    fleet::Instrument instrument;
    instrument.id = idOf<fleet::Instrument>(2, project.instruments.size());
    instrument.serial = serial;
    instrument.description = what;
    instrument.accuracies = {{quantity, share, plus, 0, {}, {}, {}}};
    instrument.calibratedOn = fleet::Day{static_cast<std::int16_t>(due.year - 1), due.month, due.day};
    instrument.calibrationDue = due;
    project.instruments.push_back(instrument);
  };
  add("FL-31", "Flow hood (invented)", "flow", 0.03, cfm(3).si(), {2027, 1, 15});
  add("PR-07", "Micromanometer (invented)", "pressure", 0.01, 0.25, {2027, 2, 1});
  add("TH-12", "Thermometer (invented)", "temperature", 0, 0.3, {2026, 4, 1});
  add("PW-02", "Power meter (invented)", "power", 0.01, 5, {2027, 3, 20});
  add("WF-01", "Water flow meter (invented)", "water flow", 0.02, 0, {2027, 3, 20});
}

void addDeficiency(fleet::Snapshot& project, std::size_t unit, fleet::Severity severity, const char* title, const char* evidence) {
  if (unit >= project.units.size()) return;
  fleet::Deficiency d;
  d.id = idOf<fleet::Deficiency>(3, project.deficiencies.size());
  d.number = static_cast<int>(project.deficiencies.size()) + 1;
  d.unit = project.units[unit]->unit.id;
  d.severity = severity;
  d.party = severity == fleet::Severity::safety ? fleet::Party::electricalContractor : fleet::Party::mechanicalContractor;
  d.title = title;
  d.evidence = evidence;
  d.closes = "A new run of the procedure that passes";
  d.moves.push_back({fleet::DeficiencyState::raised, fleet::Timestamp{kMorning + 3'600'000, 0}, "M. Invented", fleet::Role::agent, ""});
  project.deficiencies.push_back(d);
}

}  // namespace

fleet::Snapshot inventedFleet(std::size_t units, quantity::System system) {
  fleet::Snapshot project;
  project.projectName = "Invented Hall, terminal units";
  project.system = system;
  project.elevation = quantity::feet(1200);
  project.buildings = {{idOf<fleet::Building>(4, 0), "Invented Hall", project.elevation}};
  for (const char* name : {"AH-1", "AH-2"}) {
    fleet::AirHandler handler;
    handler.id = idOf<fleet::AirHandler>(5, project.airHandlers.size());
    handler.name = name;
    handler.designFlow = cfm(400.0 * static_cast<double>(units));
    handler.supplyAirTemperature = fahrenheit(55);
    project.airHandlers.push_back(handler);
  }
  addInstruments(project);
  for (std::size_t number = 0; number < units; ++number) {
    Dice dice(number + 1);
    auto record = std::make_shared<UnitRecord>();
    record->unit = designOf(number, dice);
    if (number != kUnmeasured) readAirflow(*record, number, dice);
    if (record->unit.heat != HeatKind::none) {
      readLockout(*record, number);
      readRise(*record, number, dice);
    }
    if (number == 0) {
      record->signOffs.push_back({idOf<fleet::SignOff>(6, 0), record->unit.id, "M. Invented", fleet::Role::agent, "Proven by test",
                                  fleet::Timestamp{kMorning + 86'400'000, 0}, std::string(64, 'a'), "", {}, ""});
    }
    project.units.push_back(std::move(record));
  }
  addDeficiency(project, kStarved, fleet::Severity::major, "Short of air at cooling max", "Should be within 10 % of design, is 62 % of it");
  addDeficiency(project, kHeatsTooSoon, fleet::Severity::safety, "Heater on with too little air", "Heat was on at 68 % of the reheat flow; it must be off below 75 %");
  return project;
}

}  // namespace ductwright::report
