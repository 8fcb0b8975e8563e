#pragma once

#include <memory>
#include <random>
#include <string>

#include "fleet/record.h"

// Fleets of every kind of unit with readings of every kind, sensible or not, from a seed.
namespace ductwright::property {

class RandomFleet {
 public:
  explicit RandomFleet(unsigned seed) : m_random(seed) {}

  fleet::Snapshot snapshot(int units) {
    fleet::Snapshot out;
    out.elevation = quantity::feet(uniform(0, 6000));
    out.criteria.rule = chance(0.3) ? fleet::DecisionRule::guarded : fleet::DecisionRule::simple;
    addInstruments(out);
    addDesign(out);
    for (int i = 0; i < units; ++i) out.units.push_back(std::make_shared<fleet::UnitRecord>(record(i)));
    return out;
  }

  double uniform(double low, double high) { return std::uniform_real_distribution<double>(low, high)(m_random); }
  int below(int n) { return std::uniform_int_distribution<int>(0, n - 1)(m_random); }
  bool chance(double p) { return uniform(0, 1) < p; }
  std::mt19937& engine() { return m_random; }

  fleet::UnitRecord record(int number) {
    fleet::UnitRecord out;
    out.unit = unit(number);
    for (const auto procedure : fleet::valuesOf<fleet::Procedure>()) {
      const int runs = below(10) == 0 ? 0 : 1 + (below(4) == 0 ? 1 : 0);
      for (int run = 1; run <= runs; ++run) addRun(out, procedure, run);
    }
    return out;
  }

 private:
  void addInstruments(fleet::Snapshot& out) {
    const auto add = [&](const char* serial, const char* quantity, double share, double plus, bool standard) {
      fleet::Accuracy a;
      a.quantity = quantity;
      a.share = share;
      a.plus = plus;
      if (chance(0.3)) {
        a.expanded = plus > 0 ? plus : 0.003;
        a.coverage = 2;
      }
      if (standard) a.flowBasis = fleet::FlowBasis::standard;
      if (chance(0.3)) a.resolution = plus / 5;
      fleet::Instrument instrument;
      instrument.serial = serial;
      instrument.accuracies = {a};
      out.instruments.push_back(instrument);
    };
    add("H1", "flow", 0.03, 0.003, false);
    add("H2", "flow", 0.05, 0, chance(0.5));
    add("T1", "temperature", 0, 0.3, false);
    add("T2", "temperature", 0, 0.15, false);
    add("P1", "power", 0.02, 0, false);
    add("W1", "water flow", 0.04, 0, false);
  }

  void addDesign(fleet::Snapshot& out) {
    fleet::ControllerProfile profile;
    profile.name = "P";
    profile.strokeTime = quantity::seconds(60);
    out.profiles = {profile};
    fleet::AirHandler handler;
    handler.name = "AH-1";
    handler.supplyAirTemperature = quantity::fahrenheit(56);
    out.airHandlers = {handler};
  }

  template <class T>
  std::optional<T> maybe(double p, T value) {
    return chance(p) ? std::optional<T>(value) : std::nullopt;
  }

  fleet::Unit unit(int number) {
    fleet::Unit u;
    u.id.uuid.bytes[15] = static_cast<std::uint8_t>(number);
    u.id.uuid.bytes[14] = static_cast<std::uint8_t>(number >> 8);
    u.tag = "U" + std::to_string(number);
    u.kind = static_cast<fleet::UnitKind>(below(6));
    u.heat = static_cast<fleet::HeatKind>(below(4));
    u.heaterPosition = static_cast<fleet::HeaterPosition>(below(2));
    u.flowBasis = static_cast<fleet::FlowBasis>(below(2));
    u.airHandler = chance(0.8) ? "AH-1" : "";
    u.profile = chance(0.7) ? "P" : "";
    const double max = 50.0 * (2 + below(30));
    u.coolingMax = quantity::cfm(max);
    u.coolingMin = maybe(0.8, quantity::cfm(max * 0.25));
    u.heatingMax = maybe(0.5, quantity::cfm(max * 0.5));
    u.heatingMin = maybe(0.4, quantity::cfm(max * 0.25));
    u.reheat = maybe(0.6, quantity::cfm(chance(0.1) ? 0 : max * 0.5));
    u.fan = maybe(0.5, quantity::cfm(max * 1.2));
    if (u.kind == fleet::UnitKind::dualDuct) u.hotMax = maybe(0.8, quantity::cfm(max * 0.8));
    u.inletDiameter = maybe(0.8, quantity::inches(4 + 2 * below(5)));
    u.heaterPower = maybe(0.8, quantity::kilowatts(1 + below(10)));
    u.heaterStages = maybe(0.7, 1 + below(3));
    u.heatEnableRatio = maybe(0.3, 0.1 * below(10));
    u.zoneHeatingSetpoint = maybe(0.8, quantity::fahrenheit(70));
    u.dischargeLimit = maybe(0.3, quantity::fahrenheit(95));
    u.designEnteringAir = maybe(0.7, quantity::fahrenheit(55));
    u.designDischarge = maybe(0.8, quantity::fahrenheit(90));
    u.coilEnteringWater = maybe(0.8, quantity::fahrenheit(150));
    u.coilWaterFlow = maybe(0.8, quantity::gallonsPerMinute(2.5));
    return u;
  }

