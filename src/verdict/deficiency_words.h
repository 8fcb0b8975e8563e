#pragma once

#include <string>
#include <vector>

#include "deficiency_cause.h"

// The text of a deficiency: what a contractor needs to find, mend and prove it without a telephone call.
namespace ductwright::verdict {

// A point of the current lockout run showed heat on without a call, early or not.
bool heatSeenWithoutCall(const UnitRecord& record);

class DeficiencyWords {
 public:
  DeficiencyWords(const UnitRecord& record, const UnitVerdict& verdict, const Snapshot& project)
      : m_record(record), m_verdict(verdict), m_project(project) {}

  // What is wrong, and where.
  [[nodiscard]] std::string title(const CauseFacts&) const;
  // What should be and what is, how it was read, what explains it, where to look first, what may hurt.
  [[nodiscard]] std::string evidence(Cause, const CauseFacts&, const std::vector<const Check*>&) const;
  // For trouble that may follow from the unit's airflow trouble: what to mend first. Else nothing.
  [[nodiscard]] std::string mendFirst(Cause, const CauseFacts& airflow) const;
  // The readings that would close it, with their pass numbers.
  [[nodiscard]] std::string closes(Cause, const std::vector<const Check*>&) const;

 private:
  [[nodiscard]] const Unit& unit() const { return m_record.unit; }
  [[nodiscard]] std::string text(double si, quantity::Dimension dimension) const;
  // "should be 405 cfm to 495 cfm (design 450 cfm), is 371 cfm ± 12 cfm"
  [[nodiscard]] std::string shouldAndIs(const Check&) const;
  // All checks of one step: what should be and is, how it was read, what was read with it, where else it
  // counts.
  [[nodiscard]] std::string told(const std::vector<const Check*>& step,
                                 const std::vector<const Check*>& all) const;
  [[nodiscard]] std::string howRead(const std::vector<const Check*>& step) const;
  [[nodiscard]] std::string conditions(const std::vector<const Check*>& step) const;
  [[nodiscard]] std::string closeness(const std::vector<const Check*>& step) const;
  [[nodiscard]] std::string explanations(Cause) const;
  [[nodiscard]] std::string cautions() const;
  [[nodiscard]] std::string earlyPoint() const;
  // Readings of one procedure that share a wait.
  struct Proof {
    fleet::Procedure procedure;
    std::string wait;
    std::vector<std::string> readings;
  };
  [[nodiscard]] std::vector<Proof> proofs(Cause, const std::vector<const Check*>&) const;
  [[nodiscard]] std::string closedBy(const Check&) const;
  [[nodiscard]] std::string wait(fleet::Procedure, int step) const;
  [[nodiscard]] std::string range(const Check&, double offset, quantity::Dimension) const;
  [[nodiscard]] bool isOf(const fleet::Reading&, const Check&) const;

  const UnitRecord& m_record;
  const UnitVerdict& m_verdict;
  const Snapshot& m_project;
};

}  // namespace ductwright::verdict
