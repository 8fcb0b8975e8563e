#pragma once

#include "fleet/record.h"
#include "quantity/unit.h"
#include "verdict/verdict.h"

namespace ductwright::plot {

// Records and verdicts made by hand, so that a figure is compared with numbers written in its test.
struct EvidenceFixture {
  fleet::UnitRecord record;
  verdict::UnitVerdict verdict;
  fleet::Criteria criteria;

  EvidenceFixture() {
    for (auto& criterion : verdict.criteria) criterion.outcome = verdict::Outcome::untested;
    record.unit.tag = "T-1";
  }

  fleet::FactKey read(fleet::Procedure procedure, int step, fleet::ReadingQuantity quantity, double si, int run = 1) {
    fleet::Reading reading;
    reading.key.ordinal = static_cast<std::uint32_t>(record.readings.size()) + 1;
    reading.procedure = procedure;
    reading.step = step;
    reading.quantity = quantity;
    reading.value = si;
    reading.run = run;
    record.readings.push_back(reading);
    if (record.currentRun(procedure).value_or(0) < run)
      record.runs.push_back({.id = {}, .procedure = procedure, .number = run, .startedAt = {}, .startedBy = {}, .reason = {}});
    return reading.key;
  }

  verdict::Check& check(verdict::CheckKind kind, int step, verdict::Outcome outcome) {
    verdict::Check made;
    made.kind = kind;
    made.step = step;
    made.outcome = outcome;
    verdict.checks.push_back(made);
    return verdict.checks.back();
  }
};

}  // namespace ductwright::plot
