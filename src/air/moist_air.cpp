#include "air/moist_air.h"

namespace ductwright::air {

Pressure saturationPressure(Temperature t) {
  const double k = t.si();
  const bool ice = k <= 273.16;
  const double ln = ice ? -5.6745359e3 / k + 6.3925247 - 9.677843e-3 * k + 6.2215701e-7 * k * k +
                              2.0747825e-9 * k * k * k - 9.484024e-13 * k * k * k * k +
                              4.1635019 * std::log(k)
                        : -5.8002206e3 / k + 1.3914993 - 4.8640239e-2 * k + 4.1764768e-5 * k * k -
                              1.4452093e-8 * k * k * k + 6.5459673 * std::log(k);
  return Pressure::fromSi(std::exp(ln));
}

double humidityRatio(Temperature t, double relativeHumidity, Pressure p) {
  const double vapour = relativeHumidity * saturationPressure(t).si();
  return kWaterToAirMass * vapour / (p.si() - vapour);
}

double relativeHumidity(Temperature t, double humidityRatio, Pressure p) {
  const double vapour = p.si() * humidityRatio / (kWaterToAirMass + humidityRatio);
  return vapour / saturationPressure(t).si();
}

}  // namespace ductwright::air
