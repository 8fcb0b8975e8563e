#include "ui/words/words.h"

#include <QCoreApplication>
#include <algorithm>
#include <array>
#include <cmath>
#include <string>

namespace ductwright::ui {
namespace {

// Named here so that the translators' tool finds them; the words themselves belong to `fleet` and `verdict`.
[[maybe_unused]] constexpr std::array kWords = {
    QT_TRANSLATE_NOOP("words", "pass"),
    QT_TRANSLATE_NOOP("words", "fail"),
    QT_TRANSLATE_NOOP("words", "cannot tell"),
    QT_TRANSLATE_NOOP("words", "untested"),
    QT_TRANSLATE_NOOP("words", "not applicable"),
    QT_TRANSLATE_NOOP("words", "airflow"),
    QT_TRANSLATE_NOOP("words", "reheat lockout"),
    QT_TRANSLATE_NOOP("words", "discharge rise"),
    QT_TRANSLATE_NOOP("words", "measured against design"),
    QT_TRANSLATE_NOOP("words", "reported against measured"),
    QT_TRANSLATE_NOOP("words", "cooling only"),
    QT_TRANSLATE_NOOP("words", "reheat"),
    QT_TRANSLATE_NOOP("words", "parallel fan"),
    QT_TRANSLATE_NOOP("words", "series fan"),
    QT_TRANSLATE_NOOP("words", "dual duct"),
    QT_TRANSLATE_NOOP("words", "exhaust"),
    QT_TRANSLATE_NOOP("words", "none"),
    QT_TRANSLATE_NOOP("words", "hot water"),
    QT_TRANSLATE_NOOP("words", "electric staged"),
    QT_TRANSLATE_NOOP("words", "electric modulating"),
    QT_TRANSLATE_NOOP("words", "discharge"),
    QT_TRANSLATE_NOOP("words", "plenum inlet"),
    QT_TRANSLATE_NOOP("words", "actual"),
    QT_TRANSLATE_NOOP("words", "standard"),
    QT_TRANSLATE_NOOP("words", "cooling max"),
    QT_TRANSLATE_NOOP("words", "cooling min"),
    QT_TRANSLATE_NOOP("words", "heating max"),
    QT_TRANSLATE_NOOP("words", "heating min"),
    QT_TRANSLATE_NOOP("words", "hot max"),
    QT_TRANSLATE_NOOP("words", "hot min"),
    QT_TRANSLATE_NOOP("words", "fan"),
    QT_TRANSLATE_NOOP("words", "shut"),
    QT_TRANSLATE_NOOP("words", "heat on"),
    QT_TRANSLATE_NOOP("words", "heat forced"),
    QT_TRANSLATE_NOOP("words", "heat off"),
    QT_TRANSLATE_NOOP("words", "measured flow"),
    QT_TRANSLATE_NOOP("words", "outlet flow"),
    QT_TRANSLATE_NOOP("words", "reported flow"),
    QT_TRANSLATE_NOOP("words", "flow setpoint"),
    QT_TRANSLATE_NOOP("words", "fan flow"),
    QT_TRANSLATE_NOOP("words", "damper position"),
    QT_TRANSLATE_NOOP("words", "inlet pressure difference"),
    QT_TRANSLATE_NOOP("words", "duct static pressure"),
    QT_TRANSLATE_NOOP("words", "heat signal"),
    QT_TRANSLATE_NOOP("words", "heat call"),
    QT_TRANSLATE_NOOP("words", "stages on"),
    QT_TRANSLATE_NOOP("words", "valve position"),
    QT_TRANSLATE_NOOP("words", "fan on"),
    QT_TRANSLATE_NOOP("words", "mode"),
    QT_TRANSLATE_NOOP("words", "supply air temperature"),
    QT_TRANSLATE_NOOP("words", "primary air temperature"),
    QT_TRANSLATE_NOOP("words", "plenum air temperature"),
    QT_TRANSLATE_NOOP("words", "entering air temperature"),
    QT_TRANSLATE_NOOP("words", "discharge air temperature"),
    QT_TRANSLATE_NOOP("words", "zone temperature"),
    QT_TRANSLATE_NOOP("words", "heater power"),
    QT_TRANSLATE_NOOP("words", "entering water temperature"),
    QT_TRANSLATE_NOOP("words", "leaving water temperature"),
    QT_TRANSLATE_NOOP("words", "water flow"),
    QT_TRANSLATE_NOOP("words", "commissioning agent"),
    QT_TRANSLATE_NOOP("words", "reviewer"),
    QT_TRANSLATE_NOOP("words", "owner's representative"),
    QT_TRANSLATE_NOOP("words", "contractor"),
    QT_TRANSLATE_NOOP("words", "design engineer"),
    QT_TRANSLATE_NOOP("words", "mechanical contractor"),
    QT_TRANSLATE_NOOP("words", "controls contractor"),
    QT_TRANSLATE_NOOP("words", "electrical contractor"),
    QT_TRANSLATE_NOOP("words", "balancer"),
    QT_TRANSLATE_NOOP("words", "safety"),
    QT_TRANSLATE_NOOP("words", "major"),
    QT_TRANSLATE_NOOP("words", "moderate"),
    QT_TRANSLATE_NOOP("words", "minor"),
    QT_TRANSLATE_NOOP("words", "raised"),
    QT_TRANSLATE_NOOP("words", "accepted"),
    QT_TRANSLATE_NOOP("words", "disputed"),
    QT_TRANSLATE_NOOP("words", "work reported"),
    QT_TRANSLATE_NOOP("words", "awaiting retest"),
    QT_TRANSLATE_NOOP("words", "proven"),
    QT_TRANSLATE_NOOP("words", "withdrawn"),
};

}  // namespace

QString translatedWord(std::string_view word) {
  return QCoreApplication::translate("words", std::string(word).c_str());
}

QString stepWord(fleet::Procedure procedure, int step) {
  if (step < 0) return dash();  // a check of the procedure as a whole
  if (procedure == fleet::Procedure::reheatLockout)
    return QCoreApplication::translate("words", "point %1").arg(step);
  return translatedWord(fleet::stepName(procedure, step));
}

QString written(std::optional<double> si, quantity::Dimension dimension, quantity::System system) {
  if (!si || std::isnan(*si)) return dash();
  if (dimension == quantity::Dimension::flag)
    return *si != 0 ? QCoreApplication::translate("words", "yes") : QCoreApplication::translate("words", "no");
  return text(quantity::write(*si, dimension, system));
}

QString writtenNumber(std::optional<double> si, quantity::Dimension dimension, quantity::System system) {
  if (!si || std::isnan(*si)) return {};
  return text(quantity::writeNumber(*si, quantity::unitFor(dimension, system)));
}

QString unitSymbol(quantity::Dimension dimension, quantity::System system) {
  return text(quantity::unitFor(dimension, system).symbol);
}

QString scoreText(const std::optional<double>& score) {
  if (!score) return dash();
  // Never rounded up to a certainty that was not reached.
  const double shown = *score >= 100 ? 100 : std::min(99.0, std::round(*score));
  return QString::number(static_cast<int>(shown));
}

}  // namespace ductwright::ui
