#pragma once

#include <compare>
#include <numbers>

namespace ductwright::quantity {

// A physical quantity, held in SI. Construction is explicit; conversions live in this folder only.
// A missing quantity is an empty std::optional, never zero.
template <class Tag>
class Quantity {
 public:
  constexpr Quantity() = default;
  static constexpr Quantity fromSi(double value) { return Quantity(value); }
  [[nodiscard]] constexpr double si() const { return m_si; }

  friend constexpr auto operator<=>(Quantity, Quantity) = default;  // NOLINT(modernize-use-nullptr): a false alarm
  friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity(a.m_si + b.m_si); }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity(a.m_si - b.m_si); }
  friend constexpr Quantity operator-(Quantity a) { return Quantity(-a.m_si); }
  friend constexpr Quantity operator*(Quantity a, double k) { return Quantity(a.m_si * k); }
  friend constexpr Quantity operator*(double k, Quantity a) { return Quantity(a.m_si * k); }
  friend constexpr Quantity operator/(Quantity a, double k) { return Quantity(a.m_si / k); }
  friend constexpr double operator/(Quantity a, Quantity b) { return a.m_si / b.m_si; }

 private:
  explicit constexpr Quantity(double value) : m_si(value) {}
  double m_si = 0;
};

using Airflow = Quantity<struct AirflowTag>;                              // m³/s
using Velocity = Quantity<struct VelocityTag>;                            // m/s
using Pressure = Quantity<struct PressureTag>;                            // Pa
using TemperatureDifference = Quantity<struct TemperatureDifferenceTag>;  // K
using Power = Quantity<struct PowerTag>;                                  // W
using Length = Quantity<struct LengthTag>;                                // m
using Area = Quantity<struct AreaTag>;                                    // m²
using Duration = Quantity<struct DurationTag>;                            // s
using WaterFlow = Quantity<struct WaterFlowTag>;                          // m³/s
using FlowCoefficient = Quantity<struct FlowCoefficientTag>;              // m³/s at 1 Pa
using Density = Quantity<struct DensityTag>;                              // kg/m³
using CapacityRate = Quantity<struct CapacityRateTag>;                    // W/K, of a stream; also a conductance UA
using Ratio = Quantity<struct RatioTag>;                                  // 1

// An absolute temperature in kelvin. Two of them differ by a TemperatureDifference.
class Temperature {
 public:
  constexpr Temperature() = default;
  static constexpr Temperature fromSi(double kelvin) { return Temperature(kelvin); }
  [[nodiscard]] constexpr double si() const { return m_kelvin; }
  [[nodiscard]] constexpr double celsius() const { return m_kelvin - 273.15; }

  friend constexpr auto operator<=>(Temperature, Temperature) = default;
  friend constexpr TemperatureDifference operator-(Temperature a, Temperature b) {
    return TemperatureDifference::fromSi(a.m_kelvin - b.m_kelvin);
  }
  friend constexpr Temperature operator+(Temperature t, TemperatureDifference d) {
    return Temperature(t.m_kelvin + d.si());
  }
  friend constexpr Temperature operator-(Temperature t, TemperatureDifference d) {
    return Temperature(t.m_kelvin - d.si());
  }

 private:
  explicit constexpr Temperature(double kelvin) : m_kelvin(kelvin) {}
  double m_kelvin = 0;
};

// Exact factors. Foot, pound and inch: international definitions (NIST SP 811, appendix B).
inline constexpr double kFoot = 0.3048;
inline constexpr double kInch = 0.0254;
inline constexpr double kCfm = kFoot * kFoot * kFoot / 60.0;          // m³/s
inline constexpr double kFpm = kFoot / 60.0;                          // m/s
inline constexpr double kInchOfWater = 249.08891;                     // Pa, conventional water 4 °C (NIST SP 811)
inline constexpr double kGpm = 231.0 * kInch * kInch * kInch / 60.0;  // m³/s, US gallon
inline constexpr double kBtuPerHour = 1055.05585262 / 3600.0;         // W, International Table Btu
inline constexpr double kFahrenheitDegree = 5.0 / 9.0;                // K

constexpr Airflow cfm(double v) { return Airflow::fromSi(v * kCfm); }
constexpr Airflow litresPerSecond(double v) { return Airflow::fromSi(v * 1e-3); }
constexpr Pressure inchesOfWater(double v) { return Pressure::fromSi(v * kInchOfWater); }
constexpr Pressure pascals(double v) { return Pressure::fromSi(v); }
constexpr Temperature fahrenheit(double v) { return Temperature::fromSi((v + 459.67) * kFahrenheitDegree); }
constexpr Temperature celsius(double v) { return Temperature::fromSi(v + 273.15); }
constexpr TemperatureDifference fahrenheitDegrees(double v) {
  return TemperatureDifference::fromSi(v * kFahrenheitDegree);
}
constexpr TemperatureDifference kelvins(double v) { return TemperatureDifference::fromSi(v); }
constexpr Power kilowatts(double v) { return Power::fromSi(v * 1e3); }
constexpr Length inches(double v) { return Length::fromSi(v * kInch); }
constexpr Length feet(double v) { return Length::fromSi(v * kFoot); }
constexpr Length metres(double v) { return Length::fromSi(v); }
constexpr Velocity feetPerMinute(double v) { return Velocity::fromSi(v * kFpm); }
constexpr WaterFlow gallonsPerMinute(double v) { return WaterFlow::fromSi(v * kGpm); }
constexpr Duration seconds(double v) { return Duration::fromSi(v); }
constexpr Ratio percent(double v) { return Ratio::fromSi(v / 100); }

constexpr double inCfm(Airflow q) { return q.si() / kCfm; }
constexpr double inInchesOfWater(Pressure p) { return p.si() / kInchOfWater; }
constexpr double inFahrenheit(Temperature t) { return t.si() / kFahrenheitDegree - 459.67; }
constexpr double inFahrenheitDegrees(TemperatureDifference d) { return d.si() / kFahrenheitDegree; }
constexpr double inFeetPerMinute(Velocity v) { return v.si() / kFpm; }
constexpr double inInches(Length l) { return l.si() / kInch; }
constexpr double inFeet(Length l) { return l.si() / kFoot; }
constexpr double inKilowatts(Power p) { return p.si() / 1e3; }
constexpr double inGallonsPerMinute(WaterFlow q) { return q.si() / kGpm; }

constexpr Area circle(Length diameter) {
  return Area::fromSi(std::numbers::pi / 4 * diameter.si() * diameter.si());
}
constexpr Airflow operator*(Velocity v, Area a) { return Airflow::fromSi(v.si() * a.si()); }
constexpr Velocity operator/(Airflow q, Area a) { return Velocity::fromSi(q.si() / a.si()); }

}  // namespace ductwright::quantity
