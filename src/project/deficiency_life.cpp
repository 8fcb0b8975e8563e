#include "project/deficiency_life.h"

#include <algorithm>
#include <array>

namespace ductwright::project {
namespace {

using fleet::DeficiencyState;
using fleet::Role;
using enum fleet::DeficiencyState;

struct Move {
  DeficiencyState from, to;
  bool contractor;  // may the contractor make it; the agent may make all, recording what was told to him
  bool owner;       // may the owner's representative or the reviewer make it
};

constexpr auto kMoves = std::to_array<Move>({
    {raised, accepted, true, false},
    {raised, disputed, true, false},
    {raised, workReported, true, false},
    {raised, withdrawn, false, false},
    {accepted, workReported, true, false},
    {accepted, disputed, true, false},
    {accepted, withdrawn, false, false},
    {disputed, raised, false, true},
    {disputed, accepted, true, false},
    {disputed, withdrawn, false, false},
    {workReported, awaitingRetest, false, true},
    {workReported, raised, false, true},
    {awaitingRetest, raised, false, true},
    {proven, raised, false, true},
    {withdrawn, raised, false, true},
});

}  // namespace

std::vector<DeficiencyState> movesFor(DeficiencyState from, Role role) {
  std::vector<DeficiencyState> out;
  for (const Move& move : kMoves) {
    if (move.from != from) continue;
    const bool may = role == Role::agent || (role == Role::contractor && move.contractor) ||
                     ((role == Role::reviewer || role == Role::ownersRepresentative) && move.owner);
    if (may) out.push_back(move.to);
  }
  return out;
}

std::string lackingNote(DeficiencyState to, const std::string& note) {
  if (note.find_first_not_of(" \t\n") != std::string::npos) return {};
  switch (to) {
    case disputed: return "Say why it is disputed.";
    case workReported: return "Say what was done.";
    case withdrawn: return "Say why it is withdrawn.";
    case raised: return "Say why it is raised again.";
    case accepted:
    case awaitingRetest:
    case proven: break;
  }
  return {};
}

}  // namespace ductwright::project
