#include "site.h"

#include <cmath>

namespace ductwright::sample {

double Site::density(double temperature) const {
  return pressure * (1 + humidity) / (287.042 * temperature * (1 + 1.607858 * humidity));
}

double Site::capacityRate(double flow, double temperature) const {
  const double dryMass = density(temperature) * flow / (1 + humidity);
  return dryMass * (1006 + 1860 * humidity);
}

double standardPressure(double elevation) {
  return 101325 * std::pow(1 - 2.25577e-5 * elevation, 5.2559);
}

Site siteAt(double elevation, Random& random) {
  return {.pressure = standardPressure(elevation) * (1 + 0.004 * random.normal()),
          .humidity = random.uniform(0.0065, 0.0095)};
}

Stream mixed(const Site& site, const Stream& a, const Stream& b) {
  const double ofA = site.density(a.temperature) * a.flow;
  const double ofB = site.density(b.temperature) * b.flow;
  if (ofA + ofB <= 0) return {0, a.temperature};
  const double temperature = (ofA * a.temperature + ofB * b.temperature) / (ofA + ofB);
  return {(ofA + ofB) / site.density(temperature), temperature};
}

}  // namespace ductwright::sample
