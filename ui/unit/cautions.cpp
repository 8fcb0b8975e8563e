#include "ui/unit/cautions.h"

#include <QCoreApplication>

namespace ductwright::ui {
namespace {

QString caution(const char* text) { return QCoreApplication::translate("cautions", text); }

}  // namespace

QStringList cautionsFor(const fleet::Unit& unit, fleet::Procedure procedure) {
  const bool electric = unit.heat == fleet::HeatKind::electricStaged || unit.heat == fleet::HeatKind::electricModulating;
  const bool heats = procedure != fleet::Procedure::airflow;
  QStringList cautions;
  if (heats && electric) {
    cautions << caution(QT_TRANSLATE_NOOP("cautions", "Electric heat: energise only with airflow proven. Heater and panel "
                                                      "covers are for qualified electricians; local codes and site permits apply."));
  } else if (heats && unit.heat == fleet::HeatKind::hotWater) {
    cautions << caution(QT_TRANSLATE_NOOP("cautions", "Hot water: pipes and valves burn; look for drips before going under the "
                                                      "coil. Piping is for licensed trades under local codes."));
  }
  if (procedure == fleet::Procedure::airflow)
    cautions << caution(QT_TRANSLATE_NOOP("cautions", "Ladders: level floor, no over-reach, a second person above a ceiling grid. "
                                                      "Site rules and local codes come first."));
  return cautions;
}

}  // namespace ductwright::ui
