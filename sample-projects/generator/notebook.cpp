#include "notebook.h"

#include <array>
#include <cmath>
#include <cstdio>

namespace ductwright::sample {
namespace {

using namespace fleet;
using quantity::Dimension;

constexpr double kBetweenReadings = 10;  // seconds

int decimalsOf(Dimension dimension) {
  switch (dimension) {
    case Dimension::pressure:
      return 4;
    case Dimension::temperature:
      return 1;
    case Dimension::power:
    case Dimension::waterFlow:
      return 2;
    default:
      return 0;
  }
}

}  // namespace

Uuid drawnUuid(std::int64_t utcMillis, Random& random) {
  std::array<std::uint8_t, 10> bytes{};
  for (auto& byte : bytes) byte = static_cast<std::uint8_t>(random.bits() >> 24);
  return Uuid::version7(utcMillis, bytes);
}

std::string writtenText(ReadingQuantity quantity, double si) {
  const Dimension dimension = dimensionOf(quantity);
  const quantity::Unit& unit = unitFor(dimension, quantity::System::ip);
  std::array<char, 32> digits{};
  std::snprintf(digits.data(), digits.size(), "%.*f", decimalsOf(dimension), fromSi(si, unit) + 0.0);
  std::string out = digits.data();
  if (out == "-0") out = "0";
  return unit.symbol.empty() ? out : out + " " + std::string(unit.symbol);
}

void Notebook::beginRun(Procedure procedure, int number, std::string reason, Random& random) {
  m_procedure = procedure;
  m_run = number;
  Run run;
  run.id.uuid = drawnUuid(m_now.utcMillis, random);
  run.procedure = procedure;
  run.number = number;
  run.startedAt = m_now;
  run.startedBy = m_agent;
  run.reason = std::move(reason);
  m_record.runs.push_back(std::move(run));
}

void Notebook::step(int step, double waited) {
  m_step = step;
  m_waited = std::round(waited);
  pass(m_waited);
}

void Notebook::write(ReadingQuantity quantity, double si, const std::string& instrument,
                     const std::string& outlet) {
  const std::string typed = writtenText(quantity, si);
  Reading reading;
  reading.key = m_next;
  ++m_next.ordinal;
  reading.value = quantity::readQuantity(typed, dimensionOf(quantity), quantity::System::ip)->si;
  reading.takenAt = m_now;
  reading.waited = static_cast<float>(m_waited);
  reading.run = m_run;
  reading.step = m_step;
  reading.outlet = Word(outlet);
  reading.typed = Word(typed);
  reading.instrument = Word(instrument);
  reading.takenBy = Word(m_agent);
  reading.note = Word(m_note);
  reading.procedure = m_procedure;
  reading.quantity = quantity;
  m_record.readings.push_back(reading);
  m_note.clear();
  pass(kBetweenReadings);
  m_waited += kBetweenReadings;
}

}  // namespace ductwright::sample
