#pragma once

#include <random>

#include "support.h"

// Random actions of a person, the same for the same seed.
namespace ductwright::store::testing {

class RandomActions {
 public:
  RandomActions(ProjectFile& project, std::uint32_t seed)
      : m_project(project), m_environment(fixedEnvironment("ids", seed)), m_random(seed) {}

  // Does one action on the project as it stands. Answers what the commit did.
  Result<Committed> one(const fleet::Snapshot& now) {
    const int kind = now.units.empty() ? 0 : number(0, 11);
    return m_project.commit({"Action " + std::to_string(kind), "A. Invented"},
                            [&](Writer& w) -> Result<void> {
                              act(kind, now, w);
                              return {};
                            });
  }

  int number(int low, int high) { return std::uniform_int_distribution<int>(low, high)(m_random); }

 private:
  void act(int kind, const fleet::Snapshot& now, Writer& w) {
    if (kind <= 1) return addUnit(w);
    const fleet::UnitRecord& record =
        *now.units[static_cast<std::size_t>(number(0, static_cast<int>(now.units.size()) - 1))];
    fleet::Unit unit = record.unit;
    switch (kind) {
      case 2:
        unit.coolingMax = quantity::cfm(number(100, 900));
        unit.zone = number(0, 1) == 0 ? "" : "Zone " + std::to_string(number(1, 9));
        return w.put(unit);
      case 3:
        return w.remove(unit.id);
      case 4:
        return w.put(unit.id, fleet::Run{m_environment.newId<fleet::Run>(), fleet::Procedure::airflow,
                                         number(1, 5), m_environment.now(), "A. Invented", "again"});
      case 5:
      case 6:
        return addReadings(unit.id, w);
      case 7:
        if (!record.readings.empty()) w.withdraw(record.readings.front().key, "slip");
        return;
      case 8:
        return w.put(fleet::FoundSetting{unit.id, "cooling max flow", std::to_string(number(1, 5)),
                                         number(1, 5) * 0.1, std::nullopt});
      case 9:
        return addDeficiency(unit.id, w);
      case 10:
        return changeLists(now, w);
      default:
        if (!record.readings.empty())
          w.withdrawBatch(record.readings.back().key.batch, "the wrong floor");
        else
          addUnit(w);
    }
  }

  void addUnit(Writer& w) { w.put(inventedUnit(m_environment, "2-" + std::to_string(++m_units))); }

  void addReadings(fleet::UnitId unit, Writer& w) {
    const auto batch = w.newBatch("readings.csv");
    for (int i = number(1, 20); i > 0; --i) {
      fleet::Reading r = inventedReading(number(50, 900), static_cast<fleet::AirflowStep>(number(0, 8)));
      r.run = number(1, 3);
      w.addReading(batch, unit, r);
    }
  }

  void addDeficiency(fleet::UnitId unit, Writer& w) {
    fleet::Deficiency d;
    d.id = m_environment.newId<fleet::Deficiency>();
    d.unit = unit;
    d.number = ++m_deficiencies;
    d.title = "Invented";
    w.put(d);
    for (int i = number(1, 3); i > 0; --i)
      w.addMove(
          unit, d.id,
          {fleet::DeficiencyState::accepted, m_environment.now(), "B. Invented", fleet::Role::agent, ""});
  }

  void changeLists(const fleet::Snapshot& now, Writer& w) {
    fleet::Instrument hood;
    hood.id = m_environment.newId<fleet::Instrument>();
    hood.serial = "INV-" + std::to_string(number(1, 99));
    hood.accuracies.resize(static_cast<std::size_t>(number(0, 3)));
    w.put(hood);
    if (!now.instruments.empty()) w.remove(now.instruments.front().id);
    w.put(fleet::AirHandler{m_environment.newId<fleet::AirHandler>(), "AHU-" + std::to_string(number(1, 4)),
                            quantity::cfm(number(1000, 9000)), std::nullopt, std::nullopt, std::nullopt});
    fleet::Criteria criteria = now.criteria;
    ++criteria.version;
    criteria.flowLow = 0.01 * number(5, 15);
    w.put(criteria);
    w.put(ProjectInfo{"Invented Tower " + std::to_string(number(1, 3)), now.system, now.elevation});
  }

  ProjectFile& m_project;
  Environment m_environment;
  std::mt19937 m_random;
  int m_units = 0, m_deficiencies = 0;
};

}  // namespace ductwright::store::testing
