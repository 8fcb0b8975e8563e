#include <algorithm>

#include "air/flow_basis.h"
#include "air/flow_element.h"
#include "air/velocity_pressure.h"
#include "review_rules.h"

// Order and completeness of the flows, and the flows against the inlet's size.
namespace ductwright::verdict {
namespace {

using fleet::HeatKind;
using fleet::UnitKind;
using quantity::Airflow;
using Flow = std::optional<Airflow>;

// Beyond these a number is a slip of the pen: common practice, no source.
struct Believable {
  double low, high;
  constexpr bool holds(double si) const { return si >= low && si <= high; }
};
constexpr Believable kFlow{0, kGreatestFlow.si()};
constexpr Believable kDiameter{quantity::inches(3).si(), quantity::inches(40).si()};
constexpr Believable kAir{quantity::fahrenheit(-40).si(), quantity::fahrenheit(250).si()};
constexpr Believable kZone{quantity::fahrenheit(40).si(), quantity::fahrenheit(110).si()};
constexpr Believable kWater{quantity::fahrenheit(60).si(), quantity::fahrenheit(250).si()};
constexpr Believable kPower{0, 150e3};
constexpr Believable kWaterFlow{0, quantity::gallonsPerMinute(100).si()};
constexpr Believable kStroke{1, 1200};
constexpr Believable kStages{0, 12};

class Doubtful {
 public:
  explicit Doubtful(const Review& review) : m_review(review) {}
  template <class Value>
  void look(std::string_view name, const std::optional<Value>& value, Believable range) {
    if (!value || range.holds(value->si())) return;
    if (!m_text.empty()) m_text += ", ";
    m_text.append(name).append(" ").append(m_review.text(*value));
  }
  void note(std::string_view name, double value, Believable range) {
    if (range.holds(value)) return;
    if (!m_text.empty()) m_text += ", ";
    m_text.append(name).append(" ").append(plain(value, 2));
  }
  [[nodiscard]] const std::string& text() const { return m_text; }

