#pragma once

#include <map>
#include <string>
#include <vector>

#include "conduct.h"
#include "meter.h"
#include "notebook.h"
#include "physical_unit.h"

namespace ductwright::sample {

using Meters = std::map<std::string, Meter>;

struct AirflowTarget {
  fleet::AirflowStep step;
  double design = 0;  // m³/s on the design's basis
};
// The flows that the schedule asks for; equal ones once.
std::vector<AirflowTarget> airflowTargets(const fleet::Unit& design);
double scheduledFlow(const fleet::Unit& unit, fleet::AirflowStep step);  // 0: none

// One agent at one unit: what the unit does, what the instruments show, what is written down.
class Visit {
 public:
  struct Place {
    const fleet::Unit& design;
    const PhysicalUnit& unit;
    const Site& site;
  };
  Visit(Place place, const Conduct& conduct, const Kit& kit, const Meters& meters, Notebook& notebook,
        Random random);

  void balance(int run, const std::string& reason);
  void balanceBegun(int run, const std::string& reason);  // the first flow only
  void proveLockout();
  void proveRise();

 private:
  struct Air {
    double primary = 0;  // true supply flow
    double fan = 0;      // share of the fan's flow
    double damper = 0;
  };
  void flowStep(const AirflowTarget& target);
  void fanStep(const AirflowTarget& target);
  // What a controller shows, on the schedule's basis.
  void writeDisplayed(fleet::ReadingQuantity quantity, double flow);
  void measureFlow(const AirflowTarget& target, double flow);
  void measureOutlets(double discharge);
  void lockoutPoint(int number, const Air& air, bool call);
  void riseStep(fleet::RiseStep step, const Air& air, double waited);
  void writeHeaterFlow(const Air& air);
  void writeElectric(double power, bool on);
  void writeWater(double heat, double water);

  [[nodiscard]] double held(const Inlet& inlet, double setpoint);
  [[nodiscard]] double heaterFlow(const Air& air) const;
  [[nodiscard]] bool heats(const Air& air, bool call) const;
  [[nodiscard]] Air normalHeating();
  [[nodiscard]] Air lowFlow();
  struct Heat {
    double power = 0;
    double water = 0;
    double discharge = 0;
  };
  [[nodiscard]] Heat heat(fleet::RiseStep step, const Air& air) const;
  void measure(fleet::ReadingQuantity quantity, double truth, const std::string& serial,
               const std::string& outlet = {});
  [[nodiscard]] std::string flowInstrument(double flow) const;

  Place m_at;
  const Conduct& m_conduct;
  const Kit& m_kit;
  const Meters& m_meters;
  Notebook& m_notebook;
  Random m_random;
  double m_flow = 0;       // where the damper stood before
  double m_discharge = 0;  // K, before
  bool m_byOutlets = false, m_repeats = false, m_withoutFlowMeter = false;
};

}  // namespace ductwright::sample
