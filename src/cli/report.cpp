#include "report/report.h"

#include <QApplication>
#include <chrono>
#include <iostream>

#include "commands.h"

namespace ductwright::cli {
namespace {

struct Options {
  std::string path, kind = "commissioning", out, unit, title, by;
  bool progress = false;
};

fleet::Timestamp now() {
  using namespace std::chrono;
  return {duration_cast<milliseconds>(system_clock::now().time_since_epoch()).count(), 0};
}

// Lines "progress 0.42" on stdout, for a window that waits.
report::Progress teller(bool wanted) {
  if (!wanted) return {};
  return [last = -1.0](double share) mutable {
    if (share - last < 0.005 && share < 1) return;
    last = share;
    std::cout << "progress " << share << std::endl;
  };
}

Exit write(const Options& o, int& argc, char** argv) {
  const auto kind = report::kindNamed(o.kind);
  const auto format = report::formatOf(o.out);
  if (!format) return fault(o.out + ": the ending says the format: .pdf, .xlsx or .csv");
  if (*kind == report::ReportKind::unit && o.unit.empty()) return fault("A report of one unit needs --unit TAG");
  const auto opened = project::OpenProject::openReadOnly(o.path);
  if (!opened) return fault(opened.error().sentence);
  const project::State state = (*opened)->state();

  std::unique_ptr<QApplication> qt;
  if (*format == report::Format::pdf) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    qt = std::make_unique<QApplication>(argc, argv);
  }
  const report::ReportOptions options{o.title, now(), o.unit, state.head, o.by};
  const auto done = report::writeReport(*kind, *format, *state.snapshot, *state.verdicts, options, o.out, teller(o.progress));
  return done ? Exit::done : fault(done.error().sentence);
}

}  // namespace

void addReport(CLI::App& program, Exit& exit, int& argc, char** argv) {
  auto* const command = program.add_subcommand(
      "report", "Write a report; the file's ending chooses the format\n\nExamples:\n"
                "  ductwright-cli report tower.ductwright --kind commissioning --out tower.pdf\n"
                "  ductwright-cli report tower.ductwright --kind unit --unit 2-14 --out 2-14.pdf\n"
                "  ductwright-cli report tower.ductwright --kind deficiencies --out open.xlsx\n"
                "  ductwright-cli report tower.ductwright --kind turnover --out as-left.csv");
  const auto o = std::make_shared<Options>();
  command->add_option("PROJECT", o->path, "The project")->required();
  command->add_option("--kind", o->kind, "commissioning, unit, deficiencies or turnover")
      ->check(CLI::IsMember({"commissioning", "unit", "deficiencies", "turnover"}))
      ->required();
  command->add_option("--out", o->out, "The file to write: .pdf, .xlsx or .csv")->required();
  command->add_option("--unit", o->unit, "The unit's tag, for --kind unit");
  command->add_option("--title", o->title, "Instead of the kind's own title");
  command->add_option("--prepared-by", o->by, "Who hands the report over");
  command->add_flag("--progress", o->progress, "Print the share done as lines “progress 0.42”");
  command->callback([o, &exit, &argc, argv] { exit = write(*o, argc, argv); });
}

}  // namespace ductwright::cli
