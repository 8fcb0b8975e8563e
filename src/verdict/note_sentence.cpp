#include <cmath>
#include <cstdio>

#include "quantity/unit.h"
#include "verdict/verdict.h"

// Explanations in sentences for people.
namespace ductwright::verdict {
namespace {

using quantity::Dimension;
using quantity::System;

std::string number(double value) {
  char buffer[32];
  std::snprintf(buffer, sizeof buffer, "%.3g", value);
  return buffer;
}

class Wording {
 public:
  Wording(const Note& note, System system) : m_note(note), m_system(system) {}

  [[nodiscard]] std::string text() const {
    const std::string words = isAirflowWide() ? airflowWide() : atStep();
    return words + ".";
  }

 private:
  [[nodiscard]] std::string in(double si, Dimension dimension) const { return quantity::write(si, dimension, m_system); }
  [[nodiscard]] std::string flow(double si) const { return in(si, Dimension::airflow); }
  [[nodiscard]] std::string step() const {
    const fleet::Procedure procedure = procedureOf(m_note.criterion);
    const std::string name = fleet::stepName(procedure, m_note.step);
    return procedure == fleet::Procedure::reheatLockout ? "point " + name : name;
  }
  [[nodiscard]] std::string at() const { return " at " + step(); }
  [[nodiscard]] std::string quantityName() const { return std::string(fleet::name(m_note.quantity)); }

  [[nodiscard]] bool isAirflowWide() const {
    return m_note.kind == NoteKind::coefficient || m_note.kind == NoteKind::units || m_note.kind == NoteKind::size ||
           m_note.kind == NoteKind::density || m_note.kind == NoteKind::tooPerfect || m_note.kind == NoteKind::zero;
  }

  [[nodiscard]] std::string airflowWide() const {
    const std::string ratio = "Reported flow is " + number(m_note.value) + " times the measured";
    switch (m_note.kind) {
      case NoteKind::coefficient:
        return ratio + " at every step: the flow coefficient is off by that factor";
      case NoteKind::units: return ratio + ", near " + number(m_note.other) + ": cfm and L/s may be mixed up";
      case NoteKind::size:
        return ratio + ": the controller may be set up for a " + in(m_note.other, Dimension::length) + " inlet";
      case NoteKind::density:
        return ratio + ", the ratio of actual to standard flow here: one of them may be on the other basis";
      case NoteKind::zero:
        return "Reported over measured flow grows from " + number(m_note.other) + " to " + number(m_note.value) +
               " as the flow falls: the zero of the pressure sensor is off";
      default:
        return "Readings equal the design to the last digit at " + number(m_note.value) +
               " steps: ask how they were taken";
    }
  }

  [[nodiscard]] std::string atStep() const {
    switch (m_note.kind) {
      case NoteKind::starved:
        return "Short of flow" + at() + " with the damper at " + in(m_note.other, Dimension::ratio) +
               ": the duct gives the box too little pressure";
      case NoteKind::belowControl:
        return "Velocity pressure" + at() + " is " + in(m_note.value, Dimension::pressure) +
               ", below what the controller can control, " + in(m_note.other, Dimension::pressure);
      case NoteKind::negativeInduction:
        return "Primary air " + flow(m_note.other) + at() + " exceeds the fan's flow by " + flow(-m_note.value) +
               ": air is pushed into the plenum";
      case NoteKind::notReported: return "No reported flow was recorded" + at();
      case NoteKind::defaultAccuracy:
        return "A " + quantityName() + at() + " names no instrument with an accuracy: the project's default holds";
      case NoteKind::waitUnknown: return "A wait was not recorded" + at() + ": judged all the same";
      case NoteKind::timeUnknown: return "A time is not recorded: the order of readings cannot be checked";
      case NoteKind::threshold: return bracket("Heat");
      case NoteKind::airflowSwitch: return bracket("The heater's own airflow switch");
      case NoteKind::heatBalance:
        return "The heat balance" + at() + " implies " + flow(m_note.value) + " against " + flow(m_note.other) +
               " read: repeat the " + quantityName();
      case NoteKind::ventilationEffectiveness:
        return "Discharge air" + at() + " is " + in(m_note.value, Dimension::temperatureDifference) +
               " above the zone's heating setpoint: above " + in(m_note.other, Dimension::temperatureDifference) +
               " it mixes poorly with the room's air (Standard 62.1)";
      case NoteKind::instrumentOverdue:
        return "A " + quantityName() + at() + " was taken with an instrument whose calibration was overdue";
      case NoteKind::absurdValue:
        return "A " + quantityName() + " of " + in(m_note.value, fleet::dimensionOf(m_note.quantity)) + at() +
               " is hard to believe: check what was typed";
      default: return {};
    }
  }

  // Greatest flow seen off with a call, least flow seen on.
  [[nodiscard]] std::string bracket(const std::string& what) const {
    if (std::isnan(m_note.value)) return what + " was seen on from " + flow(m_note.other) + ", never off with a call";
    if (std::isnan(m_note.other)) return what + " was seen off with a call up to " + flow(m_note.value) + ", never on";
    return what + " switches between " + flow(m_note.value) + " (greatest seen off with a call) and " +
           flow(m_note.other) + " (least seen on)";
  }

  const Note& m_note;
  System m_system;
};

}  // namespace

std::string sentence(const Note& note, System system) { return Wording(note, system).text(); }

}  // namespace ductwright::verdict
