#include "report/review.h"

#include <iostream>

#include "commands.h"

namespace ductwright::cli {
namespace {

Exit review(const std::string& path, const std::string& format) {
  const auto opened = project::OpenProject::openReadOnly(path);
  if (!opened) return fault(opened.error().sentence);
  const auto snapshot = (*opened)->state().snapshot;
  std::cout << (format == "json" ? report::reviewJson(*snapshot) : format == "csv" ? report::reviewCsv(*snapshot) : report::reviewText(*snapshot));
  return Exit::done;
}

}  // namespace

void addReview(CLI::App& program, Exit& exit) {
  auto* const command = program.add_subcommand(
      "review", "The desk review of the schedule, before anyone goes on site\n\nExample:\n"
                "  ductwright-cli review tower.ductwright --format csv > findings.csv");
  const auto path = std::make_shared<std::string>();
  const auto format = std::make_shared<std::string>("text");
  command->add_option("PROJECT", *path, "The project")->required();
  command->add_option("--format", *format, "text, csv or json")->check(CLI::IsMember({"text", "csv", "json"}))->capture_default_str();
  command->callback([path, format, &exit] { exit = review(*path, *format); });
}

}  // namespace ductwright::cli
