// A commissioning report, a page a unit with three vector plots each, on one core; against a floor in the same
// run: the same number of pages, each of 120 plain texts and nothing else, by the same PDF writer.
#include <benchmark/benchmark.h>
#include <unistd.h>

#include <QApplication>
#include <QFile>
#include <QPainter>
#include <QPdfWriter>
#include <ctime>
#include <filesystem>
#include <fstream>

#include "../report/invented_fleet.h"
#include "report/report.h"

namespace ductwright::report {
namespace {

// Processor time, so that what else the machine does tells less; the work runs on one thread.
double processorSeconds() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

// Resident memory now, in MB.
double residentMegabytes() {
  std::ifstream statm("/proc/self/statm");
  double total = 0, resident = 0;
  statm >> total >> resident;
  return resident * static_cast<double>(sysconf(_SC_PAGESIZE)) / 1e6;
}

// Resident memory at its greatest since the program began, in MB.
double greatestMegabytes() {
  std::ifstream status("/proc/self/status");
  for (std::string word; status >> word;) {
    if (word != "VmHWM:") continue;
    double kilobytes = 0;
    status >> kilobytes;
    return kilobytes / 1e3;
  }
  return 0;
}

std::string scratch(const char* name) { return (std::filesystem::temp_directory_path() / name).string(); }

// Pages of plain text a second.
double plainPagesPerSecond(int pages) {
  const std::string path = scratch("ductwright-bench-floor.pdf");
  const double start = processorSeconds();
  {
    QFile file(QString::fromStdString(path));
    if (!file.open(QIODevice::WriteOnly)) return 0;
    QPdfWriter writer(&file);
    writer.setResolution(1200);
    QPainter painter(&writer);
    painter.scale(1200 / 72.0, 1200 / 72.0);
    QFont font(QStringLiteral("Noto Sans"));
    font.setPixelSize(7);
    font.setStyleStrategy(QFont::PreferNoShaping);
    painter.setFont(font);
    for (int page = 0; page < pages; ++page) {
      if (page > 0) writer.newPage();
      for (int i = 0; i < 120; ++i) painter.drawText(QPointF(20 + i % 6 * 80, 20 + i / 6 * 30), QStringLiteral("measured 412 cfm"));
    }
  }
  const double took = processorSeconds() - start;
  std::filesystem::remove(path);
  return pages / took;
}

void commissioningReport(benchmark::State& state) {
  const auto units = static_cast<std::size_t>(state.range(0));
  const fleet::Snapshot project = inventedFleet(units);
  const verdict::FleetVerdict verdicts = verdict::judgeFleet(project);
  ReportOptions options;
  options.at = *fleet::Timestamp::fromText("2026-05-04T16:30:00Z");
  options.digest = std::string(64, 'c');
  const std::string path = scratch("ductwright-bench.pdf");
  const double floor = plainPagesPerSecond(500);
  const double before = residentMegabytes();
  double seconds = 0;
  for (auto _ : state) {
    const double start = processorSeconds();
    const auto done = writeReport(ReportKind::commissioning, Format::pdf, project, verdicts, options, path);
    seconds += processorSeconds() - start;
    if (!done) state.SkipWithError(done.error().sentence.c_str());
  }
  // A page a unit; the pages before and after them are not counted in its favour.
  const double speed = static_cast<double>(units) * static_cast<double>(state.iterations()) / seconds;
  state.counters["unit_pages_per_s"] = speed;
  state.counters["of_plain_text"] = speed / floor;
  state.counters["file_MB"] = static_cast<double>(std::filesystem::file_size(path)) / 1e6;
  state.counters["project_MB"] = before;
  state.counters["greatest_MB"] = greatestMegabytes();
  std::filesystem::remove(path);
}
BENCHMARK(commissioningReport)->Arg(500)->Arg(2000)->Unit(benchmark::kSecond)->Iterations(1);

}  // namespace
}  // namespace ductwright::report

int main(int argc, char** argv) {
  qputenv("QT_QPA_PLATFORM", "offscreen");
  const QApplication application(argc, argv);
  benchmark::Initialize(&argc, argv);
  benchmark::RunSpecifiedBenchmarks();
  return 0;
}
