// Importing 400,000 readings of 10,000 units from CSV, against the sqlite3 shell's own .import of the same file.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <random>
#include <stop_token>
#include <string>
#include <thread>

#include "exchange/mapping.h"
#include "exchange/readings.h"
#include "exchange/table.h"
#include "project/project.h"

namespace {

using namespace ductwright;
namespace fs = std::filesystem;

constexpr int kUnits = 10'000, kReadings = 40;

double seconds(std::chrono::steady_clock::duration d) { return std::chrono::duration<double>(d).count(); }

template <class Work>
double timed(Work work) {
  const auto from = std::chrono::steady_clock::now();
  work();
  return seconds(std::chrono::steady_clock::now() - from);
}

// The peak of this process's memory since it was last cleared, in MB.
double peakMemory() {
  std::ifstream status("/proc/self/status");
  for (std::string line; std::getline(status, line);)
    if (line.starts_with("VmHWM:")) return std::strtod(line.c_str() + 6, nullptr) / 1024;
  return 0;
}
void clearPeak() { std::ofstream("/proc/self/clear_refs") << "5"; }

std::string tag(int unit) {
  char text[16];
  std::snprintf(text, sizeof text, "%d-%04d", unit / 500 + 1, unit % 500 + 1);
  return text;
}

// An invented building's schedule and readings as files, in a folder of their own.
class Files {
 public:
  Files() : m_folder(fs::temp_directory_path() / "ductwright_import_bench") {
    fs::remove_all(m_folder);
    fs::create_directories(m_folder);
    writeSchedule();
    writeReadings();
  }
  ~Files() { fs::remove_all(m_folder); }
  Files(const Files&) = delete;
  Files& operator=(const Files&) = delete;
  [[nodiscard]] std::string path(const std::string& name) const { return (m_folder / name).string(); }

 private:
  void writeSchedule() const {
    std::ofstream out(path("schedule.csv"));
    out << "unit,floor,kind,air handler,inlet diameter,cooling max flow,cooling min flow,heat,reheat flow,heater power\n";
    for (int u = 0; u < kUnits; ++u)
      out << tag(u) << ',' << u / 500 + 1 << ",reheat,AH-" << u / 2500 + 1 << ",8," << 400 + u % 100 << ',' << 100 + u % 20
          << ",electric staged," << 200 + u % 50 << ",4.5\n";
    std::ofstream(path("instruments.csv")) << "serial,quantity,percent of reading\nINV-1,flow,3\nINV-2,temperature,1\n";
  }

  void writeReadings() const {
    std::ofstream out(path("readings.csv"));
    std::mt19937 random(1);
    const auto about = [&](int value) { return value + static_cast<int>(random() % 50); };
    out << "unit,run,procedure,step,outlet,quantity,value,instrument,taken at,taken by,waited,note\n";
    int second = 0;
    const char* steps[] = {"cooling max", "cooling min", "reheat", "heating max"};
    for (int u = 0; u < kUnits; ++u)
      for (int r = 0; r < kReadings; ++r, ++second) {
        char time[40];
        std::snprintf(time, sizeof time, "2026-03-%02dT%02d:%02d:%02d+01:00", second / 86'400 + 1, second / 3'600 % 24, second / 60 % 60, second % 60);
        out << tag(u) << ",1,";
        if (r < 24)
          out << "airflow," << steps[r % 4] << ",," << (r % 3 == 0 ? "measured flow," : r % 3 == 1 ? "reported flow," : "damper position,")
              << (r % 3 == 2 ? std::to_string(about(20)) + " %" : std::to_string(about(400)) + "." + std::to_string(r % 10) + " cfm");
        else if (r < 34)
          out << "reheat lockout," << r / 2 << ",," << (r % 2 == 0 ? "measured flow," : "heat on,") << (r % 2 == 0 ? std::to_string(about(100)) : "1");
        else
          out << "discharge rise,heat on,," << (r % 2 == 0 ? "discharge air temperature," : "entering air temperature,") << about(55) << '.' << r % 10;
        out << (r % 2 == 0 ? ",INV-1," : ",,") << time << ",A. Invented," << 90 + r * 10 << ",\n";
      }
  }

