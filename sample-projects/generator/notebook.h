#pragma once

#include <string>

#include "fleet/record.h"
#include "random.h"

namespace ductwright::sample {

// An identity drawn from a series, as of a moment.
fleet::Uuid drawnUuid(std::int64_t utcMillis, Random& random);

// A quantity as a person writes it down, "612 cfm", "71.4 °F".
std::string writtenText(fleet::ReadingQuantity quantity, double si);

// Where one agent writes the readings of one unit, with the time of each.
class Notebook {
 public:
  Notebook(fleet::UnitRecord& record, fleet::FactKey& next, std::string agent, fleet::Timestamp now)
      : m_record(record), m_next(next), m_agent(std::move(agent)), m_now(now) {}

  void beginRun(fleet::Procedure procedure, int number, std::string reason, Random& random);
  // Commands something, waits so many seconds; what is written next belongs to this step.
  void step(int step, double waited);
  void write(fleet::ReadingQuantity quantity, double si, const std::string& instrument = {},
             const std::string& outlet = {});
  void writtenBy(std::string person) { m_agent = std::move(person); }
  void note(std::string text) { m_note = std::move(text); }  // goes with the next reading
  void pass(double seconds) { m_now.utcMillis += static_cast<std::int64_t>(seconds * 1000); }
  [[nodiscard]] fleet::Timestamp now() const { return m_now; }

 private:
  fleet::UnitRecord& m_record;
  fleet::FactKey& m_next;
  std::string m_agent;
  fleet::Timestamp m_now;
  fleet::Procedure m_procedure = fleet::Procedure::airflow;
  int m_run = 1;
  int m_step = 0;
  double m_waited = 0;
  std::string m_note;
};

}  // namespace ductwright::sample
