#include "sample/sample_building.h"

#include <algorithm>
#include <memory>
#include <tuple>
#include <utility>

#include "planting.h"
#include "schedule.h"
#include "visit.h"

namespace ductwright::sample {
namespace {

using namespace fleet;

constexpr std::int64_t kMinute = 60'000, kDay = 24 * 60 * kMinute;
constexpr int kUnitsAgentDay = 9;
constexpr std::int16_t kOffset = -7 * 60;

Timestamp morning(int day) {
  const auto first = Timestamp::fromText("2026-10-12T08:00:00-07:00")->utcMillis;
  return {first + day * kDay, kOffset};
}

std::string agentName(int agent) {
  if (agent == 0) return "R. Oduya (invented)";
  if (agent == 1) return "L. Thornquist (invented)";
  return "agent " + std::to_string(agent + 1) + " (invented)";
}

int agentsFor(const Options& options) {
  const int days = std::max(1, options.days - 1);  // the last day is for what has to be done again
  return std::max(2, (options.units + kUnitsAgentDay * days - 1) / (kUnitsAgentDay * days));
}

// Everything that one building is made from, in the order in which it happens.
class Making {
 public:
  Making(std::uint64_t seed, const Options& options)
      : m_options(options), m_random(seed), m_agents(agentsFor(options)) {}

  SampleBuilding make() {
    describe();
    build();
    equip();
    visit();
    tell();
    return std::move(m_out);
  }

 private:
  void describe();
  void build();
  void equip();
  void visit();
  void tell();
  void visitUnit(std::size_t unit, int agent, Timestamp& clock);
  void balanceAgain(std::size_t unit, int agent, Timestamp& clock);
  void exchangePrograms();
  void findSettings(std::size_t unit);
  Visit visitTo(std::size_t unit, int agent, Notebook& notebook, std::uint64_t number);

