#pragma once

#include <string>

#include "fleet/vocabulary.h"
#include "quantity/quantity.h"

// The limits of the desk review, as data: a project may set its own. SI inside.
namespace ductwright::verdict {

// What the front end asks of every controller. An empty protocol: the one that most units speak.
struct FrontEndNeeds {
  std::string protocol;
  fleet::Custody schedules = fleet::Custody::unknown, trends = fleet::Custody::unknown,
                 alarms = fleet::Custody::unknown;  // unknown: no matter who, as long as somebody does
  bool damperFeedback = false;
  bool dischargeSensor = false;
};

struct ReviewLimits {
  // Design maximum of an inlet 1800 to 2500 fpm, usable range 400 to 2000 fpm: trade figures, from memory.
  quantity::Velocity fastInlet = quantity::feetPerMinute(2000);
  quantity::Velocity tooFastInlet = quantity::feetPerMinute(2500);
  // Flow sensing by pressure difference is accurate down to about 400 fpm (MIL-HDBK-1003/3, appendix C).
  quantity::Velocity slowInlet = quantity::feetPerMinute(400);
  // A maximum slower than this wants a smaller inlet: common practice, no source.
  quantity::Velocity slowInletAtMaximum = quantity::feetPerMinute(600);
  // Signal of an averaging flow element ÷ velocity pressure, where the schedule gives no coefficient: about
  // 2.3, commonly 1.5 to 3 (Advanced VAV System Design Guide, from memory). The bounds leave a margin.
  double amplification = 2.3;
  double leastAmplification = 0.8, greatestAmplification = 4.0;

  // A deadband minimum above this share of the maximum reheats cooled air (the half of peak of
  // ASHRAE 90.1-2013, 6.5.2.1, exception 2).
  double greatestMinimum = 0.50;

  // Rise above which a heater has too little air, 49 cfm a kW at sea level: common practice, no source; the
  // heater's listing decides.
  quantity::TemperatureDifference greatestHeaterRise = quantity::fahrenheitDegrees(65);
  // Air where the schedule gives none: common practice, no source.
  quantity::Temperature supplyAir = quantity::fahrenheit(55), plenumAir = quantity::fahrenheit(75);
  // Warming of supply air on the way to the unit: 1 to 3 °F in practice; more is a question. No source.
  quantity::TemperatureDifference enteringAir = quantity::fahrenheitDegrees(5);
  // Rounding in schedules: common practice, no source.
  quantity::TemperatureDifference temperatureRounding = quantity::fahrenheitDegrees(0.5);
  double flowRounding = 0.005;

  // The air handler's design flow ÷ the sum of its units' maxima: below, too many units want air at once;
  // above, units are missing from the schedule. Common practice, no source.
  double leastDiversity = 0.60, greatestDiversity = 1.10;

  // BACnet (ASHRAE 135): MS/TP masters 0 to 127, device instances 0 to 4194302; EIA-485: 32 unit loads a
  // segment where the segment gives no limit of its own. From memory.
  int greatestMac = 127;
  long greatestInstance = 4194302;
  double segmentLoad = 32;

  // Outliers among units of one kind and size: at least this many units, this far from their median in robust
  // standard deviations, and by this factor. Common practice, no source.
  std::size_t outlierGroup = 8;
  double outlierDeviations = 6, outlierFactor = 2, coefficientFactor = 1.10;

  // A setting as found may differ by rounding: this share, or half the last digit shown. Common practice.
  double settingRounding = 0.005;
  // A setting that differs by more is major: the tolerance of the airflow check.
  double settingMajor = 0.10;

  FrontEndNeeds frontEnd;
};

}  // namespace ductwright::verdict
