#include "project/project.h"

#include <algorithm>
#include <array>
#include <unistd.h>

#include "blank.h"
#include "canonical.h"
#include "inside.h"
#include "project/deficiency_life.h"

namespace ductwright::project {

using namespace fleet;

namespace {

store::Environment here() {
  std::array<char, 256> host{};
  if (gethostname(host.data(), host.size() - 1) != 0) host[0] = '\0';
  return store::Environment::ofSystem(host[0] != '\0' ? host.data() : "this computer");
}

Result<Reading> readingFrom(const UnitRecord& record, const Snapshot& project, const NewReading& typed, const Doing& doing) {
  const auto dimension = dimensionOf(typed.quantity);
  const auto value = quantity::readQuantity(typed.typed, dimension, project.system);
  if (!value) return tl::make_unexpected(value.error());
  Reading reading;
  reading.procedure = typed.procedure;
  reading.step = typed.step;
  reading.quantity = typed.quantity;
  reading.run = record.currentRun(typed.procedure).value_or(1);
  reading.value = value->si;
  std::string text = typed.typed;
  if (!value->unitWasTyped && !value->unit->symbol.empty()) (text += ' ') += value->unit->symbol;
  reading.typed = Word(text);
  reading.outlet = Word(typed.outlet);
  reading.instrument = Word(typed.instrument);
  reading.note = Word(typed.note);
  reading.takenBy = Word(doing.author.person);
  reading.takenAt = typed.takenAt ? typed.takenAt : std::optional(doing.at);
  if (typed.waitedSeconds) {
    if (!(*typed.waitedSeconds >= 0)) return failure("The time waited cannot be negative: give the seconds since the command.");
    reading.waited = static_cast<float>(*typed.waitedSeconds);
  }
  return reading;
}

// The reading with this key, unless it is withdrawn; null where there is none.
const Reading* standing(const UnitRecord* record, const FactKey& key) {
  if (record == nullptr) return nullptr;
  const auto at = std::find_if(record->readings.begin(), record->readings.end(),
                               [&](const Reading& r) { return r.key == key && !r.withdrawn; });
  return at == record->readings.end() ? nullptr : &*at;
}

std::string described(const Reading& reading) {
  return std::string(name(reading.quantity)) + " " + reading.typed.text();
}

}  // namespace

OpenProject::OpenProject(std::unique_ptr<Inside> inside) : m_inside(std::move(inside)) {}
OpenProject::~OpenProject() = default;

namespace {

Result<State> stateOf(const store::ProjectFile& file) {
  auto snapshot = file.load();
  if (!snapshot) return tl::make_unexpected(snapshot.error());
  State state;
  state.verdicts = std::make_shared<const verdict::FleetVerdict>(verdict::judgeFleet(*snapshot));
  state.snapshot = std::make_shared<const Snapshot>(*std::move(snapshot));
  state.readOnly = !file.writable();
  return state;
}

}  // namespace

Result<std::unique_ptr<OpenProject>> OpenProject::create(const std::string& path, const NewProject& fresh, Author author) {
  if (blank(fresh.name)) return failure("A project needs its building's name.");
  auto inside = std::make_unique<Inside>();
  inside->path = path;
  inside->author = author;
  const auto made = inside->worker.run([&]() -> Result<void> {
    auto file = store::ProjectFile::create(path, here(), {fresh.name, fresh.system, fresh.elevation},
                                           {"Create the project " + fresh.name, author.person, author.role, {}});
    if (!file) return tl::make_unexpected(file.error());
    inside->file = *std::move(file);
    auto state = stateOf(*inside->file);
    if (!state) return tl::make_unexpected(state.error());
    inside->now = *std::move(state);
    inside->readJournal(inside->now);
    return {};
  });
  if (!made) return tl::make_unexpected(made.error());
  return std::unique_ptr<OpenProject>(new OpenProject(std::move(inside)));
}

namespace {

struct Opened {
  std::unique_ptr<store::ProjectFile> file;
  State state;
};

Result<Opened> openedFile(const std::string& path, store::Access access) {
  auto opening = store::ProjectFile::open(path, here(), access);
  if (!opening.project) return failure(opening.sentence);
  if (access == store::Access::write && !opening.project->writable()) return failure(opening.sentence);
  auto state = stateOf(*opening.project);
  if (!state) return tl::make_unexpected(state.error());
  return Opened{std::move(opening.project), *std::move(state)};
}

}  // namespace

Result<std::unique_ptr<OpenProject>> OpenProject::open(const std::string& path, Author author) {
  auto inside = std::make_unique<Inside>();
  inside->path = path;
  inside->author = std::move(author);
  const auto done = inside->worker.run([&]() -> Result<void> {
    auto opened = openedFile(path, store::Access::write);
    if (!opened) return tl::make_unexpected(opened.error());
    inside->file = std::move(opened->file);
    inside->now = std::move(opened->state);
    inside->readJournal(inside->now);
    return {};
  });
  if (!done) return tl::make_unexpected(done.error());
  return std::unique_ptr<OpenProject>(new OpenProject(std::move(inside)));
}

Result<std::unique_ptr<OpenProject>> OpenProject::openReadOnly(const std::string& path) {
  auto inside = std::make_unique<Inside>();
  inside->path = path;
  const auto done = inside->worker.run([&]() -> Result<void> {
    auto opened = openedFile(path, store::Access::read);
    if (!opened) return tl::make_unexpected(opened.error());
    inside->file = std::move(opened->file);
    inside->now = std::move(opened->state);
    inside->readJournal(inside->now);
    inside->now.readOnly = true;
    return {};
  });
  if (!done) return tl::make_unexpected(done.error());
  return std::unique_ptr<OpenProject>(new OpenProject(std::move(inside)));
}

const std::string& OpenProject::path() const { return m_inside->path; }
State OpenProject::state() const { return m_inside->read(); }
Author OpenProject::author() const {
  const std::lock_guard lock(m_inside->mutex);
  return m_inside->author;
}
void OpenProject::setAuthor(Author author) {
  const std::lock_guard lock(m_inside->mutex);
  m_inside->author = std::move(author);
}
void OpenProject::listen(std::function<void(const Notice&)> listener) {
  const std::lock_guard lock(m_inside->mutex);
  m_inside->listener = std::move(listener);
}

Result<verdict::UnitVerdict> OpenProject::preview(UnitId id, const NewReading& typed, std::optional<FactKey> inPlaceOf) const {
  const State now = state();
  const UnitRecord* record = now.snapshot->unit(id);
  if (record == nullptr) return failure("There is no such unit.");
  auto reading = readingFrom(*record, *now.snapshot, typed, {});
  if (!reading) return tl::make_unexpected(reading.error());
  if (!typed.takenAt) reading->takenAt.reset();
  UnitRecord draft = *record;
  for (Reading& r : draft.readings)
    if (inPlaceOf && r.key == *inPlaceOf) {
      r.withdrawn = true;
      reading->run = r.run;
    }
  reading->key.ordinal = UINT32_MAX;
  reading->key.batch.uuid.bytes.fill(0xFF);
  draft.readings.push_back(*reading);
  std::sort(draft.readings.begin(), draft.readings.end(), recordedBefore);
  return verdict::judge(draft, *now.snapshot);
}

Result<void> OpenProject::describe(const NewProject& project, const std::string& reason) {
  if (blank(project.name)) return failure("A project needs its building's name.");
  return m_inside->act("Describe the project", reason, [&](Edit& edit, const Doing&) -> Result<void> {
    edit.writer().put(store::ProjectInfo{project.name, project.system, project.elevation});
    edit.next().projectName = project.name;
    edit.next().system = project.system;
    edit.next().elevation = project.elevation;
    edit.changeDesign();
    return {};
  });
}

Result<void> OpenProject::putUnit(const Unit& unit, const std::string& reason) {
  if (blank(unit.tag)) return failure("A unit needs a tag.");
  if (const State now = state(); true) {
    const auto* same = now.snapshot->unit(unit.tag);
    if (same != nullptr && same->unit.id != unit.id) return failure("There is a unit " + unit.tag + " already: choose another tag.");
  }
  Unit kept = unit;
  const bool added = kept.id.isNull();
  return m_inside->act((added ? "Add unit " : "Change the schedule of ") + unit.tag, reason, [&](Edit& edit, const Doing& doing) -> Result<void> {
    if (added) kept.id = {doing.newUuid()};
    edit.put(kept);
    return {};
  });
}

Result<void> OpenProject::removeUnit(UnitId id, const std::string& reason) {
  const State now = state();
  const UnitRecord* record = now.snapshot->unit(id);
  if (record == nullptr) return failure("There is no such unit.");
  return m_inside->act("Remove unit " + record->unit.tag, reason, [&](Edit& edit, const Doing&) -> Result<void> {
    edit.remove(id);
    return {};
  });
}

Result<void> OpenProject::putInstrument(const Instrument& instrument, const std::string& reason) {
  if (blank(instrument.serial)) return failure("An instrument needs its serial number.");
  return m_inside->act("Record instrument " + instrument.serial, reason, [&](Edit& edit, const Doing& doing) -> Result<void> {
    Instrument kept = instrument;
    auto& all = edit.next().instruments;
    const auto same = std::find_if(all.begin(), all.end(), [&](const Instrument& i) { return i.serial == kept.serial; });
    kept.id = same != all.end() ? same->id : InstrumentId{doing.newUuid()};
    edit.writer().put(kept);
    if (same != all.end()) *same = kept;
    else all.push_back(kept);
    edit.changeDesign();
    return {};
  });
}

Result<void> OpenProject::putCriteria(const Criteria& criteria, const std::string& reason) {
  return m_inside->act("Change the acceptance criteria", reason, [&](Edit& edit, const Doing&) -> Result<void> {
    Criteria kept = criteria;
    kept.version = edit.next().criteria.version;
    if (kept == edit.next().criteria) return {};
    ++kept.version;
    edit.writer().put(kept);
    edit.next().criteria = kept;
    edit.changeDesign();
    return {};
  });
}

Result<int> OpenProject::startRun(UnitId id, Procedure procedure, const std::string& reason) {
  int number = 1;
  const State now = state();
  const UnitRecord* known = now.snapshot->unit(id);
  if (known == nullptr) return failure("There is no such unit.");
  if (known->currentRun(procedure) && blank(reason))
    return failure("Say why it is done again: a new run of " + std::string(name(procedure)) + " supersedes the one before as a whole.");
  const auto done = m_inside->act("Start a run of " + std::string(name(procedure)) + " at " + known->unit.tag, reason,
                                  [&](Edit& edit, const Doing& doing) -> Result<void> {
                                    number = edit.find(id)->currentRun(procedure).value_or(0) + 1;
                                    edit.put(id, Run{{doing.newUuid()}, procedure, number, doing.at, doing.author.person, reason});
                                    return {};
                                  });
  if (!done) return tl::make_unexpected(done.error());
  return number;
}

Result<FactKey> OpenProject::addReading(UnitId id, const NewReading& typed, const std::string& reason) {
  const State now = state();
  const UnitRecord* known = now.snapshot->unit(id);
  if (known == nullptr) return failure("There is no such unit.");
  const auto checked = readingFrom(*known, *now.snapshot, typed, m_inside->doing(reason));
  if (!checked) return tl::make_unexpected(checked.error());
  FactKey key;
  const auto done = m_inside->act("Enter " + described(*checked) + " at " + known->unit.tag, reason,
                                  [&](Edit& edit, const Doing& doing) -> Result<void> {
                                    auto reading = readingFrom(*edit.find(id), edit.next(), typed, doing);
                                    if (!reading) return tl::make_unexpected(reading.error());
                                    key = edit.add(edit.writer().newBatch("typed"), id, *reading);
                                    return {};
                                  });
  if (!done) return tl::make_unexpected(done.error());
  return key;
}

Result<void> OpenProject::withdrawReading(UnitId id, FactKey key, const std::string& reason) {
  const State now = state();
  const UnitRecord* known = now.snapshot->unit(id);
  const Reading* struck = standing(known, key);
  if (struck == nullptr) return failure("There is no such reading, or it is withdrawn already.");
  if (blank(reason)) return failure("Say why the reading is withdrawn: it stays readable, struck.");
  return m_inside->act("Withdraw " + described(*struck) + " at " + known->unit.tag, reason, [&](Edit& edit, const Doing&) -> Result<void> {
    edit.withdraw(id, key, reason);
    return {};
  });
}

Result<FactKey> OpenProject::correctReading(UnitId id, FactKey key, const NewReading& typed, const std::string& reason) {
  const State now = state();
  const UnitRecord* known = now.snapshot->unit(id);
  const Reading* struck = standing(known, key);
  if (struck == nullptr) return failure("There is no such reading, or it is withdrawn already.");
  if (blank(reason)) return failure("Say why the reading is corrected: the old one stays readable, struck.");
  const auto checked = readingFrom(*known, *now.snapshot, typed, m_inside->doing(reason));
  if (!checked) return tl::make_unexpected(checked.error());
  FactKey fresh;
  const auto done = m_inside->act("Correct " + described(*struck) + " to " + checked->typed.text() + " at " + known->unit.tag, reason,
                                  [&](Edit& edit, const Doing& doing) -> Result<void> {
                                    auto reading = readingFrom(*edit.find(id), edit.next(), typed, doing);
                                    if (!reading) return tl::make_unexpected(reading.error());
                                    reading->run = struck->run;
                                    if (!typed.takenAt) reading->takenAt = struck->takenAt;
                                    edit.withdraw(id, key, reason);
                                    fresh = edit.add(edit.writer().newBatch("typed"), id, *reading);
                                    return {};
                                  });
  if (!done) return tl::make_unexpected(done.error());
  return fresh;
}

Result<DeficiencyId> OpenProject::raiseDeficiency(const Deficiency& deficiency) {
  if (blank(deficiency.title)) return failure("Say what is wrong.");
  const State now = state();
  const UnitRecord* unit = now.snapshot->unit(deficiency.unit);
  if (unit == nullptr) return failure("Say at which unit it is.");
  Deficiency kept = deficiency;
  const auto done = m_inside->act("Raise a deficiency at " + unit->unit.tag, {}, [&](Edit& edit, const Doing& doing) -> Result<void> {
    kept.id = {doing.newUuid()};
    kept.cause = "by hand " + kept.id.uuid.text();
    kept.number = 1;
    for (const Deficiency& d : edit.next().deficiencies) kept.number = std::max(kept.number, d.number + 1);
    kept.moves = {{DeficiencyState::raised, doing.at, doing.author.person, doing.author.role, "raised by hand"}};
    edit.put(kept);
    return {};
  });
  if (!done) return tl::make_unexpected(done.error());
  return kept.id;
}

std::vector<DeficiencyState> OpenProject::movesOf(const Deficiency& deficiency) const {
  return movesFor(deficiency.state(), author().role);
}

Result<void> OpenProject::moveDeficiency(DeficiencyId id, DeficiencyState to, const std::string& note) {
  const State now = state();
  const auto& all = now.snapshot->deficiencies;
  const auto at = std::find_if(all.begin(), all.end(), [&](const Deficiency& d) { return d.id == id; });
  if (at == all.end()) return failure("There is no such deficiency.");
  const auto allowed = movesOf(*at);
  if (std::find(allowed.begin(), allowed.end(), to) == allowed.end())
    return failure("A deficiency that is " + std::string(name(at->state())) + " cannot be moved to " + std::string(name(to)) + " by the " +
                   std::string(name(author().role)) + (to == DeficiencyState::proven ? ": only a new run that passes proves it." : "."));
  if (const std::string lacking = lackingNote(to, note); !lacking.empty()) return failure(lacking);
  return m_inside->act("Deficiency " + std::to_string(at->number) + ": " + std::string(name(to)), note,
                       [&](Edit& edit, const Doing& doing) -> Result<void> {
                         edit.move(id, {to, doing.at, doing.author.person, doing.author.role, note});
                         return {};
                       });
}

Result<SignOffId> OpenProject::signOff(UnitId id, const std::string& meaning, const std::string& exceptions) {
  const State now = state();
  const UnitRecord* record = now.snapshot->unit(id);
  if (record == nullptr) return failure("There is no such unit.");
  const Author who = author();
  if (blank(who.person)) return failure("A sign-off needs the name of the person who signs.");
  if (who.role == Role::contractor) return failure("A contractor reports work; the agent, a reviewer or the owner's representative signs.");
  if (blank(meaning)) return failure("Say what the signature means.");
  SignOffId signedAs;
  const auto done = m_inside->act("Sign off " + record->unit.tag + " as " + std::string(name(who.role)), {}, [&](Edit& edit, const Doing& doing) -> Result<void> {
    const UnitRecord& current = *edit.find(id);
    const auto verdict = verdict::judge(current, edit.next());
    if (verdict.outcome != verdict::Outcome::pass && blank(exceptions))
      return failure(current.unit.tag + " is “" + std::string(verdict::name(verdict.outcome)) + "”: name the exceptions with which it is signed.");
    signedAs = {doing.newUuid()};
    SignOff s;
    s.id = signedAs;
    s.unit = id;
    s.person = doing.author.person;
    s.role = doing.author.role;
    s.meaning = blank(exceptions) ? meaning : meaning + "; except: " + exceptions;
    s.at = doing.at;
    edit.sign(s, {kCanonicalFormat, canonicalText(current, verdict, edit.next())});
    return {};
  });
  if (!done) return tl::make_unexpected(done.error());
  return signedAs;
}

Result<void> OpenProject::undo(const std::string& reason) { return m_inside->turn(true, reason); }
Result<void> OpenProject::redo(const std::string& reason) { return m_inside->turn(false, reason); }

Result<Integrity> OpenProject::verify(const Progress& progress, std::stop_token stop) const {
  return m_inside->worker.run([&]() -> Result<Integrity> {
    store::Progress told{stop, {}};
    if (progress) {
      const auto now = m_inside->read();
      std::size_t rows = 1;
      for (const auto& unit : now.snapshot->units) rows += unit->readings.size();
      told.report = [&progress, rows](std::uint64_t done) { progress(std::min(1.0, static_cast<double>(done) / static_cast<double>(rows))); };
    }
    const auto findings = m_inside->file->verify(told);
    if (!findings) return tl::make_unexpected(findings.error());
    Integrity out{findings->empty(), {}};
    for (const auto& finding : *findings) out.findings.push_back(finding.where + ": " + finding.sentence);
    const State now = m_inside->read();
    for (std::size_t i = 0; i < now.snapshot->units.size(); ++i)
      for (const SignOff& s : now.snapshot->units[i]->signOffs) {
        if (!s.brokenBecause.empty()) continue;
        const store::SignedBytes seen{kCanonicalFormat, canonicalText(*now.snapshot->units[i], *now.verdicts->units[i], *now.snapshot)};
        if (seen.digest() == s.digest) continue;
        out.sound = false;
        out.findings.push_back(now.snapshot->units[i]->unit.tag + ": what " + s.person + " signed on " + s.at.shortText() +
                               " is not what the project holds now");
      }
    return out;
  });
}

Result<void> OpenProject::saveCopy(const std::string& path) const {
  return m_inside->worker.run([&] { return m_inside->file->saveCopy(path); });
}

}  // namespace ductwright::project