  Options m_options;
  Random m_random;
  int m_agents;
  Site m_site;
  std::vector<Unit> m_design;
  std::vector<PhysicalUnit> m_units;
  std::vector<Conduct> m_conduct;
  std::vector<std::shared_ptr<UnitRecord>> m_records;
  std::vector<Kit> m_kits;
  Plan m_plan;
  Meters m_meters;
  FactKey m_next;
  SampleBuilding m_out;
};

void Making::describe() {
  Random random = m_random.stream(1);
  m_design = schedule(m_options.units, random);
  Snapshot& project = m_out.project;
  project.revision = 1;
  project.projectName = kBuilding;
  project.elevation = quantity::feet(kElevationFeet);
  project.profiles = controllerProfiles();
  project.roomSensors = roomSensors();
  project.airHandlers = airHandlersFor(m_design);
  project.segments = segmentsFor(m_design);
  m_plan.fault.assign(m_design.size(), nullptr);
  if (m_options.faults) m_plan = plantFaults(m_design, m_random.stream(2));
  Random ids = m_random.stream(3);
  const auto now = morning(-7).utcMillis;
  project.buildings.push_back(
      {.id = {drawnUuid(now, ids)}, .name = kBuilding, .elevation = project.elevation});
  for (auto& a : project.airHandlers) a.id.uuid = drawnUuid(now, ids);
  for (auto& p : project.profiles) p.id.uuid = drawnUuid(now, ids);
  for (auto& s : project.roomSensors) s.id.uuid = drawnUuid(now, ids);
  for (auto& s : project.segments) s.id.uuid = drawnUuid(now, ids);
  for (auto& u : m_design) u.id.uuid = drawnUuid(now, ids);
  m_next.batch.uuid = drawnUuid(now, ids);
}

void Making::build() {
  Random random = m_random.stream(4);
  m_site = siteAt(m_out.project.elevation.si(), random);
  const double balancerShare = random.uniform(-0.025, 0.025);
  m_conduct.resize(m_design.size());
  for (std::size_t i = 0; i < m_design.size(); ++i) {
    m_units.push_back(physicalUnit(m_design[i], m_site, balancerShare, m_random.stream(1000 + 10 * i)));
    Random harm = m_random.stream(1001 + 10 * i);
    Random habits = m_random.stream(1002 + 10 * i);
    m_conduct[i].metersPower = habits.below(3) != 0;
    m_conduct[i].metersWater = habits.below(2) == 0;
    if (m_plan.fault[i]) m_plan.fault[i]->plant(m_units[i], m_conduct[i], harm);
  }
  exchangePrograms();
}

void Making::exchangePrograms() {
  if (m_plan.exchanged.empty()) return;
  std::swap(m_units[m_plan.exchanged[0]].settings, m_units[m_plan.exchanged[1]].settings);
}

void Making::equip() {
  m_out.project.instruments = instrumentsFor(m_agents);
  Random ids = m_random.stream(5);
  std::uint64_t number = 100;
  for (Instrument& instrument : m_out.project.instruments) {
    instrument.id.uuid = drawnUuid(morning(-7).utcMillis, ids);
    const double hidden = instrument.serial == kDisagreeingHood ? 0.19 : 0;
    m_meters.emplace(instrument.serial, Meter(instrument, m_random.stream(number++), hidden));
  }
  for (int i = 0; i < m_agents; ++i) m_kits.push_back(kitOf(i));
}

Visit Making::visitTo(std::size_t unit, int agent, Notebook& notebook, std::uint64_t number) {
  return Visit({m_design[unit], m_units[unit], m_site}, m_conduct[unit],
               m_kits[static_cast<std::size_t>(agent)], m_meters, notebook,
               m_random.stream(1000 + 10 * unit + number));
}

void Making::visitUnit(std::size_t unit, int agent, Timestamp& clock) {
  if (!m_conduct[unit].visits) return;
  Notebook notebook(*m_records[unit], m_next, agentName(agent), clock);
  notebook.note("invented");
  Visit visit = visitTo(unit, agent, notebook, 3);
  if (m_conduct[unit].copiesDesign) notebook.writtenBy("balancer's report (invented)");
  visit.balance(1, {});
  notebook.writtenBy(agentName(agent));
  if (m_design[unit].heat != HeatKind::none) {
    visit.proveLockout();
    visit.proveRise();
  }
  clock = notebook.now();
  clock.utcMillis += 4 * kMinute;  // on to the next ceiling tile
}

void Making::balanceAgain(std::size_t unit, int agent, Timestamp& clock) {
  const Conduct& conduct = m_conduct[unit];
  if (!conduct.balancesAgain && !conduct.abandonsBalance) return;
  Notebook notebook(*m_records[unit], m_next, agentName(agent), clock);
  Visit visit = visitTo(unit, agent, notebook, 4);
  if (conduct.balancesAgain)
    visit.balance(2, "outlets changed");
  else
    visit.balanceBegun(2, "outlets changed");
  clock = notebook.now();
  clock.utcMillis += 4 * kMinute;
}

void Making::findSettings(std::size_t unit) {
  const Unit& held = m_units[unit].settings;
  const Timestamp readAt{morning(-3).utcMillis + static_cast<std::int64_t>(unit) * 1000, kOffset};
  const auto find = [&](const char* setting, const auto& value, quantity::Dimension dimension) {
    if (!value) return;
    m_records[unit]->settings.push_back({m_design[unit].id, setting,
                                         quantity::write(value->si(), dimension, quantity::System::ip),
                                         value->si(), readAt});
  };
  find("inlet diameter", held.inletDiameter, quantity::Dimension::length);
  find("cooling max flow", held.coolingMax, quantity::Dimension::airflow);
  find("cooling min flow", held.coolingMin, quantity::Dimension::airflow);
  find("heating max flow", held.heatingMax, quantity::Dimension::airflow);
  find("heating min flow", held.heatingMin, quantity::Dimension::airflow);
}

void Making::visit() {
  for (const Unit& unit : m_design) {
    m_records.push_back(std::make_shared<UnitRecord>());
    m_records.back()->unit = unit;
  }
  const auto count = m_design.size();
  const auto agents = static_cast<std::size_t>(m_agents);
  const auto days = static_cast<std::size_t>(std::max(1, m_options.days - 1));
  for (std::size_t day = 0; day < days; ++day) {
    std::vector<Timestamp> clocks(agents, morning(static_cast<int>(day)));
    for (std::size_t i = day * count / days; i < (day + 1) * count / days; ++i)
      visitUnit(i, static_cast<int>(i % agents), clocks[i % agents]);
  }
  std::vector<Timestamp> clocks(agents, morning(static_cast<int>(days)));
  for (std::size_t i = 0; i < count; ++i) balanceAgain(i, static_cast<int>(i % agents), clocks[i % agents]);
  for (std::size_t i = 0; i < count; ++i) {
    findSettings(i);
    auto& readings = m_records[i]->readings;
    std::stable_sort(readings.begin(), readings.end(), [](const Reading& a, const Reading& b) {
      return std::tuple(a.procedure, a.run, a.step) < std::tuple(b.procedure, b.run, b.step);
    });
    m_out.project.units.push_back(m_records[i]);
  }
}

void Making::tell() {
  m_out.findings = m_plan.findings;
  for (const std::size_t i : m_plan.exchanged)
    m_out.planted.push_back({m_design[i].tag,
                             "two units exchanged: each has the other's program",
                             verdict::Criterion::airflow,
                             verdict::Outcome::fail,
                             {},
                             "each measures the other's design"});
  for (std::size_t i = 0; i < m_design.size(); ++i) {
    if (!m_plan.fault[i]) continue;
    const Fault& fault = *m_plan.fault[i];
    for (const Expectation& e : fault.expected)
      m_out.planted.push_back({m_design[i].tag, fault.name, e.criterion, e.outcome, e.because, fault.shows});
  }
}

}  // namespace

bool SampleBuilding::sound(const std::string& unit) const {
  const auto about = [&](const auto& fault) { return fault.unit == unit; };
  return std::none_of(planted.begin(), planted.end(), about) &&
         std::none_of(findings.begin(), findings.end(), about);
}

SampleBuilding makeBuilding(std::uint64_t seed, const Options& options) {
  return Making(seed, options).make();
}

}  // namespace ductwright::sample