  double valueOf(const fleet::Unit& u, fleet::ReadingQuantity q) {
    using enum fleet::ReadingQuantity;
    const double max = u.coolingMax->si();
    switch (q) {
      case measuredFlow:
      case reportedFlow:
      case flowSetpoint: return max * 0.25 * (1 + below(4)) * uniform(0.85, 1.15);
      case outletFlow: return max * 0.25 * uniform(0.9, 1.1);
      case fanFlow: return max * uniform(0.8, 1.4);
      case damperPosition:
      case heatSignal:
      case valvePosition: return below(3) == 0 ? 1 : uniform(0, 1);
      case heatCall:
      case heatOn:
      case fanOn: return below(2);
      case stagesOn: return below(4);
      case dischargeAirTemperature: return quantity::fahrenheit(uniform(54, 100)).si();
      case plenumAirTemperature: return quantity::fahrenheit(uniform(70, 78)).si();
      case enteringWaterTemperature: return quantity::fahrenheit(uniform(120, 180)).si();
      case leavingWaterTemperature: return quantity::fahrenheit(uniform(100, 150)).si();
      case heaterPower: return uniform(0, 10'000);
      case waterFlow: return quantity::gallonsPerMinute(uniform(0.5, 4)).si();
      case inletPressureDifference:
      case ductStaticPressure: return uniform(5, 200);
      case mode: return below(4);
      default: return quantity::fahrenheit(uniform(50, 60)).si();
    }
  }

  void addRun(fleet::UnitRecord& out, fleet::Procedure procedure, int run) {
    const int steps = procedure == fleet::Procedure::airflow ? 9 : procedure == fleet::Procedure::dischargeRise ? 3 : 5;
    for (int step = 0; step < steps; ++step) {
      if (chance(0.15)) continue;
      const int minute = 60 * run + 10 * step + (chance(0.1) ? 200 : 0);
      const float waited = chance(0.1) ? 30.0F : 1000.0F;
      for (const auto q : fleet::valuesOf<fleet::ReadingQuantity>()) {
        if (chance(0.5)) continue;
        const int repeats = chance(0.2) ? 3 : 1;
        const double value = valueOf(out.unit, q);
        for (int i = 0; i < repeats; ++i) addReading(out, procedure, run, step, q, i == 0 ? value : scattered(value, q), minute, waited);
      }
    }
  }

  double scattered(double value, fleet::ReadingQuantity q) {
    const auto dimension = fleet::dimensionOf(q);
    if (dimension == quantity::Dimension::flag || dimension == quantity::Dimension::count) return value;
    return dimension == quantity::Dimension::temperature ? value + uniform(-0.5, 0.5) : value * uniform(0.97, 1.03);
  }

  void addReading(fleet::UnitRecord& out, fleet::Procedure procedure, int run, int step, fleet::ReadingQuantity q,
                  double value, int minute, float waited) {
    static constexpr const char* kFlow[] = {"H1", "H2", "", "X"};
    static constexpr const char* kTemperature[] = {"T1", "T1", "T2", "", "X"};
    fleet::Reading r;
    r.key.ordinal = static_cast<std::uint32_t>(out.readings.size());
    r.procedure = procedure;
    r.run = run;
    r.step = step;
    r.quantity = q;
    r.value = value;
    switch (fleet::dimensionOf(q)) {
      case quantity::Dimension::airflow: r.instrument = fleet::Word(kFlow[below(4)]); break;
      case quantity::Dimension::temperature: r.instrument = fleet::Word(kTemperature[below(5)]); break;
      case quantity::Dimension::power: r.instrument = fleet::Word("P1"); break;
      case quantity::Dimension::waterFlow: r.instrument = fleet::Word("W1"); break;
      default: break;
    }
    if (q == fleet::ReadingQuantity::outletFlow) r.outlet = fleet::Word(chance(0.5) ? "A" : "B");
    if (!chance(0.05)) r.waited = waited;
    if (!chance(0.05)) r.takenAt = fleet::Timestamp{1'772'611'200'000 + minute * 60'000LL, 0};
    r.withdrawn = chance(0.03);
    out.readings.push_back(r);
  }

  std::mt19937 m_random;
};

}  // namespace ductwright::property
