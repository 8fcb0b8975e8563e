#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "fleet/building.h"

// What was recorded about a unit: runs and the readings in them, deficiencies, sign-offs.
namespace ductwright::fleet {

// A run of a procedure at a unit. A higher number supersedes the lower ones of the same procedure as a
// whole; points of two runs never mix.
struct Run {
  RunId id;
  Procedure procedure = Procedure::airflow;
  int number = 1;
  std::optional<Timestamp> startedAt;
  std::string startedBy;
  std::string reason;  // why it was done again

  friend bool operator==(const Run&, const Run&) = default;
};

// The identity of a fact: its batch and its place in it.
struct FactKey {
  BatchId batch;
  std::uint32_t ordinal = 0;
  friend auto operator<=>(const FactKey&, const FactKey&) = default;
};

// One reading: a fact, written once. What was typed stands beside its SI value.
struct Reading {
  FactKey key;
  double value = 0;  // SI; a flag is 0 or 1
  std::optional<Timestamp> takenAt;
  std::optional<float> waited;  // seconds since the command
  int run = 1;
  int step = 0;  // see stepName
  Word outlet, typed, instrument, takenBy, note;
  Procedure procedure = Procedure::airflow;
  ReadingQuantity quantity = ReadingQuantity::measuredFlow;
  bool withdrawn = false;  // a slip, struck with a reason: shown, not judged
};

// The order of a unit's readings: by procedure, run and step, then as recorded.
bool recordedBefore(const Reading&, const Reading&);

// The life of one deficiency.
struct DeficiencyMove {
  DeficiencyState to = DeficiencyState::raised;
  Timestamp at;
  std::string by;
  Role role = Role::agent;
  std::string note;
};

struct Deficiency {
  DeficiencyId id;
  int number = 0;           // shown, unique in the project
  std::string cause;        // key of what raised it: equal cause at equal unit is the same deficiency
  UnitId unit;
  Party party = Party::controlsContractor;
  Severity severity = Severity::moderate;
  std::string title;        // what is wrong
  std::string evidence;     // what should be, what is
  std::string closes;       // the reading that would close it
  std::vector<DeficiencyMove> moves;

  [[nodiscard]] DeficiencyState state() const {
    return moves.empty() ? DeficiencyState::raised : moves.back().to;
  }
};

// A named person's word that a unit is proven, frozen by the digest of what was seen.
struct SignOff {
  SignOffId id;
  UnitId unit;
  std::string person;
  Role role = Role::agent;
  std::string meaning;
  Timestamp at;
  std::string digest;            // hex, of the canonical bytes that were signed
  std::string brokenBecause;     // empty while it stands: which later change reopened it
  std::optional<Timestamp> brokenAt;
  std::string brokenBy;
};

// Everything about one unit, immutable once published in a snapshot.
struct UnitRecord {
  Unit unit;
  std::vector<Run> runs;
  std::vector<Reading> readings;  // ordered by recordedBefore
  std::vector<FoundSetting> settings;
  std::vector<SignOff> signOffs;

  // The number of the run that counts (the highest), or nothing where the procedure has no run.
  [[nodiscard]] std::optional<int> currentRun(Procedure) const;
};

enum class DecisionRule : std::uint8_t { simple, guarded };

// The project's acceptance criteria: data, versioned, printed in the report. SI inside.
struct Criteria {
  int version = 1;
  DecisionRule rule = DecisionRule::simple;
  double capabilityRatio = 1;               // U over half-width above which an instrument is not capable
  double capabilityLow = 0.10, capabilityHigh = 0.90;
  double guardLow = 0.05, guardHigh = 0.95;
  double closeLow = 0.05, closeHigh = 0.95;

  double flowLow = 0.10, flowHigh = 0.10;   // share of design below and above
  Airflow flowFloor = quantity::cfm(10);
  double reportedShare = 0.10;
  Airflow reportedFloor = quantity::cfm(10);

  double heatEnableRatio = 0.75;
  double lockoutFlowTolerance = 0.10;
  double lockoutReportedShare = 0.10;       // of a reported flow used as the heater's, rectangular

  double riseShare = 0.15;
  TemperatureDifference riseFloor = quantity::fahrenheitDegrees(2);
  TemperatureDifference limitAboveSetpoint = quantity::fahrenheitDegrees(20);
  TemperatureDifference ventilationNote = quantity::fahrenheitDegrees(15);
  TemperatureDifference coldWhenOff = quantity::fahrenheitDegrees(2);
  double nameplateShare = 0.05, coilModelShare = 0.10;

  double defaultFlowShare = 0.05, defaultPowerShare = 0.05;
  TemperatureDifference defaultTemperature = quantity::fahrenheitDegrees(1);
  TemperatureDifference sameInstrument = quantity::kelvins(0.3 * 5.0 / 9.0);
  double humidityRatio = 0.008;

  Duration strokeUnknown = quantity::seconds(90), settle = quantity::seconds(60);
  Duration lockoutWait = quantity::seconds(120), heatOnWait = quantity::seconds(300);
  Duration heatOffWaterWait = quantity::seconds(900), heatOffElectricWait = quantity::seconds(180);
  Pressure leastControllable = quantity::inchesOfWater(0.01);
  double starvedDamper = 0.95, valveOpen = 0.95;
  double largestCorrection = 0.20;

  friend bool operator==(const Criteria&, const Criteria&) = default;
};

// The whole project as one immutable value. A new revision shares every unit that did not change.
struct Snapshot {
  std::uint64_t revision = 0;
  std::string projectName;
  quantity::System system = quantity::System::ip;
  Length elevation;
  Criteria criteria;
  std::vector<Building> buildings;
  std::vector<AirHandler> airHandlers;
  std::vector<ControllerProfile> profiles;
  std::vector<RoomSensor> roomSensors;
  std::vector<NetworkSegment> segments;
  std::vector<Instrument> instruments;
  std::vector<std::shared_ptr<const UnitRecord>> units;  // in schedule order
  std::vector<Deficiency> deficiencies;

  [[nodiscard]] const UnitRecord* unit(std::string_view tag) const;
  [[nodiscard]] const UnitRecord* unit(UnitId) const;
  [[nodiscard]] const AirHandler* airHandler(std::string_view name) const;
  [[nodiscard]] const ControllerProfile* profile(std::string_view name) const;
  [[nodiscard]] const RoomSensor* roomSensor(std::string_view name) const;
  [[nodiscard]] const NetworkSegment* segment(std::string_view name) const;
  [[nodiscard]] const Instrument* instrument(std::string_view serial) const;
};

}  // namespace ductwright::fleet
