#include <gmock/gmock.h>

#include <algorithm>
#include <map>
#include <set>

#include "judged_building.h"
#include "verdict/patterns.h"

// The causes that the engine names beside its checks, against what is planted.
namespace ductwright::sample {
namespace {

using verdict::NoteKind;
using verdict::PatternKind;

// How often each note stands at the units with each fault.
struct Named {
  int units = 0;
  std::map<NoteKind, int> notes;
};

std::map<std::string, Named> notesByFault() {
  std::map<std::string, Named> out;
  for (const JudgedBuilding& judged : faultyBuildings())
    for (const Planted& planted : judged.building.planted) {
      std::set<NoteKind> notes;
      for (const verdict::Note& note : judged.of(planted.unit).notes) notes.insert(note.kind);
      Named& named = out[planted.fault];
      ++named.units;
      for (const NoteKind kind : notes) ++named.notes[kind];
    }
  return out;
}

TEST(ExplainedFaults, AreNamed) {
  const std::pair<const char*, NoteKind> expected[] = {
      {"wrong flow coefficient", NoteKind::coefficient},
      {"zero drift of the flow sensor", NoteKind::zero},
      {"L/s written down as cfm", NoteKind::units},
      {"wrong inlet size in the controller", NoteKind::size},
      {"standard flow taken as actual", NoteKind::coefficient},
      {"starved at the end of the duct", NoteKind::starved},
      {"fan set too slow", NoteKind::negativeInduction},
      {"readings copied from the schedule", NoteKind::tooPerfect},
      {"stage without heat", NoteKind::heatBalance},
  };
  auto byFault = notesByFault();
  for (const auto& [fault, note] : expected) {
    Named& named = byFault[fault];
    EXPECT_GE(named.units, static_cast<int>(kSeeds)) << fault;
    EXPECT_GE(10 * named.notes[note], 9 * named.units) << fault;
  }
}

struct Found {
  int exchanged = 0, disagreeing = 0, tooPerfect = 0, others = 0;

  void add(const JudgedBuilding& sample) {
    for (const verdict::Pattern& pattern : verdict::patterns(sample.building.project, sample.verdicts)) {
      const bool planted = std::all_of(pattern.units.begin(), pattern.units.end(), [&](fleet::UnitId id) {
        return !sample.building.sound(sample.building.project.unit(id)->unit.tag);
      });
      if (planted && pattern.kind == PatternKind::unitsExchanged)
        ++exchanged;
      else if (planted && pattern.kind == PatternKind::instrumentDisagrees)
        ++disagreeing;
      else if (planted && pattern.kind == PatternKind::tooPerfect)
        ++tooPerfect;
      else
        ++others;
    }
  }
};

TEST(ExplainedFleet, NamesWhatManyUnitsHaveInCommon) {
  Found found;
  for (const JudgedBuilding& judged : faultyBuildings()) found.add(judged);
  EXPECT_GE(found.exchanged, 80);  // the others fit a third unit's design as well
  EXPECT_EQ(found.disagreeing, 100);
  EXPECT_EQ(found.tooPerfect, 100);
  EXPECT_LE(found.others, 2);
}

TEST(ExplainedFleet, NamesNothingInASoundBuilding) {
  Found found;
  for (const JudgedBuilding& judged : soundBuildings()) found.add(judged);
  EXPECT_EQ(found.exchanged + found.disagreeing + found.tooPerfect, 0);
  EXPECT_LE(found.others, 2);
}

}  // namespace
}  // namespace ductwright::sample
