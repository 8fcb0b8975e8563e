#pragma once

#include <charconv>
#include <string>
#include <type_traits>

#include "columns.h"
#include "fleet/record.h"

// A project's snapshot as text, every field of every record, so that two can be compared and a difference is
// seen.
namespace ductwright::store::testing {

class Dumper {
 public:
  template <class T>
  void operator()(const char* name, const T& value) {
    text += name;
    text += '=';
    put(value);
    text += ' ';
  }
  template <class T>
  void moment(const char* at, const char*, const T& value) {
    (*this)(at, value);
  }
  std::string text;

 private:
  void put(const std::string& value) { text += value; }
  void put(fleet::Word value) { text += value.text(); }
  void put(const fleet::Uuid& value) { text += value.text(); }
  void put(double value) {
    std::array<char, 32> buffer{};
    text.append(buffer.data(), std::to_chars(buffer.data(), buffer.data() + 32, value).ptr);
  }
  void put(float value) { put(static_cast<double>(value)); }
  void put(int value) { text += std::to_string(value); }
  void put(std::int64_t value) { text += std::to_string(value); }
  void put(bool value) { text += value ? "yes" : "no"; }
  void put(const fleet::Day& value) { text += value.text(); }
  void put(const fleet::Timestamp& t) {
    text += std::to_string(t.utcMillis) + "/" + std::to_string(t.offsetMinutes);
  }
  template <Quantity T>
  void put(const T& value) {
    put(value.si());
  }
  template <class Enum>
  requires std::is_enum_v<Enum>
  void put(Enum value) { text += word(value); }
  template <class T>
  void put(const std::vector<T>& values) {
    for (const T& value : values) put(value);
  }
  template <class T>
  void put(const std::optional<T>& value) {
    if (value)
      put(*value);
    else
      text += "none";
  }
};

template <class Record>
void dumpRecord(Dumper& out, const char* kind, const fleet::Uuid& id, const Record& record) {
  out.text += std::string(kind) + ' ' + id.text() + ": ";
  fields(out, record);
  out.text += '\n';
}

inline void dumpReading(Dumper& out, const fleet::Reading& r) {
  out.text += "reading ";
  out("batch", r.key.batch.uuid);
  out("ordinal", static_cast<int>(r.key.ordinal));
  out("value", r.value);
  out("at", r.takenAt);
  out("waited", r.waited);
  out("run", r.run);
  out("step", r.step);
  for (const fleet::Word text : {r.outlet, r.typed, r.instrument, r.takenBy, r.note}) out("text", text);
  out("procedure", r.procedure);
  out("quantity", r.quantity);
  out("withdrawn", r.withdrawn);
  out.text += '\n';
}

inline std::string dumped(const fleet::Snapshot& s) {
  Dumper out;
  out("name", s.projectName);
  out("system", s.system);
  out("elevation", s.elevation);
  dumpRecord(out, "criteria", {}, s.criteria);
  for (const auto& b : s.buildings) dumpRecord(out, "building", b.id.uuid, b);
  for (const auto& a : s.airHandlers) dumpRecord(out, "air handler", a.id.uuid, a);
  for (const auto& p : s.profiles) dumpRecord(out, "profile", p.id.uuid, p);
  for (const auto& r : s.roomSensors) dumpRecord(out, "sensor", r.id.uuid, r);
  for (const auto& n : s.segments) dumpRecord(out, "segment", n.id.uuid, n);
  for (const auto& i : s.instruments) {
    dumpRecord(out, "instrument", i.id.uuid, i);
    for (const auto& a : i.accuracies) dumpRecord(out, "accuracy", i.id.uuid, a);
  }
  for (const auto& d : s.deficiencies) {
    dumpRecord(out, "deficiency", d.id.uuid, d);
    for (const auto& m : d.moves) dumpRecord(out, "move", d.unit.uuid, m);
  }
  for (const auto& u : s.units) {
    dumpRecord(out, "unit", u->unit.id.uuid, u->unit);
    for (const auto& run : u->runs) dumpRecord(out, "run", run.id.uuid, run);
    for (const auto& f : u->settings) dumpRecord(out, f.setting.c_str(), f.unit.uuid, f);
    for (const auto& f : u->signOffs) dumpRecord(out, "sign-off", f.id.uuid, f);
    for (const auto& r : u->readings) dumpReading(out, r);
  }
  return out.text;
}

}  // namespace ductwright::store::testing
