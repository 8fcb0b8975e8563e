#include <cstdlib>
#include <iostream>

#include "commands.h"

namespace ductwright::cli {

Exit fault(const std::string& sentence) {
  std::cerr << sentence << '\n';
  return Exit::fault;
}

void Actor::addTo(CLI::App& command) {
  const char* const user = std::getenv("USER");
  person = user != nullptr && *user != '\0' ? user : "command line";
  command.add_option("--by", person, "Who does this, as the history names them")->capture_default_str();
  command.add_option("--role", role, "Their role")
      ->check(CLI::IsMember({"commissioning agent", "reviewer", "owner's representative", "contractor"}))
      ->capture_default_str();
  command.add_option("--reason", reason, "Why; needed where a sign-off stands on what changes");
}

project::Author Actor::author() const { return {person, fleet::read<fleet::Role>(role).value_or(fleet::Role::agent)}; }

}  // namespace ductwright::cli

int main(int argc, char** argv) {
  using namespace ductwright::cli;
  CLI::App program{
      "Ductwright proves a building's fleet of VAV terminal units.\n\n"
      "Examples:\n"
      "  ductwright-cli create tower.ductwright --building \"North Tower\" --units ip --elevation \"620 ft\"\n"
      "  ductwright-cli import schedule tower.ductwright schedule.xlsx --dry-run\n"
      "  ductwright-cli import readings tower.ductwright monday.csv\n"
      "  ductwright-cli score tower.ductwright --format json\n"
      "  ductwright-cli report tower.ductwright --kind commissioning --out tower.pdf\n\n"
      "Exit status: 0 done; 1 the input or the project is at fault, and nothing was written; 2 wrong usage."};
  program.name("ductwright-cli");
  program.set_version_flag("--version", "ductwright-cli " DUCTWRIGHT_VERSION);
  program.require_subcommand(1);

  Exit exit = Exit::done;
  addCreate(program, exit);
  addImport(program, exit);
  addReview(program, exit);
  addScore(program, exit);
  addReport(program, exit, argc, argv);
  addHistory(program, exit);
  addVerify(program, exit);

  try {
    program.parse(argc, argv);
  } catch (const CLI::Success& asked) {
    return program.exit(asked);
  } catch (const CLI::ParseError& wrong) {
    program.exit(wrong);
    return static_cast<int>(Exit::usage);
  }
  std::cout.flush();
  if (!std::cout) return static_cast<int>(fault("The output could not be written: the disk is full or the reader went away."));
  return static_cast<int>(exit);
}
