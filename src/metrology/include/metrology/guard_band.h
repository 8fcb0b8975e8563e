#pragma once

#include "metrology/conformity.h"

namespace ductwright::metrology {

// The interval of measured values that is accepted with a guard band w inside each closed end of the
// tolerance (JCGM 106, 8.3.2); negative w moves the limits outward, which guards rejection (8.3.3).
Interval guarded(const Interval& tolerance, double w);

// The guard band with which a value on the acceptance limit conforms with `confidence`, one-sided: z u.
double guardBand(double u, double confidence);

// The chance that an item accepted right on the acceptance limit does not conform, one-sided, where the
// guard band is r U and U = 2 u: 1 − Φ(2 r).
inline double riskAtLimit(double guardRatio) {
  return normalCdf(-2 * guardRatio);
}

// What a normal process gives and a normal measurement sees.
struct Process {
  double mean = 0;
  double deviation = 0;    // of the true values
  double uncertainty = 0;  // of one measurement, standard
};

// Global risks over such a process (JCGM 106, 9.5): consumer, that an item is accepted and does not
// conform; producer, that it is rejected and conforms.
struct GlobalRisk {
  double consumer = 0;
  double producer = 0;
};
GlobalRisk globalRisk(const Process& process, const Interval& tolerance, const Interval& acceptance);

}  // namespace ductwright::metrology
