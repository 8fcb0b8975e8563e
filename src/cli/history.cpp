#include <iostream>
#include <nlohmann/json.hpp>

#include "commands.h"

namespace ductwright::cli {
namespace {

struct Options {
  std::string path, unit, format = "text";
  std::size_t most = 0;
};

void printJson(const std::vector<project::HistoryEntry>& entries) {
  auto list = nlohmann::ordered_json::array();
  for (const auto& e : entries)
    list.push_back({{"id", e.id}, {"at", e.at.text()}, {"person", e.person}, {"role", e.role}, {"device", e.device},
                    {"kind", e.kind}, {"action", e.action}, {"reason", e.reason}, {"changes", e.changes}});
  std::cout << nlohmann::ordered_json{{"schema", 1}, {"entries", list}}.dump(2) << '\n';
}

void printText(const std::vector<project::HistoryEntry>& entries) {
  for (const auto& e : entries) {
    std::cout << e.at.shortText() << "  " << e.person << " (" << e.role << ")  " << e.action << '\n';
    if (!e.reason.empty()) std::cout << "    because: " << e.reason << '\n';
    for (const auto& change : e.changes) std::cout << "    " << change << '\n';
  }
}

Exit history(const Options& o) {
  const auto opened = project::OpenProject::openReadOnly(o.path);
  if (!opened) return fault(opened.error().sentence);
  if (!o.unit.empty() && (*opened)->state().snapshot->unit(o.unit) == nullptr)
    return fault("There is no unit “" + o.unit + "” in this project");
  const auto entries = (*opened)->history(o.unit, o.most);
  if (!entries) return fault(entries.error().sentence);
  o.format == "json" ? printJson(*entries) : printText(*entries);
  return Exit::done;
}

}  // namespace

void addHistory(CLI::App& program, Exit& exit) {
  auto* const command = program.add_subcommand(
      "history", "Who did what, when and why, newest first\n\nExample:\n  ductwright-cli history tower.ductwright --unit 2-14");
  const auto o = std::make_shared<Options>();
  command->add_option("PROJECT", o->path, "The project")->required();
  command->add_option("--unit", o->unit, "Of this unit alone");
  command->add_option("--most", o->most, "At most so many entries; 0: all")->capture_default_str();
  command->add_option("--format", o->format, "text or json")->check(CLI::IsMember({"text", "json"}))->capture_default_str();
  command->callback([o, &exit] { exit = history(*o); });
}

}  // namespace ductwright::cli
