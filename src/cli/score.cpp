#include "report/score.h"

#include <iostream>

#include "commands.h"

namespace ductwright::cli {
namespace {

struct Options {
  std::string path, unit, format = "text";
};

Exit score(const Options& o) {
  const auto opened = project::OpenProject::openReadOnly(o.path);
  if (!opened) return fault(opened.error().sentence);
  const project::State state = (*opened)->state();
  if (!o.unit.empty() && state.snapshot->unit(o.unit) == nullptr)
    return fault("There is no unit “" + o.unit + "” in this project");
  const auto write = o.format == "json" ? report::scoreJson : o.format == "csv" ? report::scoreCsv : report::scoreText;
  std::cout << write(*state.snapshot, *state.verdicts, o.unit);
  return Exit::done;
}

}  // namespace

void addScore(CLI::App& program, Exit& exit) {
  auto* const command = program.add_subcommand(
      "score", "Every unit's result and score, with its reasons\n\nExamples:\n"
               "  ductwright-cli score tower.ductwright\n"
               "  ductwright-cli score tower.ductwright --unit 2-14\n"
               "  ductwright-cli score tower.ductwright --format json > scores.json");
  const auto o = std::make_shared<Options>();
  command->add_option("PROJECT", o->path, "The project")->required();
  command->add_option("--unit", o->unit, "This unit alone, with every check");
  command->add_option("--format", o->format, "text, csv or json")->check(CLI::IsMember({"text", "csv", "json"}))->capture_default_str();
  command->callback([o, &exit] { exit = score(*o); });
}

}  // namespace ductwright::cli
