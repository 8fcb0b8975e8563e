#include "inside.h"

namespace ductwright::project {

using namespace fleet;

OpenProject::Inside::~Inside() {
  worker.run([this] { file.reset(); });
}

State OpenProject::Inside::read() const {
  const std::lock_guard lock(mutex);
  return now;
}

Doing OpenProject::Inside::doing(const std::string& reason) const {
  const std::lock_guard lock(mutex);
  const auto& environment = file->environment();
  return {author, environment.now(), reason, [&environment] { return environment.newUuid(); }};
}

void OpenProject::Inside::readJournal(State& state) const {
  state.undo.reset();
  state.redo.reset();
  if (const auto names = file->undoState()) {
    state.undo = names->undo;
    state.redo = names->redo;
  }
  if (const auto last = file->head()) state.head = store::hex(last->hash);
}

void OpenProject::Inside::publish(State next, const Notice& notice) {
  std::function<void(const Notice&)> tell;
  {
    const std::lock_guard lock(mutex);
    now = std::move(next);
    tell = listener;
  }
  if (tell) tell(notice);
}

namespace {

// The units whose record or verdict differs between two states of the same unit list order.
std::vector<UnitId> differing(const State& before, const State& after) {
  std::unordered_map<UnitId, std::pair<const UnitRecord*, const verdict::UnitVerdict*>, IdHash> was;
  was.reserve(before.snapshot->units.size());
  for (std::size_t i = 0; i < before.snapshot->units.size(); ++i)
    was.emplace(before.snapshot->units[i]->unit.id,
                std::pair(before.snapshot->units[i].get(), before.verdicts->units[i].get()));
  std::vector<UnitId> out;
  for (std::size_t i = 0; i < after.snapshot->units.size(); ++i) {
    const auto* record = after.snapshot->units[i].get();
    const auto old = was.find(record->unit.id);
    if (old == was.end() || old->second.first != record || old->second.second != after.verdicts->units[i].get())
      out.push_back(record->unit.id);
  }
  return out;
}

bool sameList(const Snapshot& a, const Snapshot& b) {
  if (a.units.size() != b.units.size()) return false;
  for (std::size_t i = 0; i < a.units.size(); ++i)
    if (a.units[i]->unit.id != b.units[i]->unit.id) return false;
  return true;
}

}  // namespace

Result<void> OpenProject::Inside::act(const std::string& name, const std::string& reason, const Change& change,
                                      const store::Progress& progress) {
  return worker.run([&]() -> Result<void> {
    const State before = read();
    if (before.readOnly) return failure("This project is open for reading only: close the other program, or work on a copy.");
    const Doing doing = this->doing(reason);
    State next = before;
    Notice notice;
    std::shared_ptr<Snapshot> fresh;
    const auto committed = file->commit(
        {name, doing.author.person, doing.author.role, reason},
        [&](store::Writer& writer) -> Result<void> {
          Edit edit(*before.snapshot, writer);
          if (auto changed = change(edit, doing); !changed) return changed;
          if (writer.failed()) return {};
          auto verdicts = settle(edit, before, doing);
          if (!verdicts) return tl::make_unexpected(verdicts.error());
          notice.designChanged = edit.designChanged();
          notice.unitListChanged = edit.unitListChanged();
          notice.deficienciesChanged = edit.deficienciesChanged();
          fresh = std::make_shared<Snapshot>(std::move(edit.next()));
          next.verdicts = std::make_shared<const verdict::FleetVerdict>(*std::move(verdicts));
          return {};
        },
        progress);
    if (!committed) return tl::make_unexpected(committed.error());
    if (committed->number == 0) return {};
    fresh->revision = static_cast<std::uint64_t>(committed->number);
    next.snapshot = std::move(fresh);
    readJournal(next);
    notice.revision = next.snapshot->revision;
    notice.action = name;
    notice.units = differing(before, next);
    publish(std::move(next), notice);
    return {};
  });
}

Result<void> OpenProject::Inside::turn(bool back, const std::string& reason) {
  return worker.run([&]() -> Result<void> {
    const State before = read();
    const Doing doing = this->doing(reason);
    const auto done = back ? file->undo(doing.author.person, doing.author.role, reason)
                           : file->redo(doing.author.person, doing.author.role, reason);
    if (!done) return tl::make_unexpected(done.error());
    auto loaded = file->refreshed(*before.snapshot, done->changed);
    if (!loaded) return tl::make_unexpected(loaded.error());
    State next = before;
    next.snapshot = std::make_shared<const Snapshot>(*std::move(loaded));
    next.verdicts = std::make_shared<const verdict::FleetVerdict>(
        verdict::judgeAgain(*next.snapshot, *before.snapshot, *before.verdicts));
    readJournal(next);
    const auto& c = done->changed;
    Notice notice;
    notice.revision = next.snapshot->revision;
    notice.action = (back ? "Undo " : "Redo ") + done->action;
    notice.units = differing(before, next);
    notice.unitListChanged = !sameList(*before.snapshot, *next.snapshot);
    notice.designChanged = c.project || c.buildings || c.airHandlers || c.profiles || c.roomSensors || c.segments ||
                           c.instruments || c.criteria;
    notice.deficienciesChanged = c.deficiencies;
    publish(std::move(next), notice);
    return {};
  });
}

}  // namespace ductwright::project