  fs::path m_folder;
};

const Files& files() {
  static const Files made;
  return made;
}

// The floor: no types, no checks, one transaction.
double shellImport() {
  const std::string database = files().path("floor.sqlite");
  fs::remove(database);
  const std::string command = "sqlite3 '" + database + "' '.mode csv' '.import " + files().path("readings.csv") + " reading'";
  return timed([&] {
    if (std::system(command.c_str()) != 0) std::abort();
  });
}

fleet::Snapshot snapshotOfTags() {
  fleet::Snapshot out;
  for (int u = 0; u < kUnits; ++u) {
    auto record = std::make_shared<fleet::UnitRecord>();
    record->unit.tag = tag(u);
    record->unit.id.uuid.bytes[15] = static_cast<std::uint8_t>(u);
    record->unit.id.uuid.bytes[14] = static_cast<std::uint8_t>(u >> 8);
    out.units.push_back(std::move(record));
  }
  for (const char* serial : {"INV-1", "INV-2"}) out.instruments.emplace_back().serial = serial;
  return out;
}

// From the file to checked records, on one core.
void readReadings(benchmark::State& state) {
  const fleet::Snapshot project = snapshotOfTags();
  double floor = 1e9, ours = 1e9, memory = 0;
  for (auto unused : state) {
    (void)unused;
    floor = std::min(floor, shellImport());
    clearPeak();
    const double before = peakMemory();
    const double now = timed([&] {
      const auto table = exchange::readTable(fs::path(files().path("readings.csv")));
      const auto layout = exchange::layoutOf(exchange::suggestMapping(exchange::TableKind::readings, *table), *table, project.system);
      const auto read = exchange::readReadings(*table, layout, exchange::ReadingContext::of(project));
      if (!read || read->readings.size() != std::size_t{kUnits} * kReadings || !read->problems.empty()) std::abort();
    });
    memory = std::max(memory, peakMemory() - before);
    ours = std::min(ours, now);
    state.SetIterationTime(now);
  }
  state.counters["shell_ms"] = 1e3 * floor;
  state.counters["ours_ms"] = 1e3 * ours;
  state.counters["times_shell"] = ours / floor;
  state.counters["peak_mb"] = memory;
  state.counters["file_mb"] = static_cast<double>(fs::file_size(files().path("readings.csv"))) / 1048576;
}
BENCHMARK(readReadings)->UseManualTime()->Unit(benchmark::kMillisecond)->Iterations(5);

std::unique_ptr<project::OpenProject> newProject() {
  const std::string path = files().path("bench.ductwright");
  fs::remove(path);
  auto made = project::OpenProject::create(path, {"Invented House", quantity::System::ip, {}}, {"A. Invented", fleet::Role::agent});
  if (!made) std::abort();
  for (const auto& [kind, name] : {std::pair{project::TableKind::schedule, "schedule.csv"}, std::pair{project::TableKind::instruments, "instruments.csv"}}) {
    const auto preview = project::previewImport(**made, {kind, files().path(name), {}, {}});
    if (!preview || !(*made)->import(*preview, {}, {}, {})) std::abort();
  }
  return *std::move(made);
}

// From the file to facts in the project, judged, in one undoable action.
void importReadings(benchmark::State& state) {
  double floor = 1e9, ours = 1e9, memory = 0, undo = 1e9;
  for (auto unused : state) {
    (void)unused;
    floor = std::min(floor, shellImport());
    const auto open = newProject();
    clearPeak();
    const double now = timed([&] {
      const auto preview = project::previewImport(*open, {project::TableKind::readings, files().path("readings.csv"), {}, {}});
      if (!preview || preview->added != std::size_t{kUnits} * kReadings) std::abort();
      if (!open->import(*preview, {}, {}, {})) std::abort();
    });
    memory = std::max(memory, peakMemory());
    undo = std::min(undo, timed([&] {
      if (!open->undo()) std::abort();
    }));
    ours = std::min(ours, now);
    state.SetIterationTime(now);
  }
  state.counters["shell_ms"] = 1e3 * floor;
  state.counters["ours_ms"] = 1e3 * ours;
  state.counters["times_shell"] = ours / floor;
  state.counters["undo_ms"] = 1e3 * undo;
  state.counters["process_peak_mb"] = memory;
}
BENCHMARK(importReadings)->UseManualTime()->Unit(benchmark::kMillisecond)->Iterations(3);

// From asking an import to stop, at any share of its way, to its answer: the longest.
void cancelImport(benchmark::State& state) {
  const auto open = newProject();
  double longest = 0;
  for (auto unused : state) {
    (void)unused;
    for (double share = 0.05; share < 1; share += 0.1) {
      for (const bool reading : {true, false}) {
        std::stop_source stop;
        std::chrono::steady_clock::time_point asked{};
        const auto at = [&](double done) {
          if (done < share || stop.stop_requested()) return;
          asked = std::chrono::steady_clock::now();
          stop.request_stop();
        };
        const project::ImportRequest request{project::TableKind::readings, files().path("readings.csv"), {}, {}};
        const auto preview = project::previewImport(*open, request, reading ? project::Progress(at) : project::Progress(), reading ? stop.get_token() : std::stop_token());
        if (!reading) {
          if (!preview) std::abort();
          if (open->import(*preview, {}, at, stop.get_token())) std::abort();
        }
        longest = std::max(longest, seconds(std::chrono::steady_clock::now() - asked));
      }
    }
    if (open->state().snapshot->units.front()->readings.size() != 0) std::abort();
  }
  state.counters["longest_ms"] = 1e3 * longest;
}
BENCHMARK(cancelImport)->Unit(benchmark::kMillisecond)->Iterations(1);

}  // namespace

BENCHMARK_MAIN();
