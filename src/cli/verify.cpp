#include <iostream>

#include "commands.h"

namespace ductwright::cli {
namespace {

Exit verify(const std::string& path) {
  const auto opened = project::OpenProject::openReadOnly(path);
  if (!opened) return fault(opened.error().sentence);
  const auto integrity = (*opened)->verify();
  if (!integrity) return fault(integrity.error().sentence);
  for (const auto& finding : integrity->findings) std::cerr << path << ": " << finding << '\n';
  if (!integrity->sound) return fault(path + " is not sound: keep it as it is and go on from a copy made before");
  std::cout << path << " is sound: the file, every record, the journal's chain and the seals agree\n";
  return Exit::done;
}

}  // namespace

void addVerify(CLI::App& program, Exit& exit) {
  auto* const command = program.add_subcommand(
      "verify", "Recompute the file's records, the journal's chain and the seals\n\nExample:\n"
                "  ductwright-cli verify tower.ductwright");
  const auto path = std::make_shared<std::string>();
  command->add_option("PROJECT", *path, "The project")->required();
  command->callback([path, &exit] { exit = verify(*path); });
}

}  // namespace ductwright::cli