 private:
  const Review& m_review;
  std::string m_text;
};

void flowsMissing(Review& review, const Unit& u) {
  std::vector<std::string> missing;
  if (!above(u.coolingMax, 0)) missing.emplace_back("a cooling max flow");
  if (!u.coolingMin) missing.emplace_back("a cooling min flow");
  if (hasFan(u) && !above(u.fan, 0)) missing.emplace_back("a fan flow");
  if (u.kind == UnitKind::dualDuct && !above(u.hotMax, 0)) missing.emplace_back("a hot max flow");
  if (missing.empty()) return;
  review.find(Rule::flowMissing, u, "A " + std::string(name(u.kind)) + " unit needs " + joined(missing) + ".",
              listed(review, {{"cooling max", u.coolingMax},
                              {"cooling min", u.coolingMin},
                              {"fan", u.fan},
                              {"hot max", u.hotMax}}));
}

void flowOrder(Review& review, const Unit& u) {
  std::vector<std::string> wrong;
  bool minimumOverMaximum = false;
  const auto notAbove = [&](NamedFlow low, NamedFlow high, bool isMinimum) {
    if (!low.flow || !high.flow || low.flow->si() <= high.flow->si() * (1 + review.limits.flowRounding))
      return;
    wrong.push_back(std::string(low.name) + " " + review.text(*low.flow) + " is above " +
                    std::string(high.name) + " " + review.text(*high.flow));
    minimumOverMaximum = minimumOverMaximum || isMinimum;
  };
  const NamedFlow coolingMax{"cooling max", above(u.coolingMax, 0) ? u.coolingMax : Flow{}};
  notAbove({"cooling min", u.coolingMin}, coolingMax, true);
  notAbove({"heating min", u.heatingMin}, {"heating max", u.heatingMax}, true);
  notAbove({"hot min", u.hotMin}, {"hot max", u.hotMax}, true);
  notAbove({"heating max", u.heatingMax}, coolingMax, false);
  if (!u.heatingMax) notAbove({"heating min", u.heatingMin}, coolingMax, true);
  if (u.kind == UnitKind::reheat) notAbove({"reheat", u.reheat}, coolingMax, false);
  notAbove({"standby", u.standby}, coolingMax, false);
  notAbove({"unoccupied", u.unoccupied}, coolingMax, false);
  if (wrong.empty()) return;
  Finding& f = review.find(Rule::flowOrder, u, "The flow setpoints are out of order.", joined(wrong));
  if (!minimumOverMaximum) f.severity = fleet::Severity::moderate;
}

void kindConflict(Review& review, const Unit& u) {
  std::vector<std::string> wrong;
  const bool unheated = u.kind == UnitKind::coolingOnly || u.kind == UnitKind::exhaust;
  if (unheated && u.heat != HeatKind::none) wrong.push_back(std::string(name(u.heat)) + " heat");
  if (u.heat == HeatKind::none && above(u.reheat, 0)) wrong.emplace_back("a reheat flow without heat");
  if (u.heat == HeatKind::none && u.heaterPower && u.heaterPower->si() > 0)
    wrong.emplace_back("heater power without heat");
  if (u.kind == UnitKind::reheat && u.heat == HeatKind::none && !above(u.reheat, 0))
    wrong.emplace_back("no heat");
  if (!hasFan(u) && above(u.fan, 0)) wrong.emplace_back("a fan flow");
  if (u.kind != UnitKind::dualDuct && (above(u.hotMax, 0) || above(u.hotMin, 0)))
    wrong.emplace_back("a hot inlet's flow");
  if (u.kind != UnitKind::parallelFan && u.heaterPosition == fleet::HeaterPosition::plenumInlet)
    wrong.emplace_back("a heater in the plenum inlet");
  if (wrong.empty()) return;
  review.find(Rule::kindConflict, u,
              "The schedule gives " + joined(wrong) + " for a " + std::string(name(u.kind)) + " unit.",
              "kind " + std::string(name(u.kind)) + ", heat " + std::string(name(u.heat)) +
                  (above(u.fan, 0) ? ", fan flow " + review.text(*u.fan) : ""));
}

void ventilation(Review& review, const Unit& u) {
  if (!above(u.ventilationMin, 0) || !u.coolingMin) return;
  const Airflow needed = *u.ventilationMin * (1 - review.limits.flowRounding);
  std::vector<NamedFlow> occupied{{"cooling min", u.coolingMin}};
  if (u.kind == UnitKind::dualDuct) occupied.front().flow = *u.coolingMin + u.hotMin.value_or(Airflow{});
  if (above(u.heatingMax, 0)) occupied.push_back({"heating max", u.heatingMax});
  if (above(u.heatingMin, 0)) occupied.push_back({"heating min", u.heatingMin});
  const auto least =
      std::min_element(occupied.begin(), occupied.end(),
                       [](const NamedFlow& a, const NamedFlow& b) { return *a.flow < *b.flow; });
  if (*least->flow >= needed) return;
  review.find(Rule::ventilation, u,
              "The ventilation minimum is not covered at " + std::string(least->name) + ".",
              listed(review, {{"ventilation min", u.ventilationMin}, {least->name, least->flow}}));
}

void minimumHigh(Review& review, const Unit& u) {
  if (u.kind != UnitKind::reheat || !above(u.coolingMax, 0) || !u.coolingMin) return;
  const double share = *u.coolingMin / *u.coolingMax;
  if (share <= review.limits.greatestMinimum * (1 + review.limits.flowRounding) || share > 1) return;
  if (u.ventilationMin && *u.coolingMin <= *u.ventilationMin * (1 + review.limits.flowRounding)) return;
  review.find(Rule::minimumHigh, u,
              "The minimum is more than half the maximum and ventilation does not ask for it.",
              listed(review, {{"cooling min", u.coolingMin},
                              {"cooling max", u.coolingMax},
                              {"ventilation min", u.ventilationMin}}) +
                  " (" + plain(100 * share, 0) + " %)");
}

void seriesFanFlow(Review& review, const Unit& u) {
  if (u.kind != UnitKind::seriesFan || !above(u.fan, 0)) return;
  const Airflow fan = *u.fan * (1 + review.limits.flowRounding);
  const NamedFlow primary{"cooling max", u.coolingMax};
  if (!primary.flow || *primary.flow <= fan) return;
  review.find(Rule::seriesFanFlow, u,
              "The primary maximum is above the fan's flow: cold air spills into the plenum.",
              listed(review, {primary, {"fan", u.fan}}));
}

// The greatest flow that one inlet has to pass, and the least that it has to control.
NamedFlow greatestFlow(const Unit& u) {
  NamedFlow out{"cooling max", u.coolingMax};
  for (const NamedFlow& f : {NamedFlow{"heating max", u.heatingMax}, NamedFlow{"hot max", u.hotMax}})
    if (f.flow && (!out.flow || *f.flow > *out.flow)) out = f;
  return out;
}
NamedFlow leastFlow(const Unit& u) {
  NamedFlow out;
  for (const NamedFlow& f : {NamedFlow{"cooling min", u.coolingMin}, NamedFlow{"heating min", u.heatingMin},
                             NamedFlow{"standby", u.standby}, NamedFlow{"unoccupied", u.unoccupied},
                             NamedFlow{"hot min", u.hotMin}})
    if (above(f.flow, 0) && (!out.flow || *f.flow < *out.flow)) out = f;
  return out;
}

// Velocity pressure at a flow, the signal that an averaging element makes of it, and the least controllable.
struct InletSignal {
  quantity::Pressure velocity, element, least;
};

InletSignal signalAt(const Review& review, const Unit& u, Airflow flow, quantity::Area area) {
  const auto* profile = review.profile(u);
  const quantity::Density rho = air::density(review.air, review.limits.supplyAir);
  const Airflow actual = u.flowBasis == fleet::FlowBasis::standard ? air::toActual(flow, rho) : flow;
  InletSignal out;
  out.least = profile && profile->leastControllablePressure ? *profile->leastControllablePressure
                                                            : review.project.criteria.leastControllable;
  out.velocity = air::velocityPressure(actual / area, rho);
  out.element = u.flowCoefficient && u.flowCoefficient->si() > 0
                    ? air::elementPressure(*u.flowCoefficient, actual) * (rho / air::kStandardDensity)
                    : out.velocity * review.limits.amplification;
  return out;
}

// Returns true where the velocity pressure is below the least controllable, as the verdict's notes count it.
// An element that amplifies it enough makes that milder.
bool leastControllable(Review& review, const Unit& u, const NamedFlow& least, quantity::Area area) {
  const InletSignal signal = signalAt(review, u, *least.flow, area);
  if (signal.velocity >= signal.least) return false;
  const bool amplified = signal.element >= signal.least;
  Finding& f = review.find(
      Rule::leastControllable, u,
      amplified ? "At " + std::string(least.name) + " the controller depends on its element's amplification."
                : "The controller cannot hold " + std::string(least.name) +
                      ": its signal is below the least controllable.",
      std::string(least.name) + " " + review.text(*least.flow) + " at " + review.text(*least.flow / area) +
          " gives a velocity pressure of " + review.text(signal.velocity) + ", element signal " +
          review.text(signal.element) + ", least " + review.text(signal.least) + "; least flow " +
          review.text(*least.flow * std::sqrt(signal.least / signal.velocity)));
  if (amplified) f.severity = fleet::Severity::minor;
  return true;
}

}  // namespace

bool reviewAbsurdValues(Review& review, const Unit& u) {
  Doubtful doubtful(review);
  for (const NamedFlow& f :
       {NamedFlow{"cooling max", u.coolingMax}, NamedFlow{"cooling min", u.coolingMin},
        NamedFlow{"heating max", u.heatingMax}, NamedFlow{"heating min", u.heatingMin},
        NamedFlow{"reheat", u.reheat}, NamedFlow{"unoccupied", u.unoccupied}, NamedFlow{"standby", u.standby},
        NamedFlow{"fan", u.fan}, NamedFlow{"hot max", u.hotMax}, NamedFlow{"hot min", u.hotMin},
        NamedFlow{"ventilation min", u.ventilationMin}})
    doubtful.look(f.name, f.flow, kFlow);
  doubtful.look("inlet diameter", u.inletDiameter, kDiameter);
  doubtful.look("heater power", u.heaterPower, kPower);
  doubtful.look("coil entering water", u.coilEnteringWater, kWater);
  doubtful.look("design entering air", u.designEnteringAir, kAir);
  doubtful.look("design discharge", u.designDischarge, kAir);
  doubtful.look("discharge limit", u.dischargeLimit, kAir);
  doubtful.look("zone heating setpoint", u.zoneHeatingSetpoint, kZone);
  doubtful.look("zone cooling setpoint", u.zoneCoolingSetpoint, kZone);
  doubtful.look("stroke time", u.strokeTime, kStroke);
  if (u.coilWaterFlow) doubtful.note("coil water flow in m3/s", u.coilWaterFlow->si(), kWaterFlow);
  if (u.heaterStages) doubtful.note("heater stages", *u.heaterStages, kStages);
  if (u.flowCoefficient && u.flowCoefficient->si() <= 0)
    doubtful.note("flow coefficient", u.flowCoefficient->si(), {1e-9, 1});
  if (doubtful.text().empty()) return false;
  review.find(Rule::absurdValue, u,
              "The schedule holds a value that cannot be right; rules that need it were skipped.",
              doubtful.text());
  return true;
}

void reviewFlows(Review& review, const Unit& u) {
  flowsMissing(review, u);
  flowOrder(review, u);
  kindConflict(review, u);
  ventilation(review, u);
  minimumHigh(review, u);
  seriesFanFlow(review, u);
}

void reviewInlet(Review& review, const Unit& u) {
  if (!u.inletDiameter) {
    if (review.given().inlets)
      review.find(Rule::inletMissing, u, "The inlet size is not given: flow against size is not reviewed.",
                  "");
    return;
  }
  const quantity::Area area = circle(*u.inletDiameter);
  const NamedFlow greatest = greatestFlow(u), least = leastFlow(u);
  const bool hasGreatest = above(greatest.flow, 0);
  const std::string size = review.text(*u.inletDiameter) + " inlet";
  if (hasGreatest && *greatest.flow / area > review.limits.fastInlet) {
    const quantity::Velocity v = *greatest.flow / area;
    const bool tooFast = v > review.limits.tooFastInlet;
    review
        .find(Rule::inletVelocityHigh, u,
              "The inlet is small for " + std::string(greatest.name) + ": noise and pressure drop.",
              std::string(greatest.name) + " " + review.text(*greatest.flow) + " in a " + size + ": " +
                  review.text(v) + ", at most " +
                  review.text(tooFast ? review.limits.tooFastInlet : review.limits.fastInlet))
        .severity = tooFast ? fleet::Severity::moderate : fleet::Severity::minor;
  }
  if (least.flow && leastControllable(review, u, least, area)) return;
  const bool slowAtMaximum = hasGreatest && *greatest.flow / area < review.limits.slowInletAtMaximum;
  const bool slowAtMinimum = least.flow && *least.flow / area < review.limits.slowInlet;
  if (!slowAtMaximum && !slowAtMinimum) return;
  const NamedFlow& shown = slowAtMaximum ? greatest : least;
  review.find(Rule::inletVelocityLow, u,
              "The inlet is large for " + std::string(shown.name) + ": its flow reading is doubtful.",
              std::string(shown.name) + " " + review.text(*shown.flow) + " in a " + size + ": " +
                  review.text(*shown.flow / area) + ", at least " +
                  review.text(slowAtMaximum ? review.limits.slowInletAtMaximum : review.limits.slowInlet));
}

}  // namespace ductwright::verdict
