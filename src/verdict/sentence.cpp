#include <cmath>

#include "metrology/uncertainty.h"
#include "quantity/unit.h"
#include "verdict/verdict.h"

// Checks in sentences for people.
namespace ductwright::verdict {
namespace {

using quantity::Dimension;
using quantity::System;

std::string capital(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z') text.front() = static_cast<char>(text.front() - 'a' + 'A');
  return text;
}

class Wording {
 public:
  Wording(const Check& check, System system) : m_check(check), m_system(system) {}

  [[nodiscard]] std::string text() const {
    std::string out = place() + ": ";
    if (m_check.outcome == Outcome::untested) return out + untested() + ".";
    out += judged();
    if (m_check.close || m_check.outcome == Outcome::cannotTell) out += settling();
    return out + ".";
  }

 private:
  [[nodiscard]] std::string in(double si, Dimension dimension) const { return quantity::write(si, dimension, m_system); }
  [[nodiscard]] std::string written(double si) const { return in(si, m_check.dimension); }
  [[nodiscard]] std::string plusMinus() const {
    return m_check.u > 0 ? " ± " + in(metrology::kCoverage * m_check.u, m_check.dimension == Dimension::temperature
                                                                            ? Dimension::temperatureDifference
                                                                            : m_check.dimension)
                         : "";
  }
  [[nodiscard]] std::string range(double low, double high) const { return written(low) + " to " + written(high); }

  [[nodiscard]] std::string place() const {
    if (m_check.step == kNoStep) return capital(std::string(name(m_check.criterion)));
    const std::string step = fleet::stepName(m_check.procedure, m_check.step);
    return m_check.procedure == fleet::Procedure::reheatLockout ? "Point " + step : capital(step);
  }

  [[nodiscard]] std::string_view verdictWord() const {
    switch (m_check.outcome) {
      case Outcome::pass: return "passes";
      case Outcome::fail: return "fails";
      default: return "cannot be told";
    }
  }

  [[nodiscard]] std::string untested() const {
    const std::string what(name(m_check.kind));
    switch (m_check.because) {
      case Because::early: return what + " is not judged: the reading was taken too early";
      case Because::voided: return what + " is void: the box was balanced again after it";
      default: return what + " is untested, " + because(m_check);
    }
  }

  [[nodiscard]] std::string judged() const {
    const std::string end = ": " + std::string(verdictWord());
    const double y = m_check.measured;
    switch (m_check.kind) {
      case CheckKind::measuredAgainstDesign:
        return "measured " + written(y) + plusMinus() + " against design " + written(m_check.expected) + " (" +
               range(m_check.low, m_check.high) + ")" + end;
      case CheckKind::reportedAgainstMeasured:
        return "reported " + written(m_check.expected + y) + " against measured " + written(m_check.expected) +
               plusMinus() + " (" + range(m_check.expected + m_check.low, m_check.expected + m_check.high) + ")" + end;
      case CheckKind::onWithoutCall: return "heat is on without a call" + end;
      case CheckKind::onWhenAllowed:
        return "heat on with a call at " + written(y) + plusMinus() + " of the reference flow, allowed from " +
               written(m_check.low) + end;
      case CheckKind::heatsWhenItShould:
        return "heat off with a call at " + written(y) + plusMinus() + " of the reference flow, must heat from " +
               written(m_check.high) + end;
      case CheckKind::trip: return "heat went off below the threshold after it was on" + end;
      case CheckKind::rise:
        return "rise " + written(m_check.expected + y) + plusMinus() + " against expected " + written(m_check.expected) +
               " (" + range(m_check.expected + m_check.low, m_check.expected + m_check.high) + ")" + end;
      case CheckKind::limit:
        return "discharge " + written(y) + plusMinus() + ", limit " + written(m_check.high) + end;
      case CheckKind::coldWhenOff: break;
    }
    return "rise with the heat off " + written(y) + plusMinus() + " (" + range(m_check.low, m_check.high) + ")" + end;
  }

  [[nodiscard]] std::string settling() const {
    const std::string why = m_check.close ? "; close" : "";
    if (m_check.settlesWith > 0)
      return why + ", " + std::to_string(m_check.settlesWith) + " readings in all would settle it";
    return why + ", a better instrument would settle it";
  }

  const Check& m_check;
  System m_system;
};

}  // namespace

std::string sentence(const Check& check, System system) { return Wording(check, system).text(); }

}  // namespace ductwright::verdict
