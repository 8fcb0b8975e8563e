#include "commands.h"

namespace ductwright::cli {
namespace {

struct Options {
  std::string path, building, units = "ip", elevation = "0 ft";
  Actor actor;
};

Exit create(const Options& o) {
  const auto system = o.units == "si" ? quantity::System::si : quantity::System::ip;
  const auto elevation = quantity::readQuantity(o.elevation, quantity::Dimension::elevation, system);
  if (!elevation) return fault("--elevation: " + elevation.error().sentence);
  const project::NewProject fresh{o.building, system, quantity::Length::fromSi(elevation->si)};
  const auto made = project::OpenProject::create(o.path, fresh, o.actor.author());
  return made ? Exit::done : fault(made.error().sentence);
}

}  // namespace

void addCreate(CLI::App& program, Exit& exit) {
  auto* const command = program.add_subcommand(
      "create", "Make a new project\n\nExample:\n"
                "  ductwright-cli create tower.ductwright --building \"North Tower\" --units si --elevation \"190 m\"");
  const auto o = std::make_shared<Options>();
  command->add_option("PROJECT", o->path, "The file to make, by habit NAME.ductwright")->required();
  command->add_option("--building", o->building, "The building's name")->required();
  command->add_option("--units", o->units, "ip or si")->check(CLI::IsMember({"ip", "si"}))->capture_default_str();
  command->add_option("--elevation", o->elevation, "The site above sea level, with its unit")->capture_default_str();
  o->actor.addTo(*command);
  command->callback([o, &exit] { exit = create(*o); });
}

}  // namespace ductwright::cli
